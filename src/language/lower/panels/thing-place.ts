import type { ThingPlace } from '../../../analysis/solid/bodies/place-thing.js';
import type { ExistingFile } from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { asAngle, asPoint } from '../values/coerce.js';

/** mm in one of them. */
export const UNITS = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 } as const;

/** Where the statement puts a thing; read once. */
export const placeOf = (lowering: Lowering, node: ExistingFile, named: number | undefined): ThingPlace | undefined =>
  lowering.keep(PLACE, node, () => statedPlace(lowering, node, named));

const PLACE = Symbol('place of a thing');

const statedPlace = (lowering: Lowering, node: ExistingFile, named: number | undefined): ThingPlace | undefined => {
  const stated = lowering.only(node, 'place', node.place, 'at');
  const unitWord = lowering.only(node, 'unit', node.unit, 'in');
  const unit = unitWord ? UNITS[unitWord] : (named ?? 1);
  const at = stated ? asPoint(lowering, stated, 'Place of the thing') : ([0, 0, 0] as const);
  const turns = node.turns.flatMap(({ angle, axis }) => {
    const turn = asAngle(lowering, angle, 'Turn of the thing');
    return turn === undefined || axis === undefined ? [] : [{ axis, angle: turn }];
  });
  return at && turns.length === node.turns.length ? { unit, turns, at } : undefined;
};
