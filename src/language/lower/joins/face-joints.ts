import type { FaceJoint } from '../../../analysis/model/tub.js';
import type { Seam } from '../../generated/ast.js';
import { asLength, asNumber, POSITIVE } from '../values/coerce.js';
import { fastenersOf } from './fastener-rows.js';
import type { Indices } from '../indices.js';
import { memberOf } from './joints.js';
import { sidesOf } from './seam-members.js';
import type { Lowering } from '../lowering.js';

/** Screws or a gasket between no lap, tabs or clips: the faces lie on one another. */
export const isOfFaces = ({ bolts, gasket, lap, tabs }: Seam): boolean =>
  bolts.length + gasket.length > 0 && lap.length + tabs.length === 0;

/** One for each of the faces that the seam lays on its last. */
export const faceJointsOf = (lowering: Lowering, seam: Seam, indices: Indices): readonly FaceJoint[] => {
  const [rails, last] = sidesOf(seam);
  const second = memberOf(lowering, last, indices);
  const { fasteners } = fastenersOf(lowering, seam);
  const stated = lowering.only(seam, 'gasket', seam.gasket);
  const gasket = asLength(lowering, stated?.thickness, 'Gasket of the seam', POSITIVE) ?? 0;
  const pressed = asNumber(lowering, stated?.pressed, 'Pressed share of the gasket', { atLeast: 0, below: 1 }) ?? 0;
  reportUnused(lowering, seam);
  const at = lowering.idOf(seam);
  return rails.flatMap((rail): readonly FaceJoint[] => {
    const first = memberOf(lowering, rail, indices);
    if (!first || !second) return [];
    return [{ name: `${first.name} ${second.name}`, at, members: [first, second], fasteners, gasket, pressed }];
  });
};

/** What closes or shapes edges has no place between faces. */
const reportUnused = (lowering: Lowering, seam: Seam): void => {
  const unused = (['style', 'weld', 'solder', 'spots', 'sealant', 'gap', 'clamp', 'passage'] as const).find(
    (option) => seam[option].length > 0,
  );
  if (!unused) return;
  lowering.reports.add(
    'text/wrong-kind',
    lowering.idOf(seam),
    `\`${unused === 'passage' ? 'open' : unused === 'style' ? seam.style[0] : unused}\` is of edges, and this seam lays faces on one another; it needs a \`gasket\`, or a \`lap\` or \`tabs\` for its screws`,
  );
};
