import type { LangiumDocument } from 'langium';
import type { Formatter } from 'langium/lsp';
import type {
  DocumentFormattingParams,
  DocumentOnTypeFormattingOptions,
  DocumentOnTypeFormattingParams,
  DocumentRangeFormattingParams,
  TextEdit,
} from 'vscode-languageserver';
import type { TubDocument } from '../../lower/text/sources.js';
import { statementsOf } from '../../lower/text/statements.js';
import { layoutOf } from './layout.js';

/**
 * Sets spaces, indentation and blank lines; words, their order and their lines stay the builder's, and so do comments.
 * A text that cannot be read is left alone.
 */
export class TubFormatter implements Formatter {
  readonly formatOnTypeOptions: DocumentOnTypeFormattingOptions = { firstTriggerCharacter: '}' };

  formatDocument(document: LangiumDocument, params: DocumentFormattingParams): TextEdit[] {
    return [...layoutOf(document as TubDocument, params.options)];
  }

  formatDocumentRange(document: LangiumDocument, params: DocumentRangeFormattingParams): TextEdit[] {
    const { start, end } = params.range;
    return layoutOf(document as TubDocument, params.options).filter(
      ({ range }) => range.end.line >= start.line && range.start.line <= end.line,
    );
  }

  /** A block that is closed is laid out, from the statement that opened it; nothing beyond the bracket is touched. */
  formatDocumentOnType(document: LangiumDocument, { position, options }: DocumentOnTypeFormattingParams): TextEdit[] {
    const { textDocument } = document;
    const end = textDocument.offsetAt(position);
    const text = textDocument.getText().slice(0, end);
    const start = [...statementsOf((document as TubDocument).parseResult.value)].find(
      ({ $cstNode }) => $cstNode !== undefined && $cstNode.end === end && text.endsWith('}'),
    )?.$cstNode;
    if (!start) return [];
    return layoutOf(document as TubDocument, options).filter(
      ({ range }) => textDocument.offsetAt(range.start) >= start.offset && textDocument.offsetAt(range.end) <= end,
    );
  }
}
