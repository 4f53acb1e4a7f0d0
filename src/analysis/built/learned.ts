/** What readings teach of a shop and its sheet: springback, K, and how true bends are held. */
import { chiSquareAbove } from '../geometry/fitting/chi-square.js';
import { leastSquares } from '../geometry/fitting/least-squares.js';
import { TAPE_WITHIN } from '../model/shop/default-shop.js';
import type { BendReading, LengthReading, SourceId, Tub } from '../model/tub.js';
import type { MadeStrip } from './as-made.js';
import { foldedAs, wetLengthOf } from './profile.js';
import { uniformDeviation } from './worth.js';

/** A mean, or the solution of a fit, and its standard deviation; undefined from one reading alone. */
export interface Learned {
  readonly value: number;
  readonly deviation: number | undefined;
  /** Of a single reading about it. */
  readonly scatter: number | undefined;
  readonly count: number;
}

/** What one reading teaches of a sheet. */
export type Lesson = BackLesson | KLesson;

interface BackLesson {
  /** Where it was read. */
  readonly at: SourceId;
  readonly kind: 'springback';
  /** Index into `Tub.sheets`. */
  readonly sheet: number;
  /** mm; undefined: bent without a die. */
  readonly die: number | undefined;
  /** rad: what the brake was set to less what was read. */
  readonly back: number;
}

/** A leg that was taped: `factor` times K is `value`, mm. */
export interface TapedLeg {
  readonly reading: LengthReading;
  readonly factor: number;
  readonly value: number;
  /** Bend lines at its ends. */
  readonly marks: number;
  /** mm, what the tape is off at most. */
  readonly tape: number;
  /** mm. What a bend beside it that was not read may make of it. */
  readonly slack: number;
}

interface KLesson extends TapedLeg {
  readonly kind: 'k';
  readonly at: SourceId;
  readonly sheet: number;
}

/** The neutral line lies between the inside face and the middle of the sheet. */
const MOST_K = 0.5;

/** mm by which a leg is longer (or, negative, shorter) than any K and its tape allow; 0: it may be so. */
export const beyondAnyK = ({ factor, value, tape, slack }: TapedLeg): number => {
  const least = -tape - slack;
  const most = MOST_K * factor + tape + slack;
  return value < least ? least - value : Math.min(0, most - value);
};

/** Of one sheet. */
export interface LearnedSheet {
  /** rad, by die; the one without a die last. */
  readonly springbacks: readonly { readonly die: number | undefined; readonly learned: Learned }[];
  readonly kFactor: Learned | undefined;
}

/** In which die a bend of `Tub.bends` is made where its reading does not say; undefined: in none. */
export type DieOf = (bend: number) => number | undefined;

export const lessonsOf = (tub: Tub, strips: readonly MadeStrip[], dieOf: DieOf): Lesson[] =>
  strips.flatMap((strip): Lesson[] => {
    const { sheet } = tub.strips[strip.strip];
    const backs = strip.profile.bends.flatMap(({ bend }): BackLesson[] => {
      const reading = readingOfBend(tub, strip, bend);
      // No sheet closes by itself.
      if (reading?.bentTo === undefined || reading.bentTo < reading.turn) return [];
      const { at, bentTo, turn, die = dieOf(bend) } = reading;
      return [{ at, kind: 'springback', sheet, die, back: bentTo - turn }];
    });
    return [...backs, ...kLessons(sheet, strip)];
  });

export const readingOfBend = (tub: Tub, { made }: Pick<MadeStrip, 'made'>, bend: number): BendReading | undefined => {
  const [a, b] = tub.bends[bend].panels;
  return made.bends.find(({ panels }) => panels[0] === a && panels[1] === b);
};

/** What lessons of one sheet come to; undefined: none speaks of it. */
export const learnedFrom = (lessons: readonly Lesson[]): LearnedSheet | undefined => {
  const byDie = new Map<number | undefined, number[]>();
  const legs = lessons.filter((lesson) => lesson.kind === 'k').filter((leg) => beyondAnyK(leg) === 0);
  for (const lesson of lessons) {
    if (lesson.kind !== 'springback') continue;
    byDie.set(lesson.die, [...(byDie.get(lesson.die) ?? []), lesson.back]);
  }
  const springbacks = [...byDie]
    .sort(([a = Infinity], [b = Infinity]) => a - b)
    .flatMap(([die, backs]) => {
      const learned = fitted(
        backs.map(() => 1),
        backs,
      );
      return learned ? [{ die, learned }] : [];
    });
  const kFactor = kOf(legs);
  return springbacks.length > 0 || kFactor ? { springbacks, kFactor } : undefined;
};

