/** Lips of round outlets, as the short pipes that they are. */
import { circleContour, reverseContour } from '../../geometry/contour.js';
import { frameOn, ontoPlane } from '../../geometry/frame.js';
import { levelAxes } from '../../geometry/level-axes.js';
import { addScaled } from '../../geometry/vec.js';
import { keepBy } from '../../cache/memo.js';
import type { FoldedPart } from '../../fold/flat-pattern.js';
import type { Outlet, Sheet, Tub } from '../../model/tub.js';
import type { Face, FaceIndex, Shape } from '../../shape/shape.js';

export interface LipBody {
  readonly outlet: number;
  readonly face: FaceIndex;
  readonly body: FoldedPart;
}

/** Bore as the outlet, wall as its sheet: below the dry face, and above the wet one where the edge is raised. They touch the sheet and take no room of it. */
export const lipBodiesOf = (tub: Tub, { faces, lean }: Shape): readonly LipBody[] =>
  tub.outlets.flatMap((outlet, index): LipBody[] => {
    const face = faces[outlet.panel];
    if (outlet.diameter <= 0 || !face?.usable) return [];
    const sheet = tub.sheets[tub.panels[outlet.panel].sheet];
    return lipsFor(outlet, [face, sheet, index, lean], () => lipsOf(outlet, face, sheet, lean)).map((body) => ({
      outlet: index,
      face: outlet.panel,
      body,
    }));
  });

const lipsFor = keepBy<Outlet, readonly FoldedPart[]>();

const lipsOf = (
  { name, center, diameter, lip, raised }: Outlet,
  { frame }: Face,
  { thickness }: Sheet,
  lean: Shape['lean'],
): FoldedPart[] => {
  const { normal } = frame;
  const middle = ontoPlane(frame, center);
  const { level } = levelAxes(normal, lean);
  // Above the lower end of each, its metal lies below the origin of its frame.
  const pipe = (what: string, high: number, top: number): FoldedPart[] =>
    high <= 0
      ? []
      : [
          {
            name: `${what} of ${name}`,
            thickness: high,
            rolls: [],
            plates: [
              {
                panel: 0,
                name: `${what} of ${name}`,
                face: undefined,
                frame: frameOn(addScaled(middle, normal, top), normal, level),
                contour: circleContour([0, 0], diameter / 2 + thickness),
                holes: [reverseContour(circleContour([0, 0], diameter / 2))],
              },
            ],
          },
        ];
  return [...pipe('lip', lip, -thickness), ...pipe('raised edge', raised, raised)];
};
