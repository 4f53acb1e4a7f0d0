import { createLangiumParser, type LangiumCoreServices, type LangiumParser } from 'langium';
import type { IToken } from 'chevrotain';

/** Comments that are put into the tree by one call: all of a long row at once would not fit the call stack. */
const AT_ONCE = 1000;

/** The part of the parser that puts comments into the tree; in portions they come to stand where they would in one go. */
interface TreeBuilder {
  addHiddenNodes(tokens: IToken[]): void;
}

/** The parser of the grammar, for texts with any number of comments. */
export const createTubParser = (services: LangiumCoreServices): LangiumParser => {
  const parser = createLangiumParser(services);
  const { nodeBuilder } = parser as unknown as { readonly nodeBuilder: TreeBuilder };
  const add = nodeBuilder.addHiddenNodes.bind(nodeBuilder);
  nodeBuilder.addHiddenNodes = (tokens) => {
    for (let i = 0; i < tokens.length; i += AT_ONCE) add(tokens.slice(i, i + AT_ONCE));
  };
  return parser;
};
