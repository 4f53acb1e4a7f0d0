import type { Vec3 } from '../../analysis/geometry/vec.js';
import type { Point } from '../generated/ast.js';
import { valueOf } from './values/evaluate.js';
import { Lowering } from './lowering.js';
import { solvers } from './solvers.js';
import type { TubDocument } from './text/sources.js';

/** Where a point lies, mm; the model keeps only the corners it is used for. Undefined where its text does not say. */
export const placeOfPoint = (documents: readonly TubDocument[], point: Point): Vec3 | undefined => {
  const value = valueOf(new Lowering(documents, new Map(), solvers), point);
  return value?.kind === 'point' ? value.value : undefined;
};
