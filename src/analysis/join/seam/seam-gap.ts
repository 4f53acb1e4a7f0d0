/** How well the panels of a seam will meet once each bend is as true, and each mark as exact, as the shop holds them. */
import { lengthOf, type Vec3 } from '../../geometry/vec.js';
import type { Shape } from '../../shape/shape.js';
import { GAUGE_WITHIN } from '../../model/shop/default-shop.js';
import type { Shop, Tub } from '../../model/tub.js';
import { ROUND_OFF } from '../../geometry/tolerance.js';
import { acrossSeam, bendMotion, movePerAngle, type BendMotion } from './bend-motion.js';
import type { Chains, Crossing, PartPaths } from './part-paths.js';
import type { RunSide, SeamRun } from './seam-runs.js';
import { stackUp } from './stack.js';

export interface Tolerances {
  /** +- rad. */
  readonly bends: number;
  /** +- mm. */
  readonly marks: number;
  /** +- rad of bends of the shape that are made and were read: no truer and no less true than the gauge. */
  readonly read?: ReadonlyMap<number, number>;
}

/** +- rad. */
export const withinOf = ({ bends, read }: Tolerances, bend: number): number => read?.get(bend) ?? bends;

/** 0.5 deg and 0.3 mm: measured with a gauge, marked with a scriber. Common practice, no source. */
export const DEFAULT_TOLERANCES: Tolerances = { bends: (0.5 * Math.PI) / 180, marks: 0.3 };

/** What the shop states, else the documented defaults. */
export const truenessOf = (shop: Shop | undefined): Tolerances => ({
  bends: shop?.bendsWithin ?? DEFAULT_TOLERANCES.bends,
  marks: shop?.marksWithin ?? DEFAULT_TOLERANCES.marks,
});

/** The same of a tub of which some bends are made. */
export const truenessOfMade = ({ shop, made = [] }: Tub, { bends }: Shape): Tolerances => {
  const stated = truenessOf(shop);
  const read = made.flatMap(({ bends: readings, gaugeWithin = GAUGE_WITHIN }) =>
    readings.flatMap(({ panels }): (readonly [number, number])[] => {
      const bend = bends.find(({ faces }) => faces.every((face) => panels.includes(face)));
      return bend ? [[bend.index, gaugeWithin]] : [];
    }),
  );
  return read.length === 0 ? stated : { ...stated, read: new Map(read) };
};

/** One bend's share in the gap at one point. */
export interface BendShare {
  readonly bend: number;
  /** Gap per rad of the bend's angle, mm/rad, and per mm of its mark. */
  readonly perAngle: number;
  readonly perMark: number;
}

export interface GapStack {
  /** Where along the seam the gap is largest. */
  readonly point: Vec3;
  readonly rss: number;
  readonly worst: number;
  /** Bends in between, in the order crossed. */
  readonly shares: readonly BendShare[];
}

/**
 * Stack at the end of a run where it is larger, given the bends between it and where the parts are set together.
 * Both movements are linear along a straight run, so no point between its ends has more.
 */
const stackOnRun = (run: SeamRun, motions: readonly BendMotion[], tolerances: Tolerances): GapStack => {
  const perMark = motions.map((motion) => lengthOf(acrossSeam(motion.perMark, run.along)));
  const atEnd = (point: Vec3): GapStack => stackAt(run, motions, perMark, tolerances, point);
  const [a, b] = [atEnd(run.start), atEnd(run.end)];
  return a.rss >= b.rss ? a : b;
};

const stackAt = (
  run: SeamRun,
  motions: readonly BendMotion[],
  perMark: readonly number[],
  tolerances: Tolerances,
  point: Vec3,
): GapStack => {
  const sizes: number[] = [];
  const shares = motions.map((motion, i): BendShare => {
    const perAngle = lengthOf(acrossSeam(movePerAngle(motion, point), run.along));
    sizes.push(perAngle * withinOf(tolerances, motion.bend), perMark[i] * tolerances.marks);
    return { bend: motion.bend, perAngle, perMark: perMark[i] };
  });
  return { point, shares, ...stackUp(sizes) };
};

