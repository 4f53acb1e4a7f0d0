import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import {
  flangeFace,
  flangeOutline,
  squareEnds,
  type FlangeRoot,
  type FlangeTurn,
} from '../../../src/analysis/shape/corners/flange.js';

/** A flange of one length with square ends: its corners, and where its wet side looks. */
export const squareFlange = (
  root: FlangeRoot,
  { length, ...turn }: Omit<FlangeTurn, 'reach'> & { readonly length: number },
): { readonly corners: readonly Vec3[]; readonly facing: Vec3 } => {
  const face = flangeFace(root, { ...turn, reach: { length } });
  if (!face) throw new Error('a flange of a length has a face');
  return { corners: flangeOutline(face, squareEnds(face)).corners, facing: face.facing };
};
