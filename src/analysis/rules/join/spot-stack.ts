import { spotRowsOf } from '../../join/spots/spot-plan.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const spotStack: Rule = {
  code: 'join/spot-stack',
  severity: 'error',
  *check({ tub, joints }) {
    const welders = tub.shop?.spotWelders ?? [];
    if (welders.length === 0) return;
    const limit = Math.max(...welders.map(({ sheetsAtMost: [a, b] }) => a + b));
    const told = new Set<number>();
    for (const { seam, stack } of spotRowsOf(tub, joints())) {
      const has = stack.reduce((sum, each) => sum + each, 0);
      if (has <= limit || told.has(seam)) continue;
      told.add(seam);
      const { name, at } = tub.seams[seam];
      yield {
        message: `Spots of seam ${named(name)} go through ${inMm(has, limit)} of sheet; the spot welder takes ${inMm(limit, has)}`,
        at,
        about: [name],
        related: welders.map((welder) => ({
          at: welder.at,
          message: `${named(welder.name)} takes ${inMm(welder.sheetsAtMost[0])} and ${inMm(welder.sheetsAtMost[1])}`,
        })),
        values: { stack_mm: has, limit_mm: limit },
        measure: { has, needs: limit, better: 'less' },
      };
    }
  },
};
