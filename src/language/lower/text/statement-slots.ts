import type { LangiumDocument } from 'langium';
import type { TubFile } from '../../generated/ast.js';

/** More than a file has statements. */
export const MOST_SLOTS = 2 ** 18;

interface Slots {
  readonly texts: readonly string[];
  readonly slots: readonly number[];
}

const last = new WeakMap<LangiumDocument, Slots>();

/**
 * A number for each statement of a file, rising with the text, above 0 and below MOST_SLOTS. A statement that an edit of
 * the document leaves alone keeps its number; new ones get numbers in between, as long as there are any.
 */
export const slotsOf = (document: LangiumDocument<TubFile>): readonly number[] => {
  const texts = document.parseResult.value.statements.map(({ $cstNode }) => $cstNode?.text ?? '');
  const before = last.get(document);
  const slots = (before && updated(before, texts)) ?? between(0, MOST_SLOTS, texts.length);
  last.set(document, { texts, slots });
  return slots;
};

/** Undefined when there are no numbers left between those that are kept. */
const updated = ({ texts: before, slots }: Slots, texts: readonly string[]): readonly number[] | undefined => {
  if (before.length === texts.length) return slots;
  const shorter = Math.min(before.length, texts.length);
  let head = 0;
  while (head < shorter && before[head] === texts[head]) head++;
  let tail = 0;
  while (tail < shorter - head && before[before.length - 1 - tail] === texts[texts.length - 1 - tail]) tail++;
  const [kept, rest] = [slots.slice(0, head), slots.slice(slots.length - tail)];
  const [from, to] = [kept[kept.length - 1] ?? 0, rest[0] ?? MOST_SLOTS];
  const fresh = texts.length - head - tail;
  return to - from > fresh ? [...kept, ...between(from, to, fresh), ...rest] : undefined;
};

/** So many whole numbers evenly between two. */
const between = (from: number, to: number, count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => from + Math.floor(((i + 1) * (to - from)) / (count + 1)));
