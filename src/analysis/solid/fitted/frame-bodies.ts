/** Frames that hold the cloth of strainers, on the wet face around their outlets. */
import { circleContour, reverseContour, straightContour, type Contour } from '../../geometry/contour.js';
import { frameOn, ontoPlane, toPlane } from '../../geometry/frame.js';
import { levelAxes } from '../../geometry/level-axes.js';
import { addScaled } from '../../geometry/vec.js';
import type { FoldedPart } from '../../fold/flat-pattern.js';
import type { StrainerFrame } from '../../join/fasteners/strainer-frame.js';
import type { Tub } from '../../model/tub.js';
import type { Shape } from '../../shape/shape.js';

/** As thick as its sheet, with its window and the holes of its bolts; the cloth below it is taken as nothing. */
export const frameBodyOf = (tub: Tub, { faces, lean }: Shape, frame: StrainerFrame): FoldedPart => {
  const { name, face, sheet, outer, window, frameHole, places } = frame;
  const { thickness } = tub.sheets[sheet];
  const plane = faces[face].frame;
  const { normal } = plane;
  const { level } = levelAxes(normal, lean);
  const middle = ontoPlane(plane, tub.outlets[frame.outlet].center);
  const top = frameOn(addScaled(middle, normal, thickness), normal, level);
  const rectangle = ([wide, deep]: readonly [number, number]): Contour =>
    straightContour([[-wide / 2, -deep / 2], [wide / 2, -deep / 2], [wide / 2, deep / 2], [-wide / 2, deep / 2]]); // prettier-ignore
  const holes = [rectangle(window), ...places.map((place) => circleContour(toPlane(top, place), frameHole / 2))].map(
    reverseContour,
  );
  return {
    name,
    thickness,
    rolls: [],
    plates: [{ panel: 0, name, face: undefined, frame: top, contour: rectangle(outer), holes }],
  };
};
