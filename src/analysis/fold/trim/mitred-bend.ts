import { SAME_DIRECTION, SAME_POINT } from '../../geometry/tolerance.js';
import { cross, distance, dot, scale, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import type { Bend, FaceIndex, Shape } from '../../shape/shape.js';

/** Where the surfaces of two bends meet beside a mitre: mm along the one, from the sharp corner into it, by its turn from the flange. */
export type MitreStation = (turn: number) => number;

/** A bend at one of its ends, as its flange has it. */
interface Crown {
  readonly bend: Bend;
  /** In the flange's plane: along the bend into it, and square to it away from the wall. */
  readonly inward: Vec3;
  readonly outward: Vec3;
}

/**
 * Two flanges in one plane whose walls rise from one another, mitred at their common corner: over the bends water lies on the
 * higher of both surfaces, so each ends where the other is as high. With the drop h = r (1 - cos t) below the flanges at a turn t,
 * a bend's surface stands r tan(a/2) - r sin t from its sharp edge, and its wall h cot a. Undefined where `beside` is no such flange.
 * Source: intersection of the skins; derived.
 */
export const mitreStation = (
  shape: Shape,
  flange: FaceIndex,
  bend: Bend,
  corner: Vec3,
  beside: readonly FaceIndex[],
): MitreStation | undefined => {
  const own = crownAt(shape, flange, bend, corner);
  if (!own) return undefined;
  for (const other of beside) {
    if (other === flange || 1 - dot(shape.faces[other].frame.normal, shape.faces[flange].frame.normal) > SAME_DIRECTION)
      continue;
    const mate = crownOf(shape, other, corner);
    if (mate && dot(own.inward, mate.outward) < -SAME_DIRECTION) return stationBetween(own, mate);
  }
  return undefined;
};

/** The bend of a face that ends at a corner. */
const crownOf = (shape: Shape, face: FaceIndex, corner: Vec3): Crown | undefined => {
  for (const { bend } of shape.faces[face].stretches.flat()) {
    const crown = bend === undefined ? undefined : crownAt(shape, face, shape.bends[bend], corner);
    if (crown) return crown;
  }
  return undefined;
};

const crownAt = (shape: Shape, face: FaceIndex, bend: Bend, corner: Vec3): Crown | undefined => {
  const isStart = distance(bend.start, corner) <= SAME_POINT;
  if (bend.wet !== 'outside' || (!isStart && distance(bend.end, corner) > SAME_POINT)) return undefined;
  const inward = scale(unit(subtract(bend.end, bend.start)), isStart ? 1 : -1);
  // The face's metal lies to the left of the bend as the first face's edge has it.
  const sense = (bend.faces[0] === face ? 1 : -1) * (isStart ? 1 : -1);
  return { bend, inward, outward: scale(cross(shape.faces[face].frame.normal, inward), sense) };
};

const stationBetween = (own: Crown, mate: Crown): MitreStation => {
  const [aslant, across] = [dot(own.outward, mate.outward), dot(own.inward, mate.outward)];
  const radius = own.bend.radius + own.bend.thickness;
  return (turn) => {
    const off = own.bend.setback - radius * Math.sin(turn);
    return (offAt(mate.bend, radius * (1 - Math.cos(turn))) - off * aslant) / across;
  };
};

/** How far from the sharp edge a bend's surface, or its wall's, lies at a drop below the flange. */
const offAt = ({ radius, thickness, setback, angle }: Bend, drop: number): number => {
  const outer = radius + thickness;
  if (drop > outer * (1 - Math.cos(angle))) return -drop / Math.tan(angle);
  return setback - Math.sqrt(Math.max(0, drop * (2 * outer - drop)));
};
