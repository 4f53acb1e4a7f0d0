/** Places in a text, and edits of it, as they go between editor and language server. */

/** Zero-based, columns in UTF-16 units, as everywhere in the language server protocol. */
export interface TextPosition {
  readonly line: number;
  readonly character: number;
}

export interface TextRange {
  readonly start: TextPosition;
  readonly end: TextPosition;
}

/** Edits for one version of a text; none where nothing is to be written. */
export interface ValueEdits {
  readonly version: number;
  readonly edits: readonly { readonly range: TextRange; readonly newText: string }[];
}
