import { mapContour, reverseContour, straightContour } from '../geometry/contour.js';
import { addScaled, scale, type Vec2 } from '../geometry/vec.js';
import { keepBy } from '../cache/memo.js';
import { roleOf } from '../model/around/roles.js';
import type { Panel, Sheet, Tub } from '../model/tub.js';
import type { Face, Shape } from '../shape/shape.js';
import type { FoldedPart } from './flat-pattern.js';
import { contourOfOpening } from './lay-openings.js';

/**
 * Existing things as they stand: each usable panel a slab of its sheet behind its stated face, corners sharp, openings cut. A
 * panel by points whose metal is not said to lie on either side has none, nor one of a thing of another file, which stands there whole.
 */
export const existingSlabs = (tub: Tub, { faces }: Shape): readonly FoldedPart[] => {
  const ofFiles = new Set(tub.things?.map(({ group }) => group));
  return faces.flatMap((face, i) => {
    const { group, sheet } = tub.panels[i];
    const isThere = face.usable && roleOf(tub, i) === 'existing' && isSideKnown(tub.panels[i]);
    return isThere && !ofFiles.has(group!) ? [slabOf(face, tub.sheets[sheet])] : [];
  });
};

/** Is it known on which side of its face the metal of a panel lies? */
export const isSideKnown = ({ kind, isMetalStated }: Panel): boolean =>
  kind.kind !== 'points' || isMetalStated === true;

const slabFor = keepBy<Face, FoldedPart>();

const slabOf = (face: Face, sheet: Sheet): FoldedPart => slabFor(face, [sheet], () => newSlab(face, sheet));

const newSlab = (face: Face, { thickness }: Sheet): FoldedPart => {
  const { frame, name, panel } = face;
  // A plate is seen on its dry side: v turned round, so that the frame stays right-handed.
  const turned = ([x, y]: Vec2): Vec2 => [x, -y];
  return {
    name,
    thickness,
    rolls: [],
    plates: [
      {
        panel: 0,
        name,
        face: panel,
        frame: {
          origin: addScaled(frame.origin, frame.normal, -thickness),
          u: frame.u,
          v: scale(frame.v, -1),
          normal: scale(frame.normal, -1),
        },
        contour: mapContour(straightContour(face.outline), turned),
        holes: face.openings.map((opening) => reverseContour(mapContour(contourOfOpening(opening), turned))),
      },
    ],
  };
};
