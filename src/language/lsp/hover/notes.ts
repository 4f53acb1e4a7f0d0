import type { AstNode, CommentProvider, DocumentationProvider } from 'langium';
import { literally } from './markdown.js';

/** Characters of a note that are shown; a hover is no place for more. */
const LONGEST_NOTE = 2000;

/** The comment `/** … *\/` before a statement, for hovers and completion: as it is written, with nothing in it interpreted. */
export class TubNotes implements DocumentationProvider {
  constructor(private readonly services: { readonly documentation: { readonly CommentProvider: CommentProvider } }) {}

  getDocumentation(node: AstNode): string | undefined {
    const comment = this.services.documentation.CommentProvider.getComment(node);
    if (!comment?.startsWith('/**')) return undefined;
    const text = comment
      .slice(3, 3 + LONGEST_NOTE)
      .replace(/\*\/$/, '')
      .split(/\r\n|\n|\r/)
      .map((line) => line.replace(/^[ \t]*\*?[ \t]?/, '').trimEnd())
      .join('\n')
      .trim();
    // Two blanks at its end keep a line of its own in Markdown.
    return text === '' ? undefined : literally(text).replace(/\n/g, '  \n');
  }
}
