import type { FaceJoint } from '../../../analysis/model/tub.js';
import type { Seam } from '../../generated/ast.js';
import { asLength, asNumber, POSITIVE } from '../values/coerce.js';
import { fastenersOf } from './fastener-rows.js';
import type { Indices } from '../indices.js';
import { memberOf } from './joints.js';
import type { Lowering } from '../lowering.js';

/** Screws or a gasket between no lap, tabs or clips: the faces lie on one another. */
export const isOfFaces = ({ bolts, gasket, lap, tabs }: Seam): boolean =>
  bolts.length + gasket.length > 0 && lap.length + tabs.length === 0;

export const faceJointOf = (lowering: Lowering, seam: Seam, indices: Indices): FaceJoint | undefined => {
  const [first, second] = [memberOf(lowering, seam.first, indices), memberOf(lowering, seam.second, indices)];
  const { fasteners } = fastenersOf(lowering, seam);
  const stated = lowering.only(seam, 'gasket', seam.gasket);
  const gasket = asLength(lowering, stated?.thickness, 'Gasket of the seam', POSITIVE) ?? 0;
  const pressed = asNumber(lowering, stated?.pressed, 'Pressed share of the gasket', { atLeast: 0, below: 1 }) ?? 0;
  reportUnused(lowering, seam);
  if (!first || !second) return undefined;
  const name = `${first.name} ${second.name}`;
  return { name, at: lowering.idOf(seam), members: [first, second], fasteners, gasket, pressed };
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
