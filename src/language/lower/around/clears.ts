/** Room that must stay between two things. */
import type { Clear as ClearModel, GroupIndex } from '../../../analysis/model/tub.js';
import { isExistingFile, isGroup, type Clear, type ClearThing } from '../../generated/ast.js';
import { asDimension, NOT_NEGATIVE } from '../values/coerce.js';
import type { Indices } from '../indices.js';
import type { Lowering } from '../lowering.js';
import { reportWrongKind, targetOf } from '../references.js';

/** Undefined, and reported, where it cannot be told what is to stay clear of what. */
export const clearOf = (lowering: Lowering, node: Clear, indices: Indices): ClearModel | undefined => {
  const bodies = twoBodies(lowering, node.things, indices);
  const least = asDimension(lowering, node.least, 'length', 'Clear distance', NOT_NEGATIVE);
  return bodies && least !== undefined ? { at: lowering.idOf(node), bodies, least } : undefined;
};

type Body = GroupIndex | -1;

/** The two bodies that are named: the tub, or a group each. */
export const twoBodies = (
  lowering: Lowering,
  things: readonly ClearThing[] | undefined = [],
  indices: Indices,
): readonly [Body, Body] | undefined => {
  const [one, other] = things.map((thing) => bodyAt(lowering, thing, indices));
  if (one === undefined || other === undefined) return undefined;
  if (one !== other) return [one, other];
  const message =
    'Both are the same thing; `clear` needs two, such as `clear tub` and the name of a thing that stands there already';
  lowering.reports.add('text/wrong-kind', lowering.idOf(things[1]), message);
  return undefined;
};

const bodyAt = (lowering: Lowering, { tub, group }: ClearThing, indices: Indices): Body | undefined => {
  if (tub) return -1;
  const target = targetOf(group);
  if (!target || !group) return undefined;
  return isGroup(target) || isExistingFile(target)
    ? indices.bodyOfGroup(target)
    : reportWrongKind(lowering, group, 'a support, a removable or an existing thing');
};
