/** What is fitted to the folded parts and is cut or rolled apart from them, each where it sits. */
import type { FoldedPart } from '../../fold/flat-pattern.js';
import type { Joints } from '../../join/joints.js';
import type { SourceId, Tub } from '../../model/tub.js';
import type { Shape } from '../../shape/shape.js';
import { clipBodiesOf } from './clip-bodies.js';
import { frameBodyOf } from './frame-bodies.js';
import { lipBodiesOf } from './lip-bodies.js';

export interface Fitted {
  readonly at: SourceId;
  readonly body: FoldedPart;
}

/** Loose clips by seam, frames of strainers, lips of outlets. */
export const fittedOf = (tub: Tub, shape: Shape, joints: Pick<Joints, 'seams' | 'frames'>): readonly Fitted[] => [
  ...joints.seams.flatMap(({ seam, runs }) => {
    const { tabs, at } = tub.seams[seam];
    return runs.flatMap((run) => clipBodiesOf(tub, run)).map((body) => ({ at: tabs?.at ?? at, body }));
  }),
  ...joints.frames.map((frame) => ({ at: tub.outlets[frame.outlet].at, body: frameBodyOf(tub, shape, frame) })),
  ...lipBodiesOf(tub, shape).map(({ outlet, body }) => ({ at: tub.outlets[outlet].at, body })),
];
