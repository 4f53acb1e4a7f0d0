/** What a bend plan depends on, as text: the same key, the same plan. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Contour } from '../../geometry/contour.js';
import { memoBy } from '../../cache/memo.js';
import type { Shop } from '../../model/tub.js';
import { keyOfMetal } from '../../material/properties.js';
import type { PlanOptions } from './plan-part.js';

/** mm and rad. Digits beyond these change no verdict: a thousandth of the contact tolerance. */
const DIGITS = 5;

const n = (value: number): string => value.toFixed(DIGITS);

/**
 * Geometry of panels and bends, sheet, machines, budget. Of seams only which panels have any. Names of panels, marks, holes, places in the text and the place of
 * the part in space are left out, so that editing them plans nothing anew.
 */
export const planKey = (flat: FlatPattern, shop: Shop, { metal, budget, ifBlocked }: PlanOptions): string =>
  [keyOfMetal(metal), budget, ifBlocked, keyOfFlat(flat), keyOfShop(shop)].join('|');

const keyOfFlat = memoBy(({ thickness, panels, bends }: FlatPattern): string => {
  const contour = (points: Contour): string => points.map(({ x, y, bulge }) => `${n(x)},${n(y)},${n(bulge)}`).join(' ');
  const ofBends = bends.map(({ tangents, allowance, angle, direction, radius, kFactor, parent, child, isMade }) =>
    [
      tangents.flat(2).map(n).join(','),
      n(allowance),
      n(angle),
      direction,
      n(radius),
      n(kFactor),
      parent,
      child,
      isMade,
    ].join(','),
  );
  return [
    n(thickness),
    panels.map(({ region, isSeamed }) => `${isSeamed ? 'seamed ' : ''}${contour(region)}`).join(';'),
    ofBends.join(';'),
  ].join('|');
});

const keyOfShop = memoBy(({ pressBrakes, foldingBrakes, marksWithin }: Shop): string => {
  const machines = JSON.stringify([pressBrakes, foldingBrakes], (name, value: unknown) =>
    name === 'at' ? undefined : value,
  );
  return [machines, marksWithin].join('|');
});
