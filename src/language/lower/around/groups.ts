/** Things of one purpose: of the tub, dry, and what stands there already. */
import type { Group as GroupModel, Tub } from '../../../analysis/model/tub.js';
import { isGroup, isMirror, type ExistingFile, type Group } from '../../generated/ast.js';
import { makingOf } from '../../made-groups.js';
import type { Indices } from '../indices.js';
import type { Lowering } from '../lowering.js';
import { seatOf } from './seats.js';

/** Groups, with what is said of their seats; none where there are none. */
export const seated = (
  lowering: Lowering,
  groups: readonly GroupModel[],
  nodes: readonly (Group | ExistingFile)[],
  indices: Indices,
): Pick<Tub, 'groups'> =>
  groups.length > 0 ? { groups: groups.map((group, i) => ({ ...group, ...seatOf(lowering, nodes[i], indices) })) } : {};

export const groupModelOf = (lowering: Lowering, node: Group | ExistingFile): GroupModel => ({
  name: node.name ?? '?',
  at: lowering.idOf(node),
  role: isGroup(node) ? node.role : 'existing',
  ...madeOf(node),
});

const madeOf = (node: Group | ExistingFile): Pick<GroupModel, 'madeOf'> => {
  const making = isGroup(node) ? makingOf(node) : undefined;
  return making ? { madeOf: { group: making.original.name, isMirrored: isMirror(making.statement) } } : {};
};