/** The bend whose angle error adds most; undefined when no bend lies between. */
export const leadingShare = ({ shares }: GapStack, tolerances: Tolerances): BendShare | undefined => {
  const addsOf = ({ bend, perAngle }: BendShare): number => perAngle * withinOf(tolerances, bend);
  return shares.reduce<BendShare | undefined>((most, s) => (most && addsOf(most) >= addsOf(s) ? most : s), undefined);
};

/**
 * How true the leading bend must be held for the expected stack to come down to `target` mm, all else as it is: +- rad.
 * Undefined when the rest alone is more than that, or when no bend lies between.
 */
export const holdWithin = (stack: GapStack, tolerances: Tolerances, target: number): number | undefined => {
  const lead = leadingShare(stack, tolerances);
  if (!lead || lead.perAngle === 0) return undefined;
  const rest = stack.rss ** 2 - (lead.perAngle * withinOf(tolerances, lead.bend)) ** 2;
  const left = target ** 2 - rest;
  return target > 0 && left > 0 ? Math.sqrt(left) / lead.perAngle : undefined;
};

/** How panels are set together along a seam, and the stack that each run then has. */
export interface Datum {
  /** The run at which the parts are set together: it has no gap from bends, every other is reckoned from there. */
  readonly run: SeamRun;
  readonly stacks: ReadonlyMap<SeamRun, GapStack>;
}

/** A seam of more runs than this is set together anew after as many: so long a part is fitted as it is joined. */
const RUNS_TO_A_DATUM = 60;

/**
 * Sets two parts together at the run from which the largest expected gap is smallest (a builder starts in the middle).
 *
 * `runs` are all runs between the two parts, in order. Runs within one part are reckoned over the bends between their own
 * two panels, wherever the setting is. Cost: O(n) in runs, times those of one setting and the bends on the way.
 */
export const datumsOf = (
  shape: Shape,
  paths: PartPaths,
  runs: readonly SeamRun[],
  tolerances: Tolerances,
): readonly Datum[] => {
  const datums: Datum[] = [];
  const motionOf = motionsOnce(shape);
  for (let from = 0; from < runs.length; from += RUNS_TO_A_DATUM) {
    const some = runs.slice(from, from + RUNS_TO_A_DATUM);
    const sides = some[0].sides.map((side) => paths.partOf(side.face));
    const datum = sides[0] === sides[1] ? some[0] : bestDatum(shape, paths, motionOf, some, tolerances);
    const stacks = new Map(
      some.map((run) => [run, stackOnRun(run, crossingsFrom(paths, datum, run).map(motionOf), tolerances)]),
    );
    datums.push({ run: datum, stacks });
  }
  return datums;
};

/**
 * The run from which the largest expected gap is smallest; of several the one from which the sum over all is, then the first.
 * Only sums of squares are made, and each bend's motion once: how far it opens a seam is the same from either side of the bend.
 * A run is given up as soon as one gap from it is larger than the largest from the best so far: the ends of the seam, where gaps
 * are largest, are looked at first.
 */
