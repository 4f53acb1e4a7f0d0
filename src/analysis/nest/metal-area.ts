import type { FlatPattern } from '../fold/flat-pattern.js';
import { areaOfContour } from '../geometry/contour.js';

/** Outline less holes, mm2. */
export const metalArea = (flat: FlatPattern): number =>
  [flat.outline, ...flat.holes.map(({ contour }) => contour)].reduce((sum, contour) => sum + areaOfContour(contour), 0);
