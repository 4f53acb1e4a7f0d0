import type { EdgeName } from '../../../analysis/model/tub.js';
import { SAME_POINT } from '../../../analysis/geometry/tolerance.js';
import { distance } from '../../../analysis/geometry/vec.js';
import { isMirror, type Flange, type Ref, type Side } from '../../generated/ast.js';
import { changesHand, makingOf, type Making } from '../../made-groups.js';
import type { Lowering } from '../lowering.js';
import { isPanelNode, nameOf, targetOf } from '../references.js';
import type { Face, PanelNode } from '../values/values.js';
import { motionOf } from './motions.js';

/** The face of a panel that `mirror` or `repeat` makes: that of its original, moved. */
export const madeFace = (lowering: Lowering, node: PanelNode, making: Making<PanelNode>): Face | undefined => {
  const face = lowering.solve.faceOf(lowering, making.original);
  const motion = motionOf(lowering, making);
  if (!face || !motion || !standsByItself(lowering, node, making)) return undefined;
  const isTurned = isMirror(making.statement) && changesHand(making.original, making.statement);
  const corners = face.corners.map(motion.point);
  const count = corners.length;
  // A panel by points says nothing of its wet side but by its order, which a mirror turns round.
  const isByOrder = motion.isMirror && making.original.$type === 'Panel' && !face.facing;
  const order = (i: number): number => (isTurned ? (count + 1 - i) % count : isByOrder ? (count - i) % count : i);
  const from = corners.map((_, i) => order(i));
  return {
    corners: from.map((i) => corners[i]),
    // A corner in the plane of the mirror is the point itself.
    cornerNames: from.map((i) =>
      distance(corners[i], face.corners[i]) <= SAME_POINT ? face.cornerNames[i] : undefined,
    ),
    cornerAts: from.map(() => lowering.idOf(node)),
    edgeNames: isTurned ? turnedNames(face.edgeNames, count) : face.edgeNames,
    facing: face.facing && motion.direction(face.facing),
    ...(face.isMetalStated ? { isMetalStated: true } : undefined),
    ...(face.movedBy ? { movedBy: from.map((i) => face.movedBy![i]) } : undefined),
  };
};

/** Seen the other way round, each edge runs from its end to its start, and left is right. */
const turnedNames = (names: Face['edgeNames'], count: number): Face['edgeNames'] =>
  Object.fromEntries(
    Object.entries(names).map(([name, edge]) => [turnedName(name as EdgeName), (count - edge) % count]),
  );

const turnedName = (name: EdgeName): EdgeName => (name === 'left' ? 'right' : name === 'right' ? 'left' : name);

/** What is turned from a panel, or closes a strip, outside of the group cannot be made again elsewhere. */
const standsByItself = (lowering: Lowering, node: PanelNode, { statement }: Making): boolean => {
  if (node.$type !== 'Flange' && node.$type !== 'Side') return true;
  const ref = rootOf(node);
  const root = targetOf(ref);
  if (!root || makingOf(root)?.statement === statement) return true;
  const name = isPanelNode(root) || root.$type === 'Strip' ? nameOf(root) : (root.name ?? '?');
  lowering.reports.add(
    'group/not-joined',
    lowering.idOf(node),
    `\`${nameOf(node)}\` cannot be made again: it ${node.$type === 'Flange' ? 'is turned from' : 'follows'} \`${name}\`, which is outside of the group; both need to stand in the group`,
    { about: [nameOf(node)] },
  );
  return false;
};

const rootOf = (node: Flange | Side): Ref | undefined =>
  node.$type === 'Flange' ? node.edge : (node.end ?? node.crossed);
