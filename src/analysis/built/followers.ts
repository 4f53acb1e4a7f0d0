/** What hangs on a strip that came out otherwise: its legs, what closes and divides it, flanges, openings, and corners they share. */
import { SAME_POINT } from '../geometry/tolerance.js';
import {
  add,
  addScaled,
  cross,
  distance,
  dot,
  lerp,
  scale,
  subtract,
  unit,
  type Vec2,
  type Vec3,
} from '../geometry/vec.js';
import { areaVector } from '../geometry/polygon.js';
import { isMade } from '../model/around/roles.js';
import { HAND_ROUNDED } from '../model/tolerance.js';
import type { Panel, PanelIndex, Strip, Tub } from '../model/tub.js';
import { shareCorners, withMoved, type Motion } from './moved-panels.js';
import { onProfile, upOf, type Moved, type Profile } from './profile.js';
import { settleFlanges, type Lying } from './settled-flanges.js';

export interface MovedStrip {
  readonly strip: number;
  readonly profile: Profile;
  readonly moved: Moved;
}

/**
 * The tub with the strips as they came out. Legs move as they are, and what is in them with them. A corner of another panel that
 * lies on a leg, or on a fold line between two, goes with it; the upper corners of a side or divider stay above its lower ones.
 * Flanges keep their size and angle; one that is to lie level or plumb does, while it is not bent. What stands there already stays, and so does every other strip: no leg follows by half.
 */
export const followersOf = (tub: Tub, strips: readonly MovedStrip[]): Tub => {
  const followed: Lying = { panels: [...tub.panels], motions: new Map() };
  for (const strip of strips) moveLegs(tub, strip, followed);
  const isFree = tub.panels.map(({ kind: { kind } }, i) => isMade(tub, i) && kind !== 'flange' && kind !== 'leg');
  const cut = new Set((tub.made ?? []).map(({ panel }) => panel));
  for (const strip of strips) {
    const surface = surfaceOf(tub, strip);
    followed.panels.forEach((panel, i) => {
      if (!isFree[i]) return;
      const by = cut.has(i) ? standsAcross(tub.panels[i], surface) : undefined;
      if (!by) followed.panels[i] = onStrip(panel, tub.panels[i], surface, tub.strips[strip.strip]);
      else moveWhole(followed, i, by);
    });
  }
  moveFlanges(tub, followed);
  settleFlanges(tub, followed);
  shareCorners(tub.panels, followed.panels, isFree);
  return withMoved(tub, followed.panels, followed.motions);
};

const inSpace = (strip: Strip, [along, up]: Vec2): Vec3 => add(scale(strip.heading, along), scale(upOf(strip), up));

const moveLegs = (tub: Tub, { strip: index, moved }: MovedStrip, { panels, motions }: Lying): void => {
  const strip = tub.strips[index];
  strip.panels.forEach((panel, leg) => {
    const [start, end] = [inSpace(strip, moved.by[leg]), inSpace(strip, moved.by[leg + 1])];
    const turn = turnAbout(strip, moved.turned[leg]);
    const { corners, facing } = panels[panel];
    const by = [start, start, end, end];
    panels[panel] = {
      ...panels[panel],
      corners: corners.map((corner, i) => add(corner, by[i])),
      facing: facing && turn(facing),
    };
    // What is in a leg stays where it is to the leg's middle: there the flat has it.
    const from = middleOf(corners[0], corners[3]);
    const to = middleOf(panels[panel].corners[0], panels[panel].corners[3]);
    motions.set(panel, (point) => add(to, turn(subtract(point, from))));
  });
};

const middleOf = (a: Vec3, b: Vec3): Vec3 => scale(add(a, b), 1 / 2);

/** A turn from the heading to up. */
const turnAbout = (strip: Strip, angle: number): Motion => {
  if (angle === 0) return (v) => v;
  const { heading } = strip;
  const upward = upOf(strip);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return (v) => {
    const [along, up] = [dot(v, heading), dot(v, upward)];
    const side = subtract(v, add(scale(heading, along), scale(upward, up)));
    return add(side, add(scale(heading, c * along - s * up), scale(upward, s * along + c * up)));
  };
};

/** How far a point moves that lies on the strip as drawn; undefined: it does not lie on it. */
type Surface = (point: Vec3) => Vec3 | undefined;

const surfaceOf = (tub: Tub, { strip: index, profile, moved }: MovedStrip): Surface => {
  const strip = tub.strips[index];
  const corners = strip.panels.flatMap((panel) => tub.panels[panel].corners);
  const across = corners.map((corner) => dot(corner, strip.across));
  const [least, most] = [Math.min(...across) - SAME_POINT, Math.max(...across) + SAME_POINT];
  return (point) => {
    const side = dot(point, strip.across);
    if (side < least || side > most) return undefined;
    const by = moveOn(profile.points, moved.by, onProfile(strip, point));
    return by && inSpace(strip, by);
  };
};

const moveOn = (points: readonly Vec2[], by: readonly Vec2[], [x, y]: Vec2): Vec2 | undefined => {
  for (let i = 0; i + 1 < points.length; i++) {
    const [a, b] = [points[i], points[i + 1]];
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const length = Math.hypot(dx, dy);
    const along = ((x - a[0]) * dx + (y - a[1]) * dy) / length;
    const off = Math.abs((x - a[0]) * dy - (y - a[1]) * dx) / length;
    if (off > SAME_POINT || along < -SAME_POINT || along > length + SAME_POINT) continue;
    if (along <= SAME_POINT) return by[i];
    if (along >= length - SAME_POINT) return by[i + 1];
    const share = along / length;
    return [by[i][0] + (by[i + 1][0] - by[i][0]) * share, by[i][1] + (by[i + 1][1] - by[i][1]) * share];
  }
  return undefined;
};

