import type { LangiumDocument } from 'langium';
import type { Formatter } from 'langium/lsp';
import type {
  DocumentFormattingParams,
  DocumentOnTypeFormattingOptions,
  DocumentRangeFormattingParams,
  TextEdit,
} from 'vscode-languageserver';
import type { TubDocument } from '../../lower/sources.js';
import { layoutOf } from './layout.js';

/**
 * Sets spaces, indentation and blank lines; words, their order and their lines stay the builder's, and so do comments.
 * A text that cannot be read is left alone.
 */
export class TubFormatter implements Formatter {
  readonly formatOnTypeOptions: DocumentOnTypeFormattingOptions | undefined = undefined;

  formatDocument(document: LangiumDocument, params: DocumentFormattingParams): TextEdit[] {
    return [...layoutOf(document as TubDocument, params.options)];
  }

  formatDocumentRange(document: LangiumDocument, params: DocumentRangeFormattingParams): TextEdit[] {
    const { start, end } = params.range;
    return layoutOf(document as TubDocument, params.options).filter(
      ({ range }) => range.end.line >= start.line && range.start.line <= end.line,
    );
  }

  formatDocumentOnType(): TextEdit[] {
    return [];
  }
}
