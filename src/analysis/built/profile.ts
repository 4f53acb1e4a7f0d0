/** A strip seen from the side, in the plane of its heading and up: as drawn, and folded as its bends came out. */
import { NOISE, SAME_POINT } from '../geometry/tolerance.js';
import { cross, distance2, dot, scale, scale2, subtract2, type Vec2, type Vec3 } from '../geometry/vec.js';
import { chooseKFactor, deductionOf } from '../material/bend-allowance.js';
import type { LengthReading, Sheet, Strip, Tub } from '../model/tub.js';

export interface ProfileBend {
  /** Index into `Tub.bends`. */
  readonly bend: number;
  /** Deviation from flat as drawn, -pi..pi: positive where the wet face is inside. */
  readonly turn: number;
  readonly radius: number;
  readonly kFactor: number;
}

export interface Profile {
  /** Corners on the wet face in order of travel: (along the heading, up). One more than legs. */
  readonly points: readonly Vec2[];
  /** `bends[i]` joins legs `i` and `i + 1`. */
  readonly bends: readonly ProfileBend[];
  readonly thickness: number;
}

/** What holds a folded strip in its place. */
export interface Footing {
  /** The leg whose middle and slope are as drawn; undefined: both ends are fitted to where they were drawn. */
  readonly leg: number | undefined;
  /** rad to level that legs were found at, 0..pi/2: these decide how the strip leans. */
  readonly slopes: readonly { readonly leg: number; readonly slope: number }[];
}

/** A strip as its bends came out. */
export interface Folding {
  /** Of each bend as `ProfileBend.turn`. */
  readonly turns: readonly number[];
  /** Length on the wet face of legs that were measured. */
  readonly lengths: ReadonlyMap<number, number>;
}

/** How a fold differs from what is drawn; all exactly 0 where nothing differs. */
export interface Moved {
  /** By corner of the profile, mm. */
  readonly by: readonly Vec2[];
  /** By leg, rad, positive from the heading to up. */
  readonly turned: readonly number[];
  /** By leg: its length on the wet face, mm. */
  readonly lengths: readonly number[];
}

type Lie = Pick<Strip, 'heading' | 'across'>;

/** Square to heading and width, on the side that is up: a tub that is set up leaning has it leaning. */
export const upOf = ({ heading, across }: Lie): Vec3 => {
  const up = cross(heading, across);
  return up[2] < 0 ? scale(up, -1) : up;
};

export const onProfile = (strip: Lie, point: Vec3): Vec2 => [dot(strip.heading, point), dot(upOf(strip), point)];

/** Undefined where a leg has no place, or its bends are not those of a strip. */
export const profileOf = (tub: Tub, strip: Strip): Profile | undefined => {
  const legs = strip.panels.map((panel) => tub.panels[panel].corners);
  if (legs.length === 0) return undefined;
  const points = [onProfile(strip, legs[0][0]), ...legs.map((corners) => onProfile(strip, corners[3]))];
  const isWhole = legs.every((corners, i) => distance2(onProfile(strip, corners[0]), points[i]) <= SAME_POINT);
  const sheet = tub.sheets[strip.sheet];
  const { cutK } = tub.panels[strip.panels[0]];
  const bends = legs.slice(1).map((_, i): ProfileBend | undefined => {
    const [a, b] = [strip.panels[i], strip.panels[i + 1]];
    const bend = tub.bends.findIndex(({ panels, origin }) => origin === 'strip' && panels[0] === a && panels[1] === b);
    const turn = turnBetween(subtract2(points[i + 1], points[i]), subtract2(points[i + 2], points[i + 1]));
    return bend < 0 ? undefined : { bend, turn, ...metalOf(sheet, tub.bends[bend], cutK) };
  });
  if (!isWhole || bends.some((bend) => bend === undefined)) return undefined;
  return { points, bends: bends.filter((bend) => bend !== undefined), thickness: sheet.thickness };
};

const metalOf = (
  sheet: Sheet,
  stated: Tub['bends'][number],
  cutK: number | undefined,
): Pick<ProfileBend, 'radius' | 'kFactor'> => {
  const radius = stated.radius ?? sheet.radius;
  return { radius, kFactor: chooseKFactor({ sheet, radius, bendKFactor: stated.kFactor, cutK }).kFactor };
};

const turnBetween = (a: Vec2, b: Vec2): number => Math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]);

/** What both legs together are longer to their sharp corner than in the flat, half of it for each. */
const halfDeduction = ({ thickness }: Profile, { radius, kFactor, turn: drawn }: ProfileBend, turn: number): number =>
  deductionOf({ angle: Math.abs(turn), radius, thickness, kFactor, wet: drawn > 0 ? 'inside' : 'outside' }) / 2;

/**
 * The fold of a strip that is cut: its bend lines stay where the flat has them and its radii are as stated, so that a leg's length
 * to the sharp corners follows from the angles beside it unless it was measured. Cost: O(n) in legs.
 */
