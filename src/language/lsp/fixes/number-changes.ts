import type { Finding } from '../../../analysis/model/finding.js';
import type { Numbers } from '../../lower/lowering.js';
import { shortfallOf, type Judge } from './judge.js';
import { withLimitedEffort } from './limited-effort.js';
import { farthest } from './nearest-passing.js';
import { statedBeyond } from './stated-values.js';
import { leadsFor, passes, solveFor, startAt, type Attempt, type NumberChange, type Search } from './one-number.js';

const MOST_CHANGES = 3;
/** Numbers that by themselves are not enough, to each of which a second one is looked for. */
const MOST_FIRST = 2;

/** By how much either of two numbers may change, as a share of itself or in its unit: beyond, it is another tub. */
const MOST_OF_TWO = { share: 0.5, units: 5 };

/** Does a check say by how much the finding misses what it needs? No drawing is bent to what was read. */
export const canBeSolved = (finding: Finding): boolean => !finding.code.startsWith('made/') && shortfallOf(finding) > 0;

/**
 * Numbers of the text to change, one each or two together, after which the finding is gone from the whole text and nothing
 * new is found, there or in a file that uses it: worked out by evaluating the tub with them. Smallest change first; two only
 * where no single one will do. Yields between evaluations.
 */
export function* numberChanges(finding: Finding, untiring: Judge): Search<readonly (readonly NumberChange[])[]> {
  if (!canBeSolved(finding)) return [];
  const judge = withLimitedEffort(untiring);
  const solved: NumberChange[] = [];
  const failed: Attempt[] = [];
  for (const led of yield* leadsFor(finding, new Map(), judge)) {
    const found = yield* solveFor(led, judge);
    if ('brought' in found) failed.push(found);
    else solved.push(found);
  }
  if (solved.length > 0) {
    solved.sort((a, b) => sizeOf(a) - sizeOf(b));
    return solved.slice(0, MOST_CHANGES).map((change) => [change]);
  }
  for (const attempt of failed.slice(0, MOST_FIRST)) {
    const changes = yield* withSecond(attempt, judge);
    if (changes) return [changes];
  }
  return [];
}

const sizeOf = ({ literal, value }: NumberChange): number =>
  Math.abs(value - literal.value) / Math.max(Math.abs(literal.value), 1);

/** A second number that puts right what the first brings, or does the rest where the first is not enough. */
function* withSecond(attempt: Attempt, judge: Judge): Search<readonly NumberChange[] | undefined> {
  const first = attempt.value ?? (yield* mostWithoutHarm(attempt, judge));
  const open = attempt.value === undefined ? attempt.finding : attempt.brought.find(({ measure }) => measure);
  if (first === undefined || !open || isFar({ literal: attempt.literal, value: first })) return undefined;
  const others: Numbers = new Map([[attempt.literal.node, first]]);
  for (const led of yield* leadsFor(open, others, judge)) {
    const second = yield* solveFor(led, judge);
    if ('brought' in second) continue;
    const both = new Map([...others, [second.literal.node, second.value]]);
    if (!passes(yield* judge.verdict(attempt.finding, both))) continue;
    if (isFar(second)) continue;
    const alone = yield* judge.verdict(attempt.finding, new Map([[second.literal.node, second.value]]));
    return passes(alone) ? [second] : [{ literal: attempt.literal, value: first }, second];
  }
  return undefined;
}

const isFar = ({ literal, value }: NumberChange): boolean =>
  Math.abs(value - literal.value) > Math.max(MOST_OF_TWO.share * Math.abs(literal.value), MOST_OF_TWO.units);

/** The farthest that a number goes without bringing anything, of a few: all the way, half of it, a quarter. */
function* mostWithoutHarm({ finding, literal, lead }: Attempt, judge: Judge): Search<number | undefined> {
  const far = farthest(lead, startAt(literal));
  for (const share of [1, 1 / 2, 1 / 4]) {
    const goal = literal.value + lead.way * far * share;
    // Back towards the start, so that it stays within reach.
    const [value] = statedBeyond(literal, goal, goal + lead.way);
    if (value === undefined || value === literal.value) continue;
    const { brought } = yield* judge.verdict(finding, new Map([[literal.node, value]]));
    if (brought.length === 0) return value;
  }
  return undefined;
}
