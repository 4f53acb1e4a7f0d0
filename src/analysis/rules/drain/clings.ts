import { named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** Sine of the overhang from which water counts as hanging under the sheet: 5 deg. */
const HANGS = Math.sin(Math.PI / 36);

export const clings: Rule = {
  code: 'drain/clings',
  severity: 'warning',
  *check({ tub, shape, water }) {
    const hanging = new Map<number, number>();
    for (const { inflow, routed } of water().flows()) {
      for (const face of routed?.faces ?? [])
        if (shape().faces[face].frame.normal[2] < -HANGS) hanging.set(face, inflow);
    }
    for (const [face, inflow] of [...hanging].sort(([p], [q]) => p - q)) {
      const { name, at } = tub.panels[face];
      const leaning = (Math.asin(-shape().faces[face].frame.normal[2]) * 180) / Math.PI;
      yield {
        message: `Water of ${named(tub.inflows[inflow].name)} runs onto ${named(name)}, which leans ${plain(leaning, 1)} deg over; it needs to fall clear or run on top`,
        at,
        about: [name, tub.inflows[inflow].name],
        related: [
          { at: tub.inflows[inflow].at, message: 'Under a leaning panel water clings or drips anywhere along it' },
        ],
        values: { overhang_deg: leaning },
        measure: { has: leaning, needs: 5, better: 'less' },
      };
    }
  },
};
