/** Every rivet and screw of the seams, as one list: what hardware, mass and bodies are made from. */
import { keepBy } from '../../cache/memo.js';
import type { FastenerRow, Tub } from '../../model/tub.js';
import type { FaceIndex } from '../../shape/shape.js';
import type { RunJoint, SeamJoint } from '../seam-joint.js';
import type { FastenerPlace } from './fastener-places.js';
import { fastenerOfRow, type FastenerOfRow } from './fastener-size.js';

export interface SeamFastener {
  /** The seam's name, and its index. */
  readonly seam: string;
  readonly index: number;
  readonly place: FastenerPlace;
  readonly fastener: FastenerOfRow;
  /** mm. All sheet that it holds. */
  readonly grip: number;
  /** The panels that the seam joins there. */
  readonly faces: readonly [FaceIndex, FaceIndex];
}

const fastenersFor = keepBy<RunJoint, readonly SeamFastener[]>();

/** In the order of seams, runs and places; none of a size that the tables do not hold. The same objects while their run is the same. */
export const seamFastenersOf = (
  tub: Tub,
  { seams }: { readonly seams: readonly SeamJoint[] },
): readonly SeamFastener[] =>
  seams.flatMap(({ seam: index, name: seam, runs }) => {
    const row = tub.seams[index].fasteners;
    if (!row) return [];
    return runs.flatMap((joint) => fastenersFor(joint, [index, seam], () => ofRun(row, joint, seam, index)));
  });

const ofRun = (
  row: FastenerRow,
  { fasteners, run }: RunJoint,
  seam: string,
  index: number,
): readonly SeamFastener[] => {
  const faces = [run.sides[0].face, run.sides[1].face] as const;
  return fasteners.flatMap((place): SeamFastener[] => {
    const fastener = fastenerOfRow(row, place.stack);
    return fastener ? [{ seam, index, place, fastener, grip: place.stack[0] + place.stack[1], faces }] : [];
  });
};
