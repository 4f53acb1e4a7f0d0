/** Flanges that are to lie level or stand plumb and are not bent yet: they are bent to that, however what they stand on came out. */
import { areaVector } from '../geometry/polygon.js';
import { NOISE, SAME_DIRECTION } from '../geometry/tolerance.js';
import { add, addScaled, cross, dot, subtract, turnVector, unit, type Vec3 } from '../geometry/vec.js';
import type { Panel, PanelIndex, Tub } from '../model/tub.js';
import type { Motion } from './moved-panels.js';

/** Panels as they come to lie, and of those that move as a whole how. */
export interface Lying {
  readonly panels: Panel[];
  readonly motions: Map<PanelIndex, Motion>;
}

/** Turns each about its edge, with the flanges that stand on it; those nearest to what carries them first. Cost: O(n) in panels. */
export const settleFlanges = (tub: Tub, lying: Lying): void => {
  const done = new Set<PanelIndex>();
  const settle = (index: PanelIndex): void => {
    const { kind } = tub.panels[index];
    if (kind.kind !== 'flange' || done.has(index)) return;
    done.add(index);
    settle(kind.parent.panel);
    if (kind.set && lying.panels[index] !== tub.panels[index] && !isRead(tub, index, kind.parent.panel))
      settleOne(tub, lying, index, kind.set);
  };
  tub.panels.forEach((_, i) => settle(i));
};

/** Was the bend that it is turned by read? */
export const isRead = ({ made = [] }: Tub, flange: PanelIndex, parent: PanelIndex): boolean =>
  made.some(({ bends }) => bends.some(({ panels }) => panels.includes(flange) && panels.includes(parent)));

const settleOne = (tub: Tub, { panels, motions }: Lying, index: PanelIndex, set: 'level' | 'plumb'): void => {
  const { corners } = panels[index];
  const along = unit(subtract(corners[1], corners[0]));
  const line = set === 'plumb' ? addScaled([0, 0, 1], along, -along[2]) : cross(along, [0, 0, 1]);
  if (Math.hypot(...line) < SAME_DIRECTION) return;
  const lies = unit(cross(areaVector(corners), along));
  // As it was drawn it lay along the line, one way or the other: the nearer is meant.
  const turn = Math.atan2(dot(cross(lies, unit(line)), along), dot(lies, unit(line)));
  const by = turn - Math.PI * Math.round(turn / Math.PI);
  if (Math.abs(by) <= NOISE) return;
  const turned = (v: Vec3): Vec3 => turnVector(v, along, by);
  const move: Motion = (point) => add(corners[0], turned(subtract(point, corners[0])));
  for (const each of standingOn(tub, index)) {
    const panel = panels[each];
    panels[each] = { ...panel, corners: panel.corners.map(move), facing: panel.facing && turned(panel.facing) };
    const before = motions.get(each);
    motions.set(each, before ? (point) => move(before(point)) : move);
  }
};

/** A flange, and all that stand on it or on one that does. */
const standingOn = ({ panels }: Tub, flange: PanelIndex): ReadonlySet<PanelIndex> => {
  const found = new Set([flange]);
  // A set goes on to what is added while it is walked.
  for (const under of found)
    panels.forEach(({ kind }, i) => {
      if (kind.kind === 'flange' && kind.parent.panel === under) found.add(i);
    });
  return found;
};
