import { ROUND_OFF } from '../../geometry/tolerance.js';
import { inMm, named, plain } from '../../model/wording.js';
import { crestHead } from '../../water/outlet/weir.js';
import type { Rule } from '../rule.js';

export const crestOverwhelmed: Rule = {
  code: 'drain/crest-overwhelmed',
  severity: 'error',
  *check({ tub, water }) {
    if (tub.inflows.length === 0) return;
    const state = water();
    const atWork = state.chambersAtWork();
    for (const [i, { lowest, level: crest, spill }] of state.chambers().entries()) {
      const { level = -Infinity, rateMm3S } = atWork[i];
      const rim = state
        .basins()
        .find(({ pool }) => pool.points.some((point) => state.surface().points[point] === lowest));
      const beyond = spill.into === undefined ? undefined : atWork[spill.into].level;
      if (spill.over === undefined || spill.into === undefined || !rim || !(level > rim.level + ROUND_OFF)) continue;
      // Where the next one stands as high it is no crest that keeps the water back.
      if (beyond !== undefined && beyond > rim.level) continue;
      const { name, at } = tub.panels[spill.over];
      const head = crestHead(spill.width, rateMm3S);
      const lower = crest + head - rim.level;
      yield {
        message: `${plain((rateMm3S * 60) / 1e6, 2)} L/min come to ${named(name)}, and the water behind it stands at ${inMm(level, rim.level)}, over the rim at ${inMm(rim.level, level)}; ${spill.width > 0 ? `over ${inMm(spill.width, 0)} of edge they need ${inMm(head)} of head: the edge needs to end ${inMm(lower)} lower, or to be longer` : 'it needs a longer edge'}`,
        at,
        about: [name],
        related: [{ at: tub.panels[rim.faces[0]].at, message: `It runs over the rim here at ${inMm(rim.level)}` }],
        values: {
          level_mm: level,
          rim_mm: rim.level,
          rate_L_min: (rateMm3S * 60) / 1e6,
          ...(Number.isFinite(head) ? { head_needed_mm: head, lower_mm: lower } : {}),
        },
        measure: { has: level, needs: rim.level, better: 'less' },
      };
    }
  },
};
