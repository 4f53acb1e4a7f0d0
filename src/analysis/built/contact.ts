/** Where a part that is cut meets a strip, and how far it stands off once it is moved to where it fits best. */
import { SAME_POINT } from '../geometry/tolerance.js';
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

/** A place where a part and the strip are to meet, and the length that it stands for. */
interface Pair {
  readonly drawn: Vec2;
  readonly made: Vec2;
  readonly weight: number;
}

const pairsOf = (drawn: readonly Vec2[], made: readonly Vec2[], { stretches }: Contact): Pair[] =>
  stretches.flatMap(({ leg, from, to }) => {
    const at = (points: readonly Vec2[], share: number): Vec2 => lerp2(points[leg], points[leg + 1], share);
    const length = Math.hypot(...subtract2(at(drawn, to), at(drawn, from)));
    return NODES.map(([share, weight]): Pair => {
      const place = from + (to - from) * share;
      return { drawn: at(drawn, place), made: at(made, place), weight: weight * length };
    });
  });

type Motion = (point: Vec2) => Vec2;

/** The turn and shift that bring the places as drawn nearest to the places as made: least sum of squares, in closed form. */
const bestMotion = (pairs: readonly Pair[]): Motion => {
  const all = pairs.reduce((sum, { weight }) => sum + weight, 0);
  const middle = (of: (pair: Pair) => Vec2): Vec2 => {
    const sum = pairs.reduce<Vec2>((at, pair) => addScaled2(at, of(pair), pair.weight), [0, 0]);
    return [sum[0] / all, sum[1] / all];
  };
  const [from, to] = [middle(({ drawn }) => drawn), middle(({ made }) => made)];
  let [along, aside] = [0, 0];
  for (const { drawn, made, weight } of pairs) {
    const [a, b] = [subtract2(drawn, from), subtract2(made, to)];
    along += weight * dot2(a, b);
    aside += weight * dot2(left2(a), b);
  }
  const size = Math.hypot(along, aside);
  const [c, s] = size > 0 ? [along / size, aside / size] : [1, 0];
  return ([x, y]) => [to[0] + c * (x - from[0]) - s * (y - from[1]), to[1] + s * (x - from[0]) + c * (y - from[1])];
};

const IN_PLACE: Motion = (point) => point;

const motionOf = (contact: Contact, pairs: readonly Pair[]): Motion =>
  contact.panel === undefined ? IN_PLACE : bestMotion(pairs);

/** What is left at each place, each by the root of the length that it stands for: their squares sum to the integral of gap^2. */
export const misfitOf = (drawn: readonly Vec2[], made: readonly Vec2[], contact: Contact): number[] => {
  const pairs = pairsOf(drawn, made, contact);
  const motion = motionOf(contact, pairs);
  return pairs.flatMap((pair) => {
    const [x, y] = subtract2(pair.made, motion(pair.drawn));
    const weight = Math.sqrt(pair.weight);
    return [weight * x, weight * y];
  });
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
