/** Where a part that is cut meets a strip, and how far it stands off once it is moved to where it fits best. */
import { NOISE, SAME_POINT } from '../geometry/tolerance.js';
import { addScaled2, dot2, left2, lerp2, subtract2, unit2, type Vec2 } from '../geometry/vec.js';
import type { PanelIndex, Strip, Tub } from '../model/tub.js';
import { onProfile, type Profile } from './profile.js';

/** A length of a leg, by shares of it. */
export interface Stretch {
  readonly leg: number;
  readonly from: number;
  readonly to: number;
}

export interface Contact {
  /** The cut panel; undefined: the strip as drawn, which stands for all that is to meet it later. */
  readonly panel: PanelIndex | undefined;
  readonly stretches: readonly Stretch[];
}

/** mm at both ends of a stretch, square to the leg: positive where it stands open, negative where metal would lie in metal. */
export interface StretchGap extends Stretch {
  readonly start: number;
  readonly end: number;
}

/** The strip as drawn meets itself everywhere. */
export const drawnContact = ({ points }: Profile): Contact => ({
  panel: undefined,
  stretches: points.slice(1).map((_, leg) => ({ leg, from: 0, to: 1 })),
});

/** Along which lengths of the strip the edges of a panel run; none: it does not meet the strip. */
export const contactOf = (tub: Tub, strip: Strip, profile: Profile, panel: PanelIndex): Contact | undefined => {
  const { corners } = tub.panels[panel];
  const stretches = corners.flatMap((corner, i) => {
    const [a, b] = [corner, corners[(i + 1) % corners.length]].map((each) => onProfile(strip, each));
    return stretchBetween(profile.points, a, b) ?? [];
  });
  return stretches.length === 0 ? undefined : { panel, stretches };
};

const stretchBetween = (points: readonly Vec2[], a: Vec2, b: Vec2): Stretch | undefined => {
  for (let leg = 0; leg + 1 < points.length; leg++) {
    const [from, to] = [shareOn(points, leg, a), shareOn(points, leg, b)];
    if (from === undefined || to === undefined) continue;
    const [first, last] = [Math.min(from, to), Math.max(from, to)];
    const length = Math.hypot(...subtract2(points[leg + 1], points[leg]));
    if ((last - first) * length > SAME_POINT) return { leg, from: first, to: last };
  }
  return undefined;
};

const shareOn = (points: readonly Vec2[], leg: number, point: Vec2): number | undefined => {
  const along = subtract2(points[leg + 1], points[leg]);
  const length = Math.hypot(...along);
  const way = unit2(along);
  const offset = subtract2(point, points[leg]);
  const [run, off] = [dot2(offset, way), dot2(offset, left2(way))];
  if (Math.abs(off) > SAME_POINT || run < -SAME_POINT || run > length + SAME_POINT) return undefined;
  return Math.min(1, Math.max(0, run / length));
};

/** Simpson's rule: exact for what is quadratic along a straight. */
const NODES: readonly (readonly [number, number])[] = [
  [0, 1 / 6],
  [1 / 2, 4 / 6],
  [1, 1 / 6],
];

/** A place on the edge of a part, the line of the leg that it is to lie on, and the length that it stands for. */
interface Pair {
  readonly drawn: Vec2;
  /** Of the leg as made: a place on it at the same share, and square to it, to the left. */
  readonly made: Vec2;
  readonly across: Vec2;
  readonly weight: number;
}

const pairsOf = (drawn: readonly Vec2[], made: readonly Vec2[], { stretches }: Contact): Pair[] =>
  stretches.flatMap(({ leg, from, to }) => {
    const at = (points: readonly Vec2[], share: number): Vec2 => lerp2(points[leg], points[leg + 1], share);
    const length = Math.hypot(...subtract2(at(drawn, to), at(drawn, from)));
    const across = left2(unit2(subtract2(made[leg + 1], made[leg])));
    return NODES.map(([share, weight]): Pair => {
      const place = from + (to - from) * share;
      return { drawn: at(drawn, place), made: at(made, place), across, weight: weight * length };
    });
  });

type Motion = (point: Vec2) => Vec2;

/** A turn about a place, and where that comes to lie. */
interface Placing {
  readonly about: Vec2;
  readonly turn: number;
  readonly to: Vec2;
}

const motionBy = ({ about, turn, to }: Placing): Motion => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return ([x, y]) => [to[0] + c * (x - about[0]) - s * (y - about[1]), to[1] + s * (x - about[0]) + c * (y - about[1])];
};