/** A panel whose corners on the strip go with it; of one that has a top, the ends of it that stand clear go along, level as they are. */
const onStrip = (panel: Panel, drawn: Panel, surface: Surface, strip: Strip): Panel => {
  const moves = drawn.corners.map(surface);
  if (moves.every((move) => move === undefined)) return panel;
  const { top } = drawn.edgeNames;
  const count = drawn.corners.length;
  const isUpper = (i: number): boolean => top !== undefined && (i === top || i === (top + 1) % count);
  // The top runs from its first to its last corner: each stands over the one on its other side.
  const lowerOf = (i: number): number => (i === top ? i + count - 1 : i + 1) % count;
  const corners = panel.corners.map((corner, i) => {
    const move = moves[i];
    if (move) return add(corner, move);
    if (!isUpper(i)) return corner;
    const below = moves[lowerOf(i)];
    return below ? addScaled(corner, strip.heading, dot(below, strip.heading)) : corner;
  });
  drawn.corners.forEach((_, i) => {
    if (moves[i] || !isUpper(i)) return;
    if (moves[lowerOf(i)]) cutAtTop(corners, i, i === top ? -1 : 1, upOf(strip));
  });
  return { ...panel, corners };
};

/** How a panel goes that stands with one edge across a strip; undefined: it meets it along its profile. */
const standsAcross = ({ corners }: Panel, surface: Surface): Vec3 | undefined => {
  const moves = corners.map(surface).filter((move) => move !== undefined);
  const isAlike = moves.every((move) => distance(move, moves[0]) <= SAME_POINT);
  return moves.length > 0 && isAlike ? moves[0] : undefined;
};

/** What is cut keeps its size: set down on the strip as it came out, all of it goes along. */
const moveWhole = ({ panels, motions }: Lying, index: PanelIndex, by: Vec3): void => {
  const move: Motion = (point) => add(point, by);
  panels[index] = { ...panels[index], corners: panels[index].corners.map(move) };
  motions.set(index, move);
};

/** mm. What is left of an upright end that a strip has grown over: a corner of its top, so that edges keep their numbers. */
const LEAST_END = 1;

/** Where the end of a strip came out above the top of what closes it, the profile ends where it meets the top. */
const cutAtTop = (corners: Vec3[], upper: number, step: 1 | -1, up: Vec3): void => {
  const at = (offset: number): number => (upper + offset + corners.length) % corners.length;
  const [end, before, top] = [corners[at(step)], corners[at(2 * step)], corners[at(-step)]];
  const level = dot(corners[upper], up);
  const [rise, run] = [dot(end, up) - level, dot(end, up) - dot(before, up)];
  if (rise <= -HAND_ROUNDED || run <= rise) return;
  if (rise > 0) corners[at(step)] = lerp(end, before, rise / run);
  corners[upper] = addScaled(corners[at(step)], unit(subtract(top, corners[at(step)])), LEAST_END);
};

/** Each on its parent's edge as before: parents first, as a flange may stand on a flange. */
const moveFlanges = (tub: Tub, { panels, motions }: Lying): void => {
  const done = new Set<PanelIndex>();
  const move = (index: PanelIndex): void => {
    const { kind } = tub.panels[index];
    if (kind.kind !== 'flange' || done.has(index)) return;
    done.add(index);
    const { panel: parent, edge } = kind.parent;
    move(parent);
    if (panels[parent] === tub.panels[parent]) return;
    const place = edgeMotion(tub.panels[parent], panels[parent], edge);
    const drawn = panels[index];
    const turned = (v: Vec3): Vec3 => subtract(place.atStart(v), place.atStart([0, 0, 0]));
    panels[index] = {
      ...drawn,
      corners: drawn.corners.map((corner) => place.nearest(corner)),
      facing: drawn.facing && unit(turned(drawn.facing)),
    };
    motions.set(index, place.atStart);
  };
  tub.panels.forEach((_, i) => move(i));
};

/** From an edge as drawn to the same as made: each place by the end of the edge that it lies nearer to. */
const edgeMotion = (
  drawn: Panel,
  made: Panel,
  edge: number,
): { readonly atStart: Motion; readonly nearest: Motion } => {
  const frameAt = (panel: Panel): { readonly ends: readonly [Vec3, Vec3]; readonly axes: readonly Vec3[] } => {
    const [a, b] = [panel.corners[edge], panel.corners[(edge + 1) % panel.corners.length]];
    const along = unit(subtract(b, a));
    const normal = unit(areaVector(panel.corners));
    return { ends: [a, b], axes: [along, unit(cross(normal, along)), normal] };
  };
  const [from, to] = [frameAt(drawn), frameAt(made)];
  const motion =
    (end: 0 | 1): Motion =>
    (point) => {
      const offset = subtract(point, from.ends[end]);
      return to.axes.reduce((at, axis, i) => addScaled(at, axis, dot(offset, from.axes[i])), to.ends[end]);
    };
  const [atStart, atEnd] = [motion(0), motion(1)];
  const nearest: Motion = (point) =>
    distance(point, from.ends[0]) <= distance(point, from.ends[1]) ? atStart(point) : atEnd(point);
  return { atStart, nearest };
};
