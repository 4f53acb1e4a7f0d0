import type { Finding } from '../../../analysis/model/finding.js';
import type { Numbers } from '../../lower/lowering.js';
import { shortfallOf, type Judge, type Verdict } from './judge.js';
import { literalsBehind, type Literal } from './literals.js';
import { farthest, leadFrom, nearestPassing, type Lead, type Shortfall, type Start } from './nearest-passing.js';
import { finestStepOf, statedBeyond } from './stated-values.js';

/** Numbers of the text that are tried (half as many beside one that is changed already), those that are solved for, and neater values that are tried where one is found. */
const MOST_TRIED = 12;
const MOST_SOLVED = 4;
const MOST_NEAT = 2;
/** Findings that one number may bring on its way, and leave behind when it goes farther. */
const MOST_HURDLES = 3;

export type Search<T> = Generator<void, T>;

/** One number of the text and what to set it to. */
export interface NumberChange {
  readonly literal: Literal;
  readonly value: number;
}

/** A finding, numbers that are taken as changed already, and one more that may change. */
export interface Question {
  readonly finding: Finding;
  readonly others: Numbers;
  readonly literal: Literal;
}

/** A number that helps, and which way. */
export interface Led extends Question {
  readonly lead: Lead;
}

/** How far a number came that does not put everything right. */
export interface Attempt extends Led {
  /** Undefined where it helps, but not enough by itself. */
  readonly value: number | undefined;
  /** What it brings there. */
  readonly brought: readonly Finding[];
}

export const withNumber = ({ others, literal }: Question, value: number): Numbers =>
  new Map([...others, [literal.node, value]]);

export const passes = ({ gone, brought, breaksOther }: Verdict): boolean =>
  gone && brought.length === 0 && !breaksOther;

/** The numbers that help when they change a little: those of the finding's own statement, then those that have to change least. */
export function* leadsFor(finding: Finding, others: Numbers, judge: Judge): Search<readonly Led[]> {
  const isFirst = others.size === 0;
  const whole = isFirst ? shortfallOf(finding) : judge.shortfall(finding, others);
  if (!(whole > 0)) return [];
  const led: Led[] = [];
  const literals = literalsBehind(finding, judge.analysis).filter(({ node }) => !others.has(node));
  for (const literal of literals.slice(0, isFirst ? MOST_TRIED : MOST_TRIED / 2)) {
    const question = { finding, others, literal };
    const start = startAt(literal);
    const lead = yield* leadFrom(shortfallBy(question, judge), whole, start);
    if (lead && estimate(lead) <= HOPEFUL * farthest(lead, start)) led.push({ ...question, lead });
  }
  return led
    .sort((a, b) => Number(b.literal.isOwn) - Number(a.literal.isOwn) || wayOf(a) - wayOf(b))
    .slice(0, isFirst ? MOST_SOLVED : MOST_SOLVED / 2);
}

/** How far a number has to go, if its effect is a straight line; beyond a few times its reach it is not tried. */
const estimate = ({ step, whole, gain }: Lead): number => (step * whole) / gain;
const HOPEFUL = 3;

/** The same as a share of the number. */
const wayOf = ({ literal, lead }: Led): number => estimate(lead) / Math.max(Math.abs(literal.value), 1);

/** Of a whole count or a value in steps, the next one away from where it stands is meant. */
const shortfallBy = (question: Question, judge: Judge): Shortfall => {
  const { literal, finding } = question;
  return (value) => {
    const stated = isInSteps(literal) ? (statedBeyond(literal, value)[0] ?? value) : value;
    return judge.shortfall(finding, withNumber(question, stated));
  };
};

const isInSteps = ({ grids, range }: Literal): boolean => grids.length === 1 || range?.step !== undefined;

/** A number may grow to four times itself; a small one by some steps of how finely it is stated. */
export const startAt = (literal: Literal, from = literal.value): Start => {
  const { value } = literal;
  const step = finestStepOf(literal);
  const reach = value === 0 ? 100 : Math.max(3 * Math.abs(value), (isInSteps(literal) ? 5 : 50) * step);
  return { value: from, reach: Math.max(0, reach - Math.abs(from - value)), step: isInSteps(literal) ? step : 0 };
};

/** The neatest value that puts everything right, or how far the number came. */
export function* solveFor(led: Led, judge: Judge): Search<NumberChange | Attempt> {
  const nearest = yield* nearestPassing(shortfallBy(led, judge), led.lead, startAt(led.literal));
  const first = yield* firstThatPasses(led, nearest, judge);
  let found = first;
  for (let i = 0; i < MOST_HURDLES && 'brought' in found; i++) {
    const farther = yield* fartherOn(found, judge);
    if (!farther) break;
    found = farther;
  }
  return 'brought' in found ? first : found;
}

/** The nearest value that a builder would state; when that passes, the neatest one a little beyond that passes too. */
function* firstThatPasses(led: Led, nearest: number | undefined, judge: Judge): Search<NumberChange | Attempt> {
  const { literal } = led;
  let last: Attempt = { ...led, value: undefined, brought: [] };
  if (nearest === undefined) return last;
  const neat = statedBeyond(literal, nearest);
  const finest = neat.slice(-1);
  const step = Math.sign(nearest - literal.value) * finestStepOf(literal);
  // The next one in case the nearest lies just on it.
  for (const value of [...finest, ...finest.flatMap((each) => statedBeyond(literal, each + step).slice(-1))]) {
    const verdict = yield* judge.verdict(led.finding, withNumber(led, value));
    if (passes(verdict)) return yield* neatest(led, value, neat, judge);
    last = { ...last, value: verdict.gone ? value : undefined, brought: verdict.brought };
    if (verdict.gone) break;
  }
  return last;
}

function* neatest(led: Led, found: number, neat: readonly number[], judge: Judge): Search<NumberChange> {
  const { literal } = led;
  for (const value of neat.slice(0, MOST_NEAT)) {
    if (value === found) break;
    if (passes(yield* judge.verdict(led.finding, withNumber(led, value)))) return { literal, value };
  }
  return { literal, value: found };
}

/** Where a number brings something else, it may only have to go farther: a hem long enough for the sheet, then for the die. */
function* fartherOn(attempt: Attempt, judge: Judge): Search<NumberChange | Attempt | undefined> {
  const { literal, value } = attempt;
  if (value === undefined) return undefined;
  for (const finding of attempt.brought) {
    if (!finding.measure) continue;
    const shortfall = shortfallBy({ ...attempt, finding }, judge);
    const start = startAt(literal, value);
    const lead = yield* leadFrom(shortfall, shortfall(value), start);
    if (lead?.way !== attempt.lead.way) continue;
    return yield* firstThatPasses(attempt, yield* nearestPassing(shortfall, lead, start), judge);
  }
  return undefined;
}
