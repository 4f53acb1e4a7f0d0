import { circleContour, flattenContour, slotContour } from '../../geometry/contour.js';
import type { Vec2 } from '../../geometry/vec.js';
import type { FaceOpening } from '../../shape/shape.js';

/** mm. Round holes as chords: a tenth of a line's width. */
const CHORD_ERROR = 0.02;

/** An opening as a ring in its face's frame. */
export const clockwiseRing = (shape: FaceOpening['shape']): readonly Vec2[] => {
  if (shape.kind === 'polygon') return shape.corners;
  if (shape.kind === 'round') return flattenContour(circleContour(shape.center, shape.radius), CHORD_ERROR);
  return flattenContour(slotContour(shape.from, shape.to, shape.radius), CHORD_ERROR);
};
