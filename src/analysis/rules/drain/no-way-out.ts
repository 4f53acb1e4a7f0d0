import { inMm, named, plain } from '../../model/wording.js';
import { partedOffBy } from '../../water/parted-off.js';
import type { Rule } from '../rule.js';

export const noWayOut: Rule = {
  code: 'drain/no-way-out',
  severity: 'warning',
  *check({ tub, water }) {
    const state = water();
    if (tub.outlets.length === 0) return;
    for (const pool of state.pools()) {
      if (pool.depth <= state.film || !Number.isFinite(pool.level)) continue;
      const divider = partedOffBy(tub, state, pool);
      if (divider === undefined) continue;
      const [own, under] = [tub.panels[divider], tub.panels[pool.face]];
      const litres = pool.volume / 1e6;
      yield {
        message: `${named(own.name)} parts off a chamber over ${named(under.name)} that has no way out but over the rim: ${plain(litres, 2)} L stand there up to ${inMm(pool.level)}; it needs an outlet of its own, or an opening or a lower edge in ${named(own.name)}`,
        at: own.at,
        about: [own.name, under.name],
        related: [{ at: under.at, message: `Deepest here, ${inMm(pool.depth)}` }],
        values: { volume_L: litres, level_mm: pool.level, depth_mm: pool.depth },
      };
    }
  },
};