/** No more certain than the tape; what no metal has is not learned. */
const kOf = (legs: readonly KLesson[]): Learned | undefined => {
  const fit = fitted(
    legs.map(({ factor }) => factor),
    legs.map(({ value }) => value),
  );
  if (!fit || fit.value <= 0 || fit.value >= 1) return undefined;
  const tape = uniformDeviation(Math.max(...legs.map((leg) => leg.tape)));
  const ofTape = tape / Math.hypot(...legs.map(({ factor }) => factor));
  return { ...fit, deviation: Math.max(fit.deviation ?? 0, ofTape) };
};

const fitted = (factors: readonly number[], values: readonly number[]): Learned | undefined => {
  if (values.length === 0) return undefined;
  const outcome = leastSquares(
    factors.map((factor) => [factor]),
    values,
  );
  if (!('fit' in outcome)) return undefined;
  const { x, sumOfSquares, freedom, cofactors } = outcome.fit;
  return {
    value: x[0],
    deviation: freedom > 0 ? Math.sqrt((sumOfSquares / freedom) * cofactors[0][0]) : undefined,
    scatter: freedom > 0 ? Math.sqrt(sumOfSquares / freedom) : undefined,
    count: values.length,
  };
};

/** Each leg that was taped is longer by `T a / 2` at each bend for every 1 that K is less than was taken; open bends are as drawn. */
export const tapedLegsOf = ({ made, profile, task, read }: MadeStrip): TapedLeg[] =>
  task.taped.map((taped, i): TapedLeg => {
    const beside = [taped.leg - 1, taped.leg].filter((bend) => profile.bends[bend] !== undefined);
    const turned = beside.reduce((sum, bend) => sum + Math.abs(task.turns[bend]), 0);
    const taken = beside.reduce((sum, bend) => sum + Math.abs(task.turns[bend]) * profile.bends[bend].kFactor, 0);
    const shorter = freeLength(profile, task.turns, taped.leg) - wetLengthOf(profile, task.turns, taped);
    const half = profile.thickness / 2;
    return {
      reading: made.lengths[i],
      factor: half * turned,
      value: half * taken + shorter,
      marks: beside.length,
      tape: made.tapeWithin ?? TAPE_WITHIN,
      slack: beside.some((bend) => !read.includes(bend)) ? profile.thickness : 0,
    };
  });

const kLessons = (sheet: number, strip: MadeStrip): KLesson[] =>
  tapedLegsOf(strip)
    .filter(({ marks, slack }) => marks > 0 && slack === 0)
    .map((leg) => ({ ...leg, at: leg.reading.at, kind: 'k', sheet }));

/** As it would be with the K that was taken. */
const freeLength = (profile: MadeStrip['profile'], turns: readonly number[], leg: number): number =>
  foldedAs(profile, { turns, lengths: new Map() }, { leg: 0, slopes: [] }).lengths[leg];

/** How readings lie about what they were to be. */
export interface Scatter {
  readonly count: number;
  /** Root of the mean square, as the readings. */
  readonly size: number;
  /** Share of shops as true as it says that would scatter so far by chance. */
  readonly chance: number;
}

/** Against standard deviations, one for each; `known`: how many numbers were fitted to them. Undefined where none is left over. */
export const scatterOf = (off: readonly number[], deviations: readonly number[], known = 0): Scatter | undefined => {
  const freedom = off.length - known;
  if (freedom <= 0) return undefined;
  const squares = off.map((each) => each * each);
  const sum = (values: readonly number[]): number => values.reduce((all, each) => all + each, 0);
  return {
    count: off.length,
    size: Math.sqrt(sum(squares) / freedom),
    chance: chiSquareAbove(sum(squares.map((each, i) => each / deviations[i] ** 2)), freedom),
  };
};

/** Taped legs about the K that fits them best: mm too long each, and how many bend lines each hangs on. */
export const legsOff = (lessons: readonly Lesson[]): readonly { readonly off: number; readonly marks: number }[] => {
  const legs = lessons.filter((lesson) => lesson.kind === 'k');
  const k = kOf(legs)?.value;
  return k === undefined ? [] : legs.map(({ factor, value, marks }) => ({ off: factor * k - value, marks }));
};
