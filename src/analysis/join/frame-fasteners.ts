/** Screws of strainer frames, as those of a seam are told. */
import { screwOf } from '../material/screws.js';
import type { Tub } from '../model/tub.js';
import type { Shape } from '../shape/shape.js';
import type { FaceContact } from './faces/face-contact.js';
import type { SeamJoint } from './seam-joint.js';
import { seamFastenersOf, type SeamFastener } from './seam-fasteners.js';
import type { StrainerFrame } from './fasteners/strainer-frame.js';

/** From the frame through the panel, heads on the frame. `index`: counts on from the seams and joints of faces. None of a thread that the tables do not hold. */
export const frameFastenersOf = (
  tub: Tub,
  { faces }: Pick<Shape, 'faces'>,
  frames: readonly StrainerFrame[],
): readonly SeamFastener[] =>
  frames.flatMap(({ name, face, sheet, bolted, outlet, places }, i): readonly SeamFastener[] => {
    const size = screwOf(bolted.thread);
    const takenBy = bolted.kind === 'rivetnut' ? 'rivetnut' : 'nut';
    if (!size || (takenBy === 'rivetnut' && !size.rivetNut)) return [];
    const thickness = tub.sheets[tub.panels[face].sheet].thickness;
    const stack = [thickness, tub.sheets[sheet].thickness] as const;
    return places.map((point): SeamFastener => ({
      seam: name,
      at: tub.outlets[outlet].at,
      index: tub.seams.length + (tub.faceJoints?.length ?? 0) + i,
      place: {
        point,
        normal: faces[face].frame.normal,
        holes: [],
        leg: undefined,
        stack,
        second: 'above',
        apart: 0,
        along: Infinity,
        across: Infinity,
        headsOnSecond: true,
        nutIn: takenBy === 'rivetnut' ? 'panel' : undefined,
      },
      fastener: { kind: 'screw', size, takenBy, hex: bolted.hex === true },
      grip: stack[0] + stack[1],
      faces: [face, face],
    }));
  });

/** Those of seams and joints of faces, and then these. */
export const allFastenersOf = (
  tub: Tub,
  shape: Pick<Shape, 'faces'>,
  joints: {
    readonly seams: readonly SeamJoint[];
    readonly faces: readonly FaceContact[];
    readonly frames: readonly StrainerFrame[];
  },
): readonly SeamFastener[] => [...seamFastenersOf(tub, joints), ...frameFastenersOf(tub, shape, joints.frames)];
