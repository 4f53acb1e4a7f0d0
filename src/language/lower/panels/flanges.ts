import { flangeOutline, squareEnds } from '../../../analysis/shape/corners/flange.js';
import type { Flange } from '../../generated/ast.js';
import { computedCorners } from './corners.js';
import type { Lowering } from '../lowering.js';
import { mitredEnds } from './mitres.js';
import { nameOf } from '../references.js';
import { turnedFlange, type TurnedFlange } from './turned-flange.js';
import type { Face } from '../values/values.js';

/** The wet face of a flange statement; undefined where its text does not say enough, or what cannot be. */
export const flangeOf = (lowering: Lowering, node: Flange): Face | undefined => {
  const turned = turnedFlange(lowering, node);
  // By its edge: by its statement it is known as turned and not yet mitred, which is how its neighbours ask for it.
  return turned && lowering.once(node.edge, nameOf(node), () => finished(lowering, turned));
};

const finished = (lowering: Lowering, turned: TurnedFlange): Face | undefined => {
  const { node, face } = turned;
  const isMitred = lowering.only(node, 'mitred', node.mitred) !== undefined;
  const ends = isMitred ? mitredEnds(lowering, turned) : squareEnds(face);
  if (!ends) return undefined;
  const { corners, edgeNames } = flangeOutline(face, ends);
  return { ...computedCorners(corners, lowering.idOf(node)), edgeNames, facing: face.facing };
};
