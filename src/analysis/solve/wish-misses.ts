/** The wishes of an aim as numbers that a search can make less. */
import { measureAspect, missOf, unitOfAspect, type Bound } from '../aim/measure.js';
import { NOISE } from '../geometry/tolerance.js';
import type { Finding } from '../model/finding.js';
import type { Wish } from '../model/tub.js';
import type { Nest } from '../nest/nest.js';
import { nestTub } from '../nest/nest-tub.js';
import { isEasilyLaid } from '../nest/easily-laid.js';
import type { Stages } from '../stages/stages.js';

export type Goal = Extract<Wish, { kind: 'goal' }>;

export const boundsOf = ({ tub }: Stages): readonly Bound[] =>
  (tub.aim?.wishes ?? []).filter((wish) => wish.kind === 'bound');

export const goalsOf = ({ tub }: Stages): readonly Goal[] =>
  (tub.aim?.wishes ?? []).filter((wish) => wish.kind === 'goal');

/** Where nothing can be measured, a wish is missed by all that it asks for. */
const ALL = 1;

/** The share of its limit by which each limit is missed; 0 or less: it is kept. */
export const boundMisses = (stages: Stages): readonly number[] =>
  boundsOf(stages).map((wish) => {
    const has = measureAspect(stages, wish.of);
    const scale = Math.abs(wish.limit) || unitOfAspect(wish.of).size;
    return has === undefined ? ALL : missOf(wish, has) / scale - NOISE;
  });

/** Each goal as a number to be least. */
export const goalNumbers = (stages: Stages): readonly number[] =>
  goalsOf(stages).map(({ of, way }) => {
    const has = measureAspect(stages, of);
    return has === undefined ? Infinity : way === 'least' ? has : -has;
  });

/** What finds no room on the sheets of the rack, as first laid out, and the share of all pieces that it is. */
export interface Unlaid {
  readonly share: number;
  readonly pieces: Nest['unplaced'];
}

export function* unlaidOf(stages: Stages): Generator<void, Unlaid> {
  if (isEasilyLaid(stages)) return { share: 0, pieces: [] };
  const laying = nestTub(stages, 0);
  let step = laying.next();
  for (; !step.done; step = laying.next()) yield;
  const { sheets, unplaced } = step.value;
  const laid = sheets.reduce((sum, { placed }) => sum + placed.length, 0);
  const left = unplaced.reduce((sum, { count }) => sum + count, 0);
  return { share: left === 0 ? 0 : left / (left + laid), pieces: unplaced };
}

/** What each finding counts at the least, however little is missing. */
const LEAST = 0.01;
/** mm, deg, L, kN …: what counts as much in findings that need none of what they measure. */
const MUCH = 10;
const MOST = 100;

/** How much is wrong. In straight lines of what is missing, so that a search sees which way it goes and how far. */
export const findingsMiss = (findings: readonly Pick<Finding, 'measure'>[]): number =>
  findings.reduce((sum, { measure }) => {
    const share = measure ? Math.abs(measure.has - measure.needs) / Math.max(Math.abs(measure.needs), MUCH) : ALL;
    return sum + LEAST + (Number.isNaN(share) ? ALL : Math.min(MOST, share));
  }, 0);
