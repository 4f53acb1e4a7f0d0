import { kFactorFromCoupon } from '../../material/bend-allowance.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const couponImplausible: Rule = {
  code: 'sheet/coupon-implausible',
  severity: 'error',
  *check({ tub }) {
    for (const { name, coupon, thickness, radius } of tub.sheets) {
      if (!coupon || kFactorFromCoupon(coupon, thickness, radius) !== undefined) continue;
      const setback = (radius + thickness) * Math.tan(coupon.angle / 2);
      const flatOf = (k: number): number =>
        coupon.legs[0] + coupon.legs[1] - 2 * setback + coupon.angle * (radius + k * thickness);
      yield {
        message: `The coupon of ${named(name)} has a flat of ${inMm(coupon.flat)}; its legs could only come from ${inMm(flatOf(0))} to ${inMm(flatOf(1))}: measure again`,
        at: coupon.at,
        about: [name],
        related: [
          {
            at: coupon.at,
            message: 'Legs are measured over the outside to the sharp corner; K is taken from the standard meanwhile',
          },
        ],
        values: { flat_mm: coupon.flat, least_mm: flatOf(0), most_mm: flatOf(1) },
      };
    }
  },
};