const bestDatum = (
  shape: Shape,
  paths: PartPaths,
  motionOf: (crossing: Crossing) => BendMotion,
  runs: readonly SeamRun[],
  tolerances: Tolerances,
): SeamRun => {
  const parts = runs[0].sides.map((side) => paths.partOf(side.face));
  const faces = runs.map(({ sides }) => (paths.partOf(sides[0].face) === parts[0] ? sides : [sides[1], sides[0]]));
  const squaresFrom = (datum: number, at: number): number => {
    const between = [0, 1].flatMap((side) => paths.bendsBetween(faces[datum][side].face, faces[at][side].face));
    const crossed = between.map((bend) => motionOf(forwards(shape, bend)));
    const { start, end } = runs[at];
    return Math.max(squaresAt(runs[at], crossed, tolerances, start), squaresAt(runs[at], crossed, tolerances, end));
  };
  const [inwards, outwards] = orders(runs.length);
  let best: { readonly run: number; readonly largest: number; readonly sum: number } | undefined;
  for (const tried of outwards) {
    let [largest, sum] = [0, 0];
    for (const at of inwards) {
      const gap = Math.sqrt(squaresFrom(tried, at));
      largest = Math.max(largest, gap);
      sum += gap;
      if (best && largest > best.largest + ROUND_OFF) break;
    }
    const isBetter =
      !best ||
      largest < best.largest - ROUND_OFF ||
      (largest <= best.largest + ROUND_OFF && sum < best.sum - ROUND_OFF);
    if (isBetter) best = { run: tried, largest, sum };
  }
  return runs[best!.run];
};

/** Indices from both ends to the middle, and from the middle out. */
const orders = (count: number): readonly [readonly number[], readonly number[]] => {
  const inwards = Array.from({ length: count }, (_, i) => (i % 2 === 0 ? i / 2 : count - 1 - (i - 1) / 2));
  return [inwards, [...inwards].reverse()];
};

const forwards = (shape: Shape, bend: number): Crossing => {
  const [from, to] = shape.bends[bend].faces;
  return { bend, from, to };
};

/** Square of `rss` of the stack at a point, mm2, without making the stack. */
const squaresAt = ({ along }: SeamRun, motions: readonly BendMotion[], tolerances: Tolerances, point: Vec3): number => {
  let squares = 0;
  for (const { axis, centre, perMark } of motions) {
    const [x, y, z] = [point[0] - centre[0], point[1] - centre[1], point[2] - centre[2]];
    const perAngle = squareAcross(
      axis[1] * z - axis[2] * y,
      axis[2] * x - axis[0] * z,
      axis[0] * y - axis[1] * x,
      along,
    );
    squares += perAngle * tolerances.bends ** 2;
    squares += squareAcross(perMark[0], perMark[1], perMark[2], along) * tolerances.marks ** 2;
  }
  return squares;
};

/** Square of a movement's part across the seam. */
const squareAcross = (x: number, y: number, z: number, along: Vec3): number => {
  const slide = x * along[0] + y * along[1] + z * along[2];
  return (x - slide * along[0]) ** 2 + (y - slide * along[1]) ** 2 + (z - slide * along[2]) ** 2;
};

const motionsOnce = (shape: Shape): ((crossing: Crossing) => BendMotion) => {
  const known = new Map<number, BendMotion>();
  return (crossing) => {
    // Every bend can be crossed two ways.
    const key = 2 * crossing.bend + (crossing.from === shape.bends[crossing.bend].faces[0] ? 0 : 1);
    let motion = known.get(key);
    if (!motion) known.set(key, (motion = bendMotion(shape, crossing)));
    return motion;
  };
};

/** The bends from where the parts are set together to each side of a run; within one part from the middle of the way between both. */
export const waysFrom = (paths: PartPaths, datum: SeamRun, run: SeamRun): Chains => {
  const [a, b] = run.sides;
  if (paths.partOf(a.face) !== paths.partOf(b.face)) {
    const fromDatum = ({ face }: RunSide): readonly Crossing[] => {
      const from = datum.sides.find((side) => paths.partOf(side.face) === paths.partOf(face));
      return from ? paths.path(from.face, face) : [];
    };
    return [fromDatum(a), fromDatum(b)];
  }
  const way = paths.path(a.face, b.face);
  const middle = way.at(Math.floor(way.length / 2))?.from ?? a.face;
  return [paths.path(middle, a.face), paths.path(middle, b.face)];
};

const crossingsFrom = (paths: PartPaths, datum: SeamRun, run: SeamRun): readonly Crossing[] => {
  const [a, b] = run.sides;
  if (paths.partOf(a.face) === paths.partOf(b.face)) return paths.path(a.face, b.face);
  return waysFrom(paths, datum, run).flat();
};
