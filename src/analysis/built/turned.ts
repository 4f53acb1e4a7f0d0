/** Bends of flanges and of panels by points as they were read: what lies beyond each turns about it. */
import { NOISE, SAME_POINT } from '../geometry/tolerance.js';
import { add, addScaled, cross, distance, dot, scale, subtract, turnVector, unit, type Vec3 } from '../geometry/vec.js';
import { areaVector } from '../geometry/polygon.js';
import { deductionOf } from '../material/bend-allowance.js';
import { isMade } from '../model/around/roles.js';
import type { BendReading, MadePart, Panel, PanelIndex, StatedBend, Tub } from '../model/tub.js';
import { buildShape } from '../shape/build-shape.js';
import type { Bend, Shape } from '../shape/shape.js';
import { shareCorners, withMoved, type Motion } from './moved-panels.js';
import { settleFlanges, type Lying } from './settled-flanges.js';

/** A bend of no strip that was read. */
export interface TurnedBend {
  readonly made: MadePart;
  readonly reading: BendReading;
  readonly name: string;
  /** rad, deviation from flat as drawn. */
  readonly planned: number;
}

export interface Turned {
  /** The tub itself where every reading is as planned. */
  readonly tub: Tub;
  readonly bends: readonly TurnedBend[];
}

/**
 * `tub`: with its strips as they came out. Of each part one panel stays: the one it stands on, else a leg of a strip, else the
 * largest. Bend lines stay where the flat has them: a leg to the sharp corner is longer by half of what the deduction grows by.
 * That of the panel before the bend only where both edges beside it are free; otherwise its corners stay, which is up to
 * 0.05 mm a degree off in a wall of a box. Corners in common with parts that are not cut go along.
 */
export const turnedOf = (tub: Tub): Turned => {
  const readings = (tub.made ?? []).flatMap((made) =>
    made.bends.flatMap((reading) => {
      const bend = tub.bends.find((each) => isBetween(each, reading) && each.origin !== 'strip');
      return bend ? [{ made, reading, name: bend.name }] : [];
    }),
  );
  if (readings.length === 0) return { tub, bends: [] };
  const shape = buildShape(tub);
  const read = readings.flatMap((each) => {
    const bend = shape.bends.find(({ name }) => name === each.name);
    return bend ? [{ ...each, bend, planned: bend.angle }] : [];
  });
  const off = read.filter(({ reading, planned }) => Math.abs(reading.turn - planned) > NOISE);
  const bends = read.map(({ made, reading, name, planned }) => ({ made, reading, name, planned }));
  return { bends, tub: off.length === 0 ? tub : turnAll(tub, shape, off) };
};

const isBetween = ({ panels: [a, b] }: StatedBend, { panels: [c, d] }: BendReading): boolean =>
  (a === c && b === d) || (a === d && b === c);

interface ReadBend extends TurnedBend {
  readonly bend: Bend;
}

/** The outermost bend first, each about where it was drawn: those nearer to what stays carry it along. */
const turnAll = (tub: Tub, shape: Shape, read: readonly ReadBend[]): Tub => {
  const turned: Turning = { tub, shape, panels: [...tub.panels], motions: new Map() };
  const turns = read
    .map((each) => ({ ...each, ...sidesOf(tub, shape, each) }))
    .sort((a, b) => a.beyond.size - b.beyond.size);
  for (const turn of turns) turnBeyond(turned, turn);
  settleFlanges(tub, turned);
  const isFree = tub.panels.map((_, i) => isMade(tub, i) && !turned.motions.has(i) && !isCut(tub, shape, i));
  shareCorners(tub.panels, turned.panels, isFree);
  return withMoved(tub, turned.panels, turned.motions);
};

const isCut = ({ made = [] }: Tub, shape: Shape, panel: PanelIndex): boolean => {
  const part = joinedTo(shape, panel, undefined);
  return made.some((each) => part.has(each.panel));
};

/** All panels that bends join to one, without a look across one of the bends. */
const joinedTo = (shape: Shape, from: PanelIndex, across: Bend | undefined): ReadonlySet<PanelIndex> => {
  const found = new Set([from]);
  // A set goes on to what is added while it is walked.
  for (const panel of found) {
    for (const bend of shape.bends) {
      if (bend === across || !bend.faces.includes(panel)) continue;
      found.add(bend.faces[0] === panel ? bend.faces[1] : bend.faces[0]);
    }
  }
  return found;
};

interface Sides {
  /** The panel of the bend that stays, and the one that turns. */
  readonly held: PanelIndex;
  readonly turning: PanelIndex;
  readonly beyond: ReadonlySet<PanelIndex>;
}

