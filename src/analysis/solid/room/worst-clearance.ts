/** How near metal comes to metal once all of it is as far off as it may be. */
import { boxesOfPolygons, indexBoxesByNearness } from '../../geometry/box-index.js';
import { minQueue } from '../../geometry/priority-queue.js';
import { hullGap } from '../../geometry/hulls/hull-distance.js';
import { NOISE } from '../../geometry/tolerance.js';
import { lengthOf, scale, subtract, type Vec3 } from '../../geometry/vec.js';
import { memo } from '../../cache/memo.js';
import type { Piece } from './body-pieces.js';
import { boxGap, nearnessOf, type Nearness } from './clearance.js';
import { boxedPrisms, type Box, type Prism } from '../bodies/prisms.js';
import type { Slack } from './slack.js';

/** Pairs of convex pieces that are looked at closely: beyond, what is left is told as the least that it can be. */
const MOST_PAIRS = 5000;

/** Pairs that are weighed by their boxes. */
const MOST_WEIGHED = 400_000;

interface Loose extends Box {
  readonly face: Piece['face'];
  /** No point of it moves farther, mm. */
  readonly most: number;
}

interface LoosePiece extends Loose {
  readonly prisms: () => readonly LoosePrism[];
}

type LoosePrism = Loose & Prism;

/** What is left between them is no less than the bound. */
interface Pair {
  readonly a: LoosePiece | LoosePrism;
  readonly b: LoosePiece | LoosePrism;
  readonly bound: number;
}

/**
 * Each place is off in the worst way, looked at where two pieces come nearest and at all of their corners, between which the movements
 * are linear. `nearest`: as drawn. Pairs that could be the worst come first, bodies before their pieces; never more is told than what
 * is left, and less only where more pairs than a limit could be the worst. Cost: O(n log n) in the pairs up to that limit.
 */
export const worstOfPieces = (
  own: readonly Piece[],
  theirs: readonly Piece[],
  slack: Slack,
  nearest: Nearness,
): Nearness => {
  const [ones, others] = [own, theirs].map((pieces) => pieces.map((piece) => looseOf(piece, slack)));
  let best: Nearness = nearest;
  const pairs: Pair[] = [];
  const queue = minQueue();
  const weigh = (a: Pair['a'], b: Pair['b']): void => {
    const bound = boxGap(a, b) - a.most - b.most;
    if (bound < best.gap) queue.push(pairs.push({ a, b, bound }) - 1, bound);
  };
  eachNear(ones, others, nearest.gap, weigh);
  for (let looked = 0, i = queue.pop(); i !== undefined; i = queue.pop()) {
    const { a, b, bound } = pairs[i];
    if (bound >= best.gap) break;
    if (looked >= MOST_PAIRS || pairs.length >= MOST_WEIGHED) return { gap: bound, points: best.points };
    if ('prisms' in a) for (const p of a.prisms()) weigh(p, b);
    else if ('prisms' in b) for (const q of b.prisms()) weigh(a, q);
    else {
      looked++;
      best = worse(best, a, b, slack);
    }
  }
  return best;
};

const looseOf = ({ face, body }: Piece, slack: Slack): LoosePiece => ({
  low: body.low,
  high: body.high,
  face,
  most: slack.most(face, body.corners),
  prisms: memo(() => boxedPrisms(body).map((prism) => ({ ...prism, face, most: slack.most(face, prism.corners) }))),
});

/** Pairs of bodies that may come nearer than what is known. */
const eachNear = (
  ones: readonly LoosePiece[],
  others: readonly LoosePiece[],
  known: number,
  call: (a: LoosePiece, b: LoosePiece) => void,
): void => {
  const { within } = indexBoxesByNearness(boxesOfPolygons(others.map(({ low, high }) => [low, high])));
  const farthest = others.reduce((most, each) => Math.max(most, each.most), 0);
  for (const a of ones) {
    const reach = Math.max(0, known + a.most + farthest);
    for (const i of within(a.low[0] - reach, a.low[1] - reach, a.high[0] + reach, a.high[1] + reach))
      call(a, others[i]);
  }
};

const worse = (known: Nearness, p: LoosePrism, q: LoosePrism, slack: Slack): Nearness => {
  const drawn = nearnessOf(p, q);
  if (drawn.gap - p.most - q.most >= known.gap) return known;
  let best = known;
  for (const { gap, points } of placesOf(p, q, drawn)) {
    const way = wayBetween(points);
    const left = gap - slack.along(p.face, points[0], way) - slack.along(q.face, points[1], way);
    if (left < best.gap) best = { gap: left, points };
  }
  return best;
};

/** Where they come nearest, and each corner of one with what is nearest to it of the other. */
const placesOf = (p: Prism, q: Prism, drawn: Nearness): readonly Nearness[] => {
  if (drawn.gap <= 0) return [drawn];
  const fromCorner = (corner: Vec3, to: readonly Vec3[], isFirst: boolean): Nearness => {
    const { distance, points } = hullGap([corner], to);
    return { gap: distance, points: isFirst ? points : [points[1], points[0]] };
  };
  return [
    drawn,
    ...p.corners.map((corner) => fromCorner(corner, q.corners, true)),
    ...q.corners.map((corner) => fromCorner(corner, p.corners, false)),
  ];
};

/** The unit way from one point to another; up where they are one. */
const wayBetween = ([from, to]: Nearness['points']): Vec3 => {
  const between = subtract(to, from);
  const length = lengthOf(between);
  return length > NOISE ? scale(between, 1 / length) : [0, 0, 1];
};
