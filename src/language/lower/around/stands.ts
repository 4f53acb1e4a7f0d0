import type { Stand as StandModel } from '../../../analysis/model/tub.js';
import type { Stand } from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { headings } from '../panels/strips.js';
import { asAngle } from '../values/coerce.js';

/** A tub that leans farther is one that was drawn otherwise. */
const LEAN = { above: 0, below: 45 };

export const standOf = (lowering: Lowering, node: Stand | undefined): StandModel | undefined => {
  const tilt = asAngle(lowering, node?.angle, 'Tilt of the stand', LEAN);
  if (tilt === undefined || node?.towards === undefined) return undefined;
  return { at: lowering.idOf(node), tilt, towards: headings[node.towards], side: node.towards };
};
