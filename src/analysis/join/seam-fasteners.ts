/** Every rivet and screw of the seams, as one list: what hardware, mass and bodies are made from. */
import { keepBy } from '../cache/memo.js';
import type { FastenerRow, Tub } from '../model/tub.js';
import type { SourceId } from '../model/place.js';
import type { FaceIndex } from '../shape/shape.js';
import type { FaceContact } from './faces/face-contact.js';
import type { RunJoint, SeamJoint } from './seam-joint.js';
import type { FastenerPlace } from './fasteners/fastener-places.js';
import { fastenerOfRow, type FastenerOfRow } from './fasteners/fastener-size.js';

export interface SeamFastener {
  /** Name of the seam, and the place of its row in the text. */
  readonly seam: string;
  readonly at: SourceId;
  /** Of the seam; those of faces count on from the last one. */
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
  { seams, faces }: { readonly seams: readonly SeamJoint[]; readonly faces: readonly FaceContact[] },
): readonly SeamFastener[] => [
  ...seams.flatMap(({ seam: index, name: seam, runs }) => {
    const row = tub.seams[index].fasteners;
    if (!row) return [];
    return runs.flatMap((joint) => fastenersFor(joint, [index, seam], () => ofRun(row, joint, seam, index)));
  }),
  ...faces.flatMap((contact) => {
    const joint = tub.faceJoints?.[contact.joint];
    const row = joint?.fasteners;
    if (!joint || !row) return [];
    return ofContactFor(contact, [row, joint.name, tub.seams.length], () =>
      placed(row, contact.places, { seam: joint.name, index: tub.seams.length + contact.joint, faces: contact.faces }),
    );
  }),
];

const ofContactFor = keepBy<FaceContact, readonly SeamFastener[]>();

const ofRun = (row: FastenerRow, { fasteners, run }: RunJoint, seam: string, index: number): readonly SeamFastener[] =>
  placed(row, fasteners, { seam, index, faces: [run.sides[0].face, run.sides[1].face] });

const placed = (
  row: FastenerRow,
  places: readonly FastenerPlace[],
  of: Pick<SeamFastener, 'seam' | 'index' | 'faces'>,
): readonly SeamFastener[] =>
  places.flatMap((place): SeamFastener[] => {
    const fastener = fastenerOfRow(row, place.stack);
    return fastener
      ? [{ ...of, at: row.at, place, fastener, grip: place.stack[0] + place.apart + place.stack[1] }]
      : [];
  });
