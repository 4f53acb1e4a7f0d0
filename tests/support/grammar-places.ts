import { CstUtils, isLeafCstNode, URI, type AstNode, type LeafCstNode } from 'langium';
import { testServices } from './analyse-text.js';

/** A word of a text. */
export interface GrammarPlace {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/** The words of a text as the grammar reads them; none of comments. */
const leavesOf = (text: string): readonly LeafCstNode[] => {
  const { LangiumDocumentFactory } = testServices().shared.workspace;
  const root = LangiumDocumentFactory.fromString(text, URI.parse('memory:/place.tub')).parseResult.value.$cstNode;
  return root
    ? [...CstUtils.streamCst(root)].filter((node) => isLeafCstNode(node)).filter(({ hidden }) => !hidden)
    : [];
};

/** Every place of the grammar that the texts have a word at, once, in the shortest text that has one; told apart by what owns the word. */
export const grammarPlaces = (texts: readonly string[]): readonly GrammarPlace[] => {
  const sources = new Map<unknown, number>();
  const places = new Map<string, GrammarPlace>();
  for (const text of [...texts].sort((a, b) => a.length - b.length)) {
    for (const { grammarSource, astNode, offset, end } of leavesOf(text)) {
      if (!sources.has(grammarSource)) sources.set(grammarSource, sources.size);
      const owner: AstNode | undefined = astNode.$container;
      const key = `${sources.get(grammarSource)} ${astNode.$type} ${astNode.$containerProperty} ${owner?.$type}`;
      if (!places.has(key)) places.set(key, { text, start: offset, end });
    }
  }
  return [...places.values()];
};
