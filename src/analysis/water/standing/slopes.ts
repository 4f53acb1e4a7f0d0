import { cross, distance, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import { memoBy } from '../../cache/memo.js';
import type { Face, FaceIndex, Shape, Stretch } from '../../shape/shape.js';
import { SAME_DIRECTION } from '../../geometry/tolerance.js';

/** A face that catches water: it looks up. */
export interface PanelSlope {
  readonly face: FaceIndex;
  /** Inclination of the wet face, rad, 0 level .. pi/2 upright. */
  readonly inclination: number;
  /** The least it can be while the tub stands within `level`; 0 when it can lie level or fall the other way. */
  readonly worst: number;
}

/** A line between two faces along which water runs. */
export interface CreaseSlope {
  readonly faces: readonly [FaceIndex, FaceIndex];
  readonly bend: number | undefined;
  readonly high: Vec3;
  readonly low: Vec3;
  readonly length: number;
  readonly inclination: number;
  readonly worst: number;
}

/**
 * Inclination of each face that looks up, as it stands and at its worst when the tub stands within `within` rad.
 * A tilt by up to `within` about any level axis changes the inclination of a plane or a line by at most as much.
 */
export const panelSlopes = (shape: Shape, within: number): readonly PanelSlope[] =>
  shape.faces
    .filter((face) => face.usable && face.frame.normal[2] > SAME_DIRECTION)
    .map((face) => {
      const inclination = inclinationOf(face.frame.normal);
      return { face: face.panel, inclination, worst: Math.max(0, inclination - within) };
    });

/** Angle between a plane and level, from its normal; accurate near zero, where acos is not. */
export const inclinationOf = (normal: Vec3): number => Math.atan2(Math.hypot(normal[0], normal[1]), normal[2]);

/**
 * Creases in which water collects: both faces fall towards the common line. A line that is level counts too (water
 * stands in it). One entry for each stretch with two faces, in face order.
 */
export const creaseSlopes = (shape: Shape, within: number): readonly CreaseSlope[] => {
  const creases: CreaseSlope[] = [];
  for (const face of shape.faces) {
    for (const list of face.stretches) {
      for (const [i, stretch] of list.entries()) {
        if (stretch.isLaid) continue;
        for (const mate of stretch.mates) {
          if (
            mate.face > face.panel &&
            fallsInto(face, stretch.edge, i) &&
            fallsInto(shape.faces[mate.face], mate.edge, mate.stretch)
          )
            creases.push(creaseOf(stretch, mate.face, within));
        }
      }
    }
  }
  return creases;
};

const creaseOf = ({ face, start, end, bend }: Stretch, mate: FaceIndex, within: number): CreaseSlope => {
  const [high, low] = start[2] >= end[2] ? [start, end] : [end, start];
  const inclination = Math.atan2(high[2] - low[2], Math.hypot(high[0] - low[0], high[1] - low[1]));
  return {
    faces: [face, mate],
    bend,
    high,
    low,
    length: distance(high, low),
    inclination,
    worst: Math.max(0, inclination - within),
  };
};

/** Does the face fall into that stretch of that edge? */
const fallsInto = (face: Face, edge: number, stretch: number): boolean => falls(face)[edge][stretch];

const falls = memoBy((face: Face) => face.stretches.map((list) => list.map((s) => fallInto(face, s) > SAME_DIRECTION)));

/** Sine of the face's fall square to one of its own edges: positive when it runs into the edge. */
export const fallInto = (face: Face, { start, end }: Stretch): number =>
  -unit(cross(subtract(end, start), face.frame.normal))[2];