export const foldedAs = (profile: Profile, folding: Folding, footing: Footing): Moved => {
  const { points, bends } = profile;
  const count = points.length - 1;
  const off = bends.map(({ turn }, i) => withoutNoise(folding.turns[i] - turn));
  const grown = bends.map((bend, i) =>
    off[i] === 0 ? 0 : halfDeduction(profile, bend, folding.turns[i]) - halfDeduction(profile, bend, bend.turn),
  );
  const turned: number[] = [0];
  for (let i = 1; i < count; i++) turned.push(turned[i - 1] + off[i - 1]);
  const held = footing.leg ?? 0;
  const turnedBy = turned.map((turn) => turn - turned[held]);
  const drawn = Array.from({ length: count }, (_, i) => subtract2(points[i + 1], points[i]));
  const drawnLengths = drawn.map(([x, y]) => Math.hypot(x, y));
  const lengths = drawnLengths.map((length, i) => {
    const measured = folding.lengths.get(i);
    const free = length + (grown[i - 1] ?? 0) + (grown[i] ?? 0);
    return measured === undefined || Math.abs(measured - free) <= NOISE ? free : measured;
  });
  const legs = drawn.map((leg, i) => scaled(rotated(leg, turnedBy[i]), lengths[i], drawnLengths[i]));
  const chained = chain(drawn, legs, held);
  const isHeld = footing.leg !== undefined;
  const placed = isHeld ? { by: chained, turned: turnedBy } : fitEnds(points, chained, turnedBy);
  return { ...leaned(profile, placed, footing), lengths };
};

const withoutNoise = (angle: number): number => (Math.abs(angle) <= NOISE ? 0 : angle);

const rotated = (v: Vec2, by: number): Vec2 => {
  if (by === 0) return v;
  const [c, s] = [Math.cos(by), Math.sin(by)];
  return [c * v[0] - s * v[1], s * v[0] + c * v[1]];
};

const scaled = (v: Vec2, to: number, from: number): Vec2 => (to === from ? v : scale2(v, to / from));

/** How far each corner moves when the middle of the leg that is held stays. */
const chain = (drawn: readonly Vec2[], legs: readonly Vec2[], held: number): Vec2[] => {
  const by: Vec2[] = Array.from({ length: drawn.length + 1 }, () => [0, 0]);
  const grown = (i: number): Vec2 => subtract2(legs[i], drawn[i]);
  by[held] = scale2(grown(held), -1 / 2);
  by[held + 1] = scale2(grown(held), 1 / 2);
  for (let i = held + 1; i < drawn.length; i++) by[i + 1] = plus(by[i], grown(i));
  for (let i = held - 1; i >= 0; i--) by[i] = subtract2(by[i + 1], grown(i));
  return by.map(([x, y]): Vec2 => [x + 0, y + 0]);
};

const plus = (a: Vec2, b: Vec2): Vec2 => [a[0] + b[0], a[1] + b[1]];

type Placed = Pick<Moved, 'by' | 'turned'>;

/** Turned so that the line from end to end runs as drawn, and moved so that its middle lies as drawn. */
const fitEnds = (points: readonly Vec2[], by: readonly Vec2[], turned: readonly number[]): Placed => {
  if (by.every(([x, y]) => x === 0 && y === 0)) return { by, turned };
  const [first, last] = [points[0], points[points.length - 1]];
  const [a, b] = [plus(first, by[0]), plus(last, by[by.length - 1])];
  const [drawn, made] = [subtract2(last, first), subtract2(b, a)];
  const isClosed = Math.hypot(...drawn) <= SAME_POINT || Math.hypot(...made) <= SAME_POINT;
  const turn = isClosed ? 0 : turnBetween(made, drawn);
  return moveAll(points, { by, turned }, turn, scale2(plus(a, b), 1 / 2), scale2(plus(first, last), 1 / 2));
};

/** Turned about `from`, which comes to lie at `to`. */
const moveAll = (points: readonly Vec2[], { by, turned }: Placed, turn: number, from: Vec2, to: Vec2): Placed => ({
  by: points.map((point, i) => subtract2(plus(to, rotated(subtract2(plus(point, by[i]), from), turn)), point)),
  turned: turned.map((each) => each + turn),
});

/** Leaned, about the middle of what holds it, until the legs stand to level as they were found. */
const leaned = ({ points }: Profile, placed: Placed, { leg, slopes }: Footing): Placed => {
  if (slopes.length === 0) return placed;
  const at = points.map((point, i) => plus(point, placed.by[i]));
  const turns = slopes.map((found) => {
    const is = slopeOf(at, found.leg);
    const size = Math.abs(is) <= Math.PI / 2 ? found.slope : Math.PI - found.slope;
    return (slopeOf(points, found.leg) < 0 ? -size : size) - is;
  });
  const turn = withoutNoise(turns.reduce((sum, each) => sum + each, 0) / turns.length);
  if (turn === 0) return placed;
  const [from, to] = leg === undefined ? [at[0], at[at.length - 1]] : [at[leg], at[leg + 1]];
  const middle = scale2(plus(from, to), 1 / 2);
  return moveAll(points, placed, turn, middle, middle);
};

const slopeOf = (points: readonly Vec2[], leg: number): number => {
  const [x, y] = subtract2(points[leg + 1], points[leg]);
  return Math.atan2(y, x);
};

/** A leg that was taped. */
export interface Taped extends Pick<LengthReading, 'length' | 'over'> {
  readonly leg: number;
}

/** Of a leg that was taped over one side of its metal: its length on the wet face between the sharp corners. */
export const wetLengthOf = (profile: Profile, turns: readonly number[], { leg, length, over }: Taped): number => {
  const atEnd = (bend: number): number => {
    const turn = turns[bend];
    if (turn === undefined) return 0;
    const isWetInside = profile.bends[bend].turn > 0;
    const reach = profile.thickness * Math.tan(Math.abs(turn) / 2);
    if (over === 'outside') return isWetInside ? -reach : 0;
    return isWetInside ? 0 : reach;
  };
  return length + atEnd(leg - 1) + atEnd(leg);
};
