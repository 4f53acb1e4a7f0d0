import type { Stages } from '../analysis/stages.js';
import type { Page, PageParams } from './protocol.js';

/** A page about one tub, as Markdown; says what is not known instead of leaving it out. */
export const pageOf = (page: PageParams['page'], stages: Stages): Page => {
  const title = { 'bend plan': 'Bend plan', 'fill test': 'Fill test' }[page];
  return { title, markdown: `# ${title}: ${stages.tub.name}\n\n${NOT_KNOWN[page]}\n` };
};

const NOT_KNOWN: Readonly<Record<PageParams['page'], string>> = {
  'bend plan': 'No bending order is known for this tub.',
  'fill test': 'The level to which this tub holds is not known, so there is no fill test for it.',
};
