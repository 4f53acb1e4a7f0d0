import type { Finding } from '../../analysis/model/finding.js';
import type { Tub } from '../../analysis/model/tub.js';
import type { StandIns } from '../lower/lowering.js';
import type { SourceTable, TubDocument } from '../lower/text/sources.js';
import { NAME_SIGN } from '../parser/name-letters.js';
import { STATEMENT_NEEDED } from '../parser/syntax-messages.js';

/** What checks find of metal, by the thickness and radius of its sheet. */
const ofMetal = /^(bend|flat|join|make|seal)\//;
/** What checks find of water, by the outlets that take it. */
const ofWater = /^drain\//;

/**
 * Leaves out what checks find only because a value was refused, which is told where it stands: of a sheet that was judged
 * by numbers nobody stated, and of the water of a tub whose outlet was left out.
 */
export const withoutFollowers = (
  tub: Tub,
  { sheets, lacksOutlet }: StandIns,
  findings: readonly Finding[],
): readonly Finding[] => {
  if (sheets.size === 0 && !lacksOutlet) return findings;
  const doubted = new Set<string>(sheets);
  for (const { name, sheet } of tub.panels) if (sheets.has(tub.sheets[sheet]?.name)) doubted.add(name);
  const isDoubted = (name: string): boolean => doubted.has(name) || name.split(' ').some((word) => doubted.has(word));
  return findings.filter(
    ({ code, about }) => !(lacksOutlet && ofWater.test(code)) && !(ofMetal.test(code) && about.some(isDoubted)),
  );
};

/** A statement in braces whose first word is none. */
interface LostBlock {
  readonly from: number;
  readonly to: number;
  /** Of the thing that it would have stated. */
  readonly name: string;
}

/** Leaves out what is found inside a block whose first word cannot be read, and that the name it states is unknown. */
export const withoutLostBlocks = (
  document: TubDocument,
  sources: SourceTable,
  findings: readonly Finding[],
): readonly Finding[] => {
  const blocks = lostBlocksIn(document);
  if (blocks.length === 0) return findings;
  return findings.filter((finding) => {
    const { code, values } = finding;
    if (code === 'text/unknown-name' && blocks.some(({ name }) => name === values['name'])) return false;
    const place = sources.place(finding.at);
    if (!place || place.document !== document) return true;
    const offset = document.textDocument.offsetAt(place.range.start);
    return !blocks.some(({ from, to }) => offset > from && offset <= to);
  });
};

const lostBlocksIn = (document: TubDocument): readonly LostBlock[] => {
  const text = document.textDocument.getText();
  return document.parseResult.parserErrors.flatMap(({ message, token }): readonly LostBlock[] => {
    if (!message.includes(STATEMENT_NEEDED)) return [];
    const head = new RegExp(`[A-Za-z]+[ \\t]+(${NAME_SIGN}+)[^{}\\r\\n]*\\{`, 'yu');
    head.lastIndex = token.startOffset;
    const found = head.exec(text);
    return found ? [{ from: token.startOffset, to: endOfBlock(text, head.lastIndex), name: found[1] }] : [];
  });
};

/** The closing brace of a block that was opened just before. */
const endOfBlock = (text: string, start: number): number => {
  let depth = 1;
  for (let i = start; i < text.length; i++) {
    if (text[i] === '{') depth++;
    else if (text[i] === '}' && --depth === 0) return i;
  }
  return text.length;
};
