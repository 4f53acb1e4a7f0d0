import { bendsWithinOf, shopOf } from '../../model/shop/default-shop.js';
import { SAME_DIRECTION } from '../../geometry/tolerance.js';
import { inDeg, named, toDeg } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const noAngle: Rule = {
  code: 'bend/no-angle',
  severity: 'warning',
  *check({ tub, shape }) {
    const within = bendsWithinOf(shopOf(tub));
    // Legs of one slope are told of where they are stated.
    const ofStrips = new Set(tub.bends.filter(({ origin }) => origin === 'strip').map(({ at }) => at));
    for (const { name, at, angle, faces } of shape().bends) {
      if (angle >= within - SAME_DIRECTION || (angle <= SAME_DIRECTION && ofStrips.has(at))) continue;
      yield {
        message: `Bend ${named(name)} turns ${inDeg(angle, within)}; a bend is only held to ${inDeg(within, angle)}, so that it needs more to be one`,
        at,
        about: [name, ...faces.map((face) => tub.panels[face].name)],
        related: [{ at, message: 'Make the two panels one, or give them slopes that differ' }],
        values: { angle_deg: toDeg(angle), held_within_deg: toDeg(within) },
        measure: { has: toDeg(angle), needs: toDeg(within), better: 'more' },
      };
    }
  },
};
