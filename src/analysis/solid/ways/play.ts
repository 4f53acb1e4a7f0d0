/** How far a thing can be pushed to each side in its seat. */
import { NO_AXIS, ROUND_OFF, SAME_TURN } from '../../geometry/tolerance.js';
import { addScaled, dot, lengthOf, scale, type Vec3 } from '../../geometry/vec.js';
import type { GroupIndex, Tub } from '../../model/tub.js';
import type { Shape } from '../../shape/shape.js';
import type { Piece } from '../room/body-pieces.js';
import { closePrisms, type Box, type Prism } from '../bodies/prisms.js';
import type { Slack } from '../room/slack.js';
import type { Obstacle } from './pairs.js';
import { windowOf } from '../room/window.js';

/** To one side: how far it goes until it meets something. */
export interface SidePlay {
  readonly way: Vec3;
  /** mm, as drawn; less than 0 where it is in what it would meet. */
  readonly gap: number;
  /** With every bend and mark as far off as the shop says, in the worst way. */
  readonly worst: number;
  readonly by: Obstacle;
}

export interface PlayOutcome {
  readonly group: GroupIndex;
  /** Those on which something is met, in the order left, right, front, back of the seat. */
  readonly sides: readonly SidePlay[];
}

/** Of each removable thing whose seat and play are stated. Cost: for each side the pieces whose boxes the swept ones meet. */
export const playsOf = (
  tub: Tub,
  shape: Shape,
  pieces: ReadonlyMap<GroupIndex | -1, readonly Piece[]>,
  slack: Slack,
): readonly PlayOutcome[] =>
  (tub.groups ?? []).flatMap(({ seat, play }, group): PlayOutcome[] => {
    const own = pieces.get(group) ?? [];
    if (play === undefined || own.length === 0) return [];
    const others = [...pieces].flatMap(([body, each]) => (body === group ? [] : each));
    const normal: Vec3 = seat === undefined ? [0, 0, 1] : shape.faces[seat].frame.normal;
    const sides = SIDES.flatMap((side) => {
      const way = inPlane(side, normal);
      return (way && sidePlay(own, others, way, slack)) ?? [];
    });
    return [{ group, sides }];
  });

const SIDES: readonly Vec3[] = [[-1, 0, 0], [1, 0, 0], [0, -1, 0], [0, 1, 0], [0, 0, -1], [0, 0, 1]]; // prettier-ignore

/** A heading as it runs in the plane of the seat; undefined where it stands off it more than along it. */
const inPlane = (side: Vec3, normal: Vec3): Vec3 | undefined => {
  if (Math.abs(dot(side, normal)) > Math.SQRT1_2 - SAME_TURN) return undefined;
  const along = addScaled(side, normal, -dot(side, normal));
  const length = lengthOf(along);
  return length > NO_AXIS ? scale(along, 1 / length) : undefined;
};

const sidePlay = (own: readonly Piece[], others: readonly Piece[], way: Vec3, slack: Slack): SidePlay | undefined => {
  let best: SidePlay | undefined;
  const most = Math.max(...[...own, ...others].map(({ face, body }) => slack.most(face, body.corners)));
  for (const moving of own) {
    for (const still of others) {
      if (!isAhead(moving.body, still.body, way, (best?.gap ?? Infinity) + 2 * most)) continue;
      const met = pairPlay(moving, still, way, slack);
      if (!met) continue;
      const [gap, worst] = [Math.min(met[0], best?.gap ?? Infinity), Math.min(met[1], best?.worst ?? Infinity)];
      const isNearer = !best || met[1] < best.worst;
      best = { way, gap, worst, by: isNearer ? { face: still.face, thing: still.thing } : best!.by };
    }
  }
  return best;
};

/** How far one goes until it meets the other, as drawn and at worst; undefined: it goes by. */
const pairPlay = (moving: Piece, still: Piece, way: Vec3, slack: Slack): readonly [number, number] | undefined => {
  let [gap, worst] = [Infinity, Infinity];
  for (const p of closePrisms(moving.body)) {
    for (const q of closePrisms(still.body)) {
      if (!isAhead(p, q, way, Infinity)) continue;
      const met = windowOf(p, q, way, 0);
      if (!met || met[1] <= ROUND_OFF || isBeside(p, q, way)) continue;
      gap = Math.min(gap, met[0]);
      for (const [at, distance] of places(p, q, way, met[0]))
        worst = Math.min(worst, distance - slack.along(moving.face, at, way) - slack.along(still.face, at, way));
    }
  }
  return gap === Infinity ? undefined : [gap, Math.min(gap, worst)];
};

/** mm. What it lies on, or slides along, is not met by what the two have in common at home. */
const SLIDES_BY = 0.1;

/** Is it no farther in the other on the way than it would have to give to one side? */
const isBeside = (p: Prism, q: Prism, way: Vec3): boolean => windowOf(p, q, way, SLIDES_BY) === undefined;

/** Corners of either where they meet the other, and how far the way to it is; the nearest of both where none does. */
const places = (p: Prism, q: Prism, way: Vec3, reach: number): readonly (readonly [Vec3, number])[] => {
  const hits = (from: Prism, to: Prism, towards: Vec3): (readonly [Vec3, number])[] =>
    from.corners.flatMap((corner) => {
      const met = windowOf({ corners: [corner], edges: [], normals: [] }, to, towards, 0);
      return met && met[1] > 0 ? [[corner, met[0]] as const] : [];
    });
  const all = [...hits(p, q, way), ...hits(q, p, scale(way, -1))];
  if (all.length > 0) return all;
  const first = p.corners.reduce((most, corner) => (dot(corner, way) > dot(most, way) ? corner : most));
  return [[first, reach]];
};

/** Could one meet the other within so far? */
const isAhead = (moving: Box, still: Box, way: Vec3, within: number): boolean =>
  [0, 1, 2].every((k) => {
    const low = way[k] < -ROUND_OFF ? moving.low[k] + way[k] * within : moving.low[k];
    const high = way[k] > ROUND_OFF ? moving.high[k] + way[k] * within : moving.high[k];
    return low <= still.high[k] && high >= still.low[k];
  });
