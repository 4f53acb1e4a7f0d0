import type { LangiumDocument } from 'langium';
import { DefaultRenameProvider } from 'langium/lsp';
import {
  ResponseError,
  type RenameParams,
  type TextDocumentPositionParams,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { Range } from 'vscode-languageserver-types';
import { RESERVED_WORDS } from '../parser/words.js';

/** JSON-RPC: the request cannot be done as asked. */
const INVALID_PARAMS = -32602;

/** Renames a name and all that refer to it, in every file; refuses a name that the text could not hold. */
export class TubRename extends DefaultRenameProvider {
  override async rename(document: LangiumDocument, params: RenameParams): Promise<WorkspaceEdit | undefined> {
    const fault = faultOf(params.newName);
    if (fault) throw new ResponseError(INVALID_PARAMS, fault);
    return super.rename(document, params);
  }

  /** A text in quotes is a title, not a name: nothing refers to it. */
  protected override renameNodeRange(
    document: LangiumDocument,
    position: TextDocumentPositionParams['position'],
  ): Range | undefined {
    const range = super.renameNodeRange(document, position);
    return range && !document.textDocument.getText(range).startsWith('"') ? range : undefined;
  }
}

const faultOf = (name: string): string | undefined => {
  if (!/^[A-Za-z_][A-Za-z0-9_]*$/.test(name))
    return `"${name}" is not a name; names are made of a-z, A-Z, 0-9 and _, and start with a letter`;
  return RESERVED_WORDS.has(name) ? `"${name}" is a word of the language; choose another name` : undefined;
};