const sidesOf = (tub: Tub, shape: Shape, { made, bend }: ReadBend): Sides => {
  const [a, b] = bend.faces;
  const part = [...joinedTo(shape, a, undefined)];
  const isLeg = (panel: PanelIndex): boolean => tub.panels[panel].kind.kind === 'leg';
  const largest = part.reduce((best, each) => (shape.faces[each].area > shape.faces[best].area ? each : best));
  const stays = [made.standingOn ?? -1].find((each) => part.includes(each)) ?? part.find(isLeg) ?? largest;
  const ofA = joinedTo(shape, a, bend);
  const [held, turning] = ofA.has(stays) ? [a, b] : [b, a];
  return { held, turning, beyond: joinedTo(shape, turning, bend) };
};

interface Turning extends Lying {
  readonly tub: Tub;
  readonly shape: Shape;
}

const turnBeyond = (
  { tub, shape, panels, motions }: Turning,
  { bend, reading, planned, held, turning, beyond }: ReadBend & Sides,
): void => {
  const line = unit(subtract(bend.end, bend.start));
  const outward = scale(inwardOf(tub.panels[held], bend, line), -1);
  const along = inwardOf(tub.panels[turning], bend, line);
  // The turn that bends farther takes what lies beyond from straight on to where it points.
  const axis = dot(cross(outward, along), line) < 0 ? scale(line, -1) : line;
  const by = reading.turn - planned;
  const turned = (v: Vec3): Vec3 => turnVector(v, axis, by);
  const grown = grownBy(bend, reading.turn);
  const isExtended = canGrow(shape, bend, held);
  if (isExtended) panels[held] = extended(panels[held], bend, outward, grown);
  panels[turning] = extended(panels[turning], bend, scale(along, -1), grown);
  const shift = addScaled(scale(turned(along), grown), outward, isExtended ? grown : 0);
  const move: Motion = (point) => add(add(bend.start, turned(subtract(point, bend.start))), shift);
  for (const panel of beyond) {
    const { corners, facing } = panels[panel];
    panels[panel] = { ...panels[panel], corners: corners.map(move), facing: facing && turned(facing) };
    const before = motions.get(panel);
    motions.set(panel, before ? (point) => move(before(point)) : move);
  }
};

/** In the plane of a panel, square to the bend, into the panel. */
const inwardOf = ({ corners }: Panel, { start }: Bend, line: Vec3): Vec3 => {
  const across = unit(cross(areaVector(corners), line));
  const farthest = corners.reduce((most, corner) => {
    const off = dot(subtract(corner, start), across);
    return Math.abs(off) > Math.abs(most) ? off : most;
  }, 0);
  return farthest < 0 ? scale(across, -1) : across;
};

/** mm. What each of both legs to the sharp corner is longer by. */
const grownBy = ({ angle, radius, thickness, kFactor, wet }: Bend, turn: number): number => {
  const deduction = (each: number): number => deductionOf({ angle: each, radius, thickness, kFactor, wet });
  return (deduction(turn) - deduction(angle)) / 2;
};

/** Has the panel the whole edge to the bend, and no bend beside it? */
const canGrow = (shape: Shape, bend: Bend, held: PanelIndex): boolean => {
  const face = shape.faces[held];
  const edge = bend.edges[bend.faces.indexOf(held)];
  const count = face.corners.length;
  const isWhole = face.stretches[edge].length === 1;
  const beside = [(edge + 1) % count, (edge + count - 1) % count].flatMap((each) => face.stretches[each]);
  return isWhole && beside.every((stretch) => stretch.bend === undefined);
};

/** With the edge at the bend so much farther out, the edges beside it as they run. */
const extended = (panel: Panel, { start, end }: Bend, outward: Vec3, by: number): Panel => {
  const { corners } = panel;
  const count = corners.length;
  const isOn = (corner: Vec3): boolean => [start, end].some((each) => distance(each, corner) <= SAME_POINT);
  return {
    ...panel,
    corners: corners.map((corner, i) => {
      if (!isOn(corner)) return corner;
      const other = [corners[(i + 1) % count], corners[(i + count - 1) % count]].find((each) => !isOn(each));
      const beside = other && unit(subtract(corner, other));
      const slope = beside ? dot(beside, outward) : 0;
      return beside && slope > LEAST_SLOPE ? addScaled(corner, beside, by / slope) : addScaled(corner, outward, by);
    }),
  };
};

/** An edge that runs flatter against the bend than 6 deg is not followed. */
const LEAST_SLOPE = 0.1;
