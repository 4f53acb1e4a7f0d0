import {
  circleContour,
  flattenContour,
  mapContour,
  reverseContour,
  slotContour,
  straightContour,
} from '../geometry/contour.js';
import { cross2, dot2, subtract2, unit2, distance2, type Vec2 } from '../geometry/vec.js';
import type { Face, FaceOpening } from '../shape/shape.js';
import { ROUND_OFF } from '../tolerance.js';
import type { Contour, FlatHole } from './flat-pattern.js';
import type { LoopItem } from './trim-face.js';
import type { FlatFault } from './unfolded.js';

/** mm. Fineness with which a round opening is tested against bend lines. */
const TEST_FINENESS = 0.01;

/** The openings of a face as holes of the flat. One that reaches past a tangent line is refused: it would be cut open. */
export const layOpenings = (
  face: Face,
  items: readonly LoopItem[],
  toFlat: (point: Vec2) => Vec2,
): { readonly holes: readonly FlatHole[]; readonly faults: readonly FlatFault[] } => {
  const holes: FlatHole[] = [];
  const faults: FlatFault[] = [];
  for (const opening of face.openings) {
    const contour = contourOfOpening(opening);
    const fault = acrossBend(opening, contour, items);
    if (fault) {
      faults.push(fault);
      continue;
    }
    const { shape } = opening;
    const circle = shape.kind === 'round' ? { center: toFlat(shape.center), radius: shape.radius } : undefined;
    // Holes run clockwise.
    holes.push({ contour: reverseContour(mapContour(contour, toFlat)), circle, opening: opening.opening });
  }
  return { holes, faults };
};

/** Counter-clockwise, in the face's frame. */
const contourOfOpening = ({ shape }: FaceOpening): Contour => {
  if (shape.kind === 'round') return circleContour(shape.center, shape.radius);
  if (shape.kind === 'slot') return slotContour(shape.from, shape.to, shape.radius);
  return reverseContour(straightContour(shape.corners));
};

const acrossBend = (opening: FaceOpening, contour: Contour, items: readonly LoopItem[]): FlatFault | undefined => {
  const points = flattenContour(contour, TEST_FINENESS);
  for (const item of items) {
    if (item.kind === 'vertex') continue;
    const along = unit2(subtract2(item.to, item.from));
    const length = distance2(item.from, item.to);
    const beside = points.filter((point) => {
      const t = dot2(subtract2(point, item.from), along);
      return t > 0 && t < length;
    });
    const over = Math.max(...beside.map((point) => -cross2(along, subtract2(point, item.from))), -Infinity);
    if (over > ROUND_OFF) {
      return {
        kind: 'hole-across-bend',
        opening: opening.opening,
        bend: item.kind === 'bend' ? item.bend : undefined,
        over,
      };
    }
  }
  return undefined;
};
