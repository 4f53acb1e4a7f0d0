/** What readings teach of a shop and its sheet: springback, K, and how true bends are held. */
import { chiSquareAbove } from '../geometry/chi-square.js';
import { leastSquares } from '../geometry/least-squares.js';
import type { Tub } from '../model/tub.js';
import type { MadeStrip } from './as-made.js';
import { foldedAs, wetLengthOf } from './profile.js';

/** A mean, or the solution of a fit, and its standard deviation; undefined from one reading alone. */
export interface Learned {
  readonly value: number;
  readonly deviation: number | undefined;
  readonly count: number;
}

/** Of one sheet. */
export interface LearnedSheet {
  readonly sheet: string;
  /** rad: what the brake was set to less what was read. */
  readonly springback: Learned | undefined;
  readonly kFactor: Learned | undefined;
}

export const learnedOf = (tub: Tub, strips: readonly MadeStrip[]): LearnedSheet[] => {
  const bySheet = new Map<number, MadeStrip[]>();
  for (const strip of strips) {
    const { sheet } = tub.strips[strip.strip];
    bySheet.set(sheet, [...(bySheet.get(sheet) ?? []), strip]);
  }
  return [...bySheet].flatMap(([sheet, own]) => {
    const backs = own.flatMap(({ made }) =>
      made.bends.flatMap(({ turn, bentTo }) => (bentTo === undefined ? [] : [bentTo - turn])),
    );
    const learned = {
      sheet: tub.sheets[sheet].name,
      springback: fitted(
        backs.map(() => 1),
        backs,
      ),
      kFactor: kOf(own),
    };
    return learned.springback || learned.kFactor ? [learned] : [];
  });
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
    count: values.length,
  };
};

/** Each leg that was taped between bends that were read is longer by `T a / 2` at each for every 1 that K is less than was taken. */
const kOf = (strips: readonly MadeStrip[]): Learned | undefined => {
  const factors: number[] = [];
  const values: number[] = [];
  for (const { profile, task, folding, read } of strips) {
    for (const taped of task.taped) {
      const beside = [taped.leg - 1, taped.leg].filter((bend) => profile.bends[bend] !== undefined);
      if (beside.length === 0 || beside.some((bend) => !read.includes(bend))) continue;
      const turned = beside.reduce((sum, bend) => sum + Math.abs(folding.turns[bend]), 0);
      const taken = beside.reduce((sum, bend) => sum + Math.abs(folding.turns[bend]) * profile.bends[bend].kFactor, 0);
      const factor = (profile.thickness * turned) / 2;
      factors.push(factor);
      values.push(
        (profile.thickness * taken) / 2 +
          freeLength(profile, folding.turns, taped.leg) -
          wetLengthOf(profile, folding.turns, taped),
      );
    }
  }
  return fitted(factors, values);
};

/** As it would be with the K that was taken. */
const freeLength = (profile: MadeStrip['profile'], turns: readonly number[], leg: number): number =>
  foldedAs(profile, { turns, lengths: new Map() }, { leg: 0, slopes: [] }).lengths[leg];

/** How the readings of a shop lie about what was planned. */
export interface Scatter {
  readonly count: number;
  /** Root of the mean square, rad. */
  readonly size: number;
  /** Share of shops as true as it says that would scatter so far by chance. */
  readonly chance: number;
}

/** Against what the shop says: off by at most `within`, anywhere within it alike. Undefined without readings. */
export const scatterOf = (strips: readonly MadeStrip[], within: number): Scatter | undefined => {
  const off = strips.flatMap(({ profile, folding, read }) =>
    read.map((bend) => Math.abs(folding.turns[bend]) - Math.abs(profile.bends[bend].turn)),
  );
  if (off.length === 0) return undefined;
  const sum = off.reduce((all, each) => all + each * each, 0);
  return {
    count: off.length,
    size: Math.sqrt(sum / off.length),
    chance: chiSquareAbove((3 * sum) / within ** 2, off.length),
  };
};