/** The turn and shift that bring the places as drawn nearest to the places as made, end on end: in closed form. */
const nearestPlacing = (pairs: readonly Pair[]): Placing => {
  const all = pairs.reduce((sum, { weight }) => sum + weight, 0);
  const middle = (of: (pair: Pair) => Vec2): Vec2 => {
    const sum = pairs.reduce<Vec2>((at, pair) => addScaled2(at, of(pair), pair.weight), [0, 0]);
    return [sum[0] / all, sum[1] / all];
  };
  const [about, to] = [middle(({ drawn }) => drawn), middle(({ made }) => made)];
  let [along, aside] = [0, 0];
  for (const { drawn, made, weight } of pairs) {
    const [a, b] = [subtract2(drawn, about), subtract2(made, to)];
    along += weight * dot2(a, b);
    aside += weight * dot2(left2(a), b);
  }
  return { about, turn: Math.atan2(aside, along), to };
};

/** How far a part stands off the leg at a place: what lies along the leg is no gap. */
const offOf = ({ drawn, made, across }: Pair, motion: Motion): number => dot2(subtract2(made, motion(drawn)), across);

/**
 * The turn and shift for which the integral of gap^2, square to the legs, is least: from where the ends lie nearest by Gauss-Newton
 * steps, damped a little so that it stays along legs that are all parallel. Cost: O(pairs) a round, a few rounds.
 */
const bestMotion = (pairs: readonly Pair[]): Motion => {
  let placing = nearestPlacing(pairs);
  let before = Infinity;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const motion = motionBy(placing);
    const sums = [0, 0, 0, 0, 0, 0];
    const right = [0, 0, 0];
    for (const pair of pairs) {
      const lever = left2(subtract2(motion(pair.drawn), placing.to));
      const slopes = [dot2(lever, pair.across), pair.across[0], pair.across[1]];
      const off = offOf(pair, motion) * pair.weight;
      let k = 0;
      for (let i = 0; i < 3; i++) {
        right[i] += slopes[i] * off;
        for (let j = 0; j <= i; j++) sums[k++] += slopes[i] * slopes[j] * pair.weight;
      }
    }
    const [turn, x, y] = solvedDamped(sums, right);
    placing = { ...placing, turn: placing.turn + turn, to: [placing.to[0] + x, placing.to[1] + y] };
    // Down to round-off, where steps no longer shrink: slopes are taken of what is left.
    const step = Math.abs(turn) + Math.hypot(x, y);
    if (step === 0 || (step <= NOISE && step >= before / 2)) break;
    before = step;
  }
  return motionBy(placing);
};

const MOST_ROUNDS = 30;

/** Three unknowns by Cholesky's way, `sums` the lower half row by row, the diagonal larger by a billionth of its size. */
const solvedDamped = ([a, b, c, d, e, f]: readonly number[], right: readonly number[]): [number, number, number] => {
  const shift = NOISE * (c + f);
  const root = (value: number): number => Math.sqrt(Math.max(value, shift));
  const l00 = root(a * (1 + NOISE));
  const [l10, l20] = [b / l00, d / l00];
  const l11 = root(c + shift - l10 * l10);
  const l21 = (e - l20 * l10) / l11;
  const l22 = root(f + shift - l20 * l20 - l21 * l21);
  const u = right[0] / l00;
  const v = (right[1] - l10 * u) / l11;
  const w = (right[2] - l20 * u - l21 * v) / l22;
  const z = w / l22;
  const y = (v - l21 * z) / l11;
  return [(u - l10 * y - l20 * z) / l00, y, z];
};

const IN_PLACE: Motion = (point) => point;

const motionOf = (contact: Contact, pairs: readonly Pair[]): Motion =>
  contact.panel === undefined ? IN_PLACE : bestMotion(pairs);

/** What is left at each place, each by the root of the length that it stands for: their squares sum to the integral of gap^2. */
export const misfitOf = (drawn: readonly Vec2[], made: readonly Vec2[], contact: Contact): number[] => {
  const pairs = pairsOf(drawn, made, contact);
  const motion = motionOf(contact, pairs);
  return pairs.map((pair) => Math.sqrt(pair.weight) * offOf(pair, motion));
};

/** How far the strip as made stands off the part, which is moved to where it fits best. The wet side of a leg lies to its left. */
export const gapsOf = (drawn: readonly Vec2[], made: readonly Vec2[], contact: Contact): StretchGap[] => {
  const motion = motionOf(contact, pairsOf(drawn, made, contact));
  return contact.stretches.map((stretch) => {
    const { leg, from, to } = stretch;
    const [a, b] = [motion(drawn[leg]), motion(drawn[leg + 1])];
    const inward = left2(unit2(subtract2(b, a)));
    const at = (share: number): number => {
      const point = lerp2(made[leg], made[leg + 1], share);
      return -dot2(subtract2(point, lerp2(a, b, share)), inward) + 0;
    };
    return { ...stretch, start: at(from), end: at(to) };
  });
};
