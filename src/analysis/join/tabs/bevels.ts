import type { FaceIndex } from '../../shape/shape.js';
import type { SeamJoint } from '../seam-joint.js';

/** A dry edge to bevel at the clips or tabs of a seam, mm along its face and across its thickness. */
export interface Bevel {
  readonly face: FaceIndex;
  readonly along: number;
  readonly across: number;
}

/** One for every panel that needs it, the largest of its runs: one setting of the file or grinder serves a whole seam. */
export const bevelsOf = ({ runs }: SeamJoint): readonly Bevel[] => {
  const bevels = new Map<FaceIndex, Bevel>();
  for (const { run, fits } of runs) {
    for (const { side, along, across } of fits) {
      const { face } = run.sides[side];
      const known = bevels.get(face) ?? { face, along: 0, across: 0 };
      bevels.set(face, { face, along: Math.max(known.along, along), across: Math.max(known.across, across) });
    }
  }
  return [...bevels.values()].sort((a, b) => a.face - b.face);
};
