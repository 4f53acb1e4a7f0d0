/** Every bend, seam and rim of a tub. */
import type { FaceJoint, Rim, Seam, StatedBend, Tub } from '../../../analysis/model/tub.js';
import { isBend, isFlange, isRim, isSeam, isStrip, type Statement } from '../../generated/ast.js';
import type { Indices } from '../indices.js';
import type { Lowering } from '../lowering.js';
import { faceJointsOf, isOfFaces } from './face-joints.js';
import { flangeBend, rimOf, seamOf, statedBend, stripBends } from './joints.js';

export const jointsOf = (
  lowering: Lowering,
  statements: readonly Statement[],
  indices: Indices,
): Pick<Tub, 'bends' | 'seams' | 'rims' | 'faceJoints'> => {
  const bends: StatedBend[] = [];
  const seams: Seam[] = [];
  const rims: Rim[] = [];
  const faceJoints: FaceJoint[] = [];
  for (const node of statements) {
    if (isStrip(node)) bends.push(...stripBends(lowering, node, indices));
    if (isFlange(node)) add(bends, flangeBend(lowering, node, indices));
    if (isBend(node)) add(bends, statedBend(lowering, node, indices));
    if (isSeam(node) && isOfFaces(node)) faceJoints.push(...faceJointsOf(lowering, node, indices));
    else if (isSeam(node)) add(seams, seamOf(lowering, node, indices));
    if (isRim(node)) add(rims, rimOf(lowering, node, indices));
  }
  return { bends, seams, rims, ...(faceJoints.length > 0 ? { faceJoints } : undefined) };
};

const add = <T>(list: T[], item: T | undefined): void => {
  if (item !== undefined) list.push(item);
};
