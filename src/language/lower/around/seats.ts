/** Where removable things lie, and how much room they need to each side. */
import type { Group as GroupModel } from '../../../analysis/model/tub.js';
import { isGroup, type ExistingFile, type Group } from '../../generated/ast.js';
import { asDimension, NOT_NEGATIVE } from '../values/coerce.js';
import type { Indices } from '../indices.js';
import type { Lowering } from '../lowering.js';

/** What a group says of its seat; told, and left out, of one that does not come out. */
export const seatOf = (
  lowering: Lowering,
  node: Group | ExistingFile,
  indices: Indices,
): Pick<GroupModel, 'seat' | 'play'> => {
  if (!isGroup(node) || (node.seat.length === 0 && node.play.length === 0)) return {};
  const stated = lowering.only(node, 'seat', node.seat, 'in');
  const least = lowering.only(node, 'play', node.play);
  if (node.role !== 'removable') {
    lowering.reports.add(
      'text/wrong-kind',
      lowering.idOf(node),
      `\`${node.name}\` is ${node.role === 'existing' ? 'an existing thing' : `a ${node.role}`}; only a \`removable\` thing has a seat and play in it`,
      { about: [node.name] },
    );
    return {};
  }
  const seat = stated && indices.panelAt(stated);
  const play = least && asDimension(lowering, least, 'length', 'Play', NOT_NEGATIVE);
  if (seat !== undefined && indices.bodyOf(seat) === indices.bodyOfGroup(node)) {
    lowering.reports.add('text/wrong-kind', lowering.idOf(stated!), `The seat of \`${node.name}\` is a part of itself; it needs to be another panel`, { about: [node.name] }); // prettier-ignore
    return { play };
  }
  return { ...(seat !== undefined && { seat }), ...(play !== undefined && { play }) };
};
