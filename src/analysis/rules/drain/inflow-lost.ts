import { NOTABLE_SHARE } from '../../geometry/tolerance.js';
import type { Tub } from '../../model/tub.js';
import type { InflowEnd } from '../../water/flow/inflows.js';
import { named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const inflowLost: Rule = {
  code: 'drain/inflow-lost',
  severity: 'error',
  *check({ tub, water }) {
    for (const { inflow, ends, rateMm3S } of water().flows()) {
      const lost = new Map<string, { share: number; end: InflowEnd }>();
      for (const end of ends) {
        const place = placeOf(tub, end);
        if (place !== undefined) lost.set(place, { share: (lost.get(place)?.share ?? 0) + end.share, end });
      }
      for (const [place, { share, end }] of lost) {
        if (share < NOTABLE_SHARE) continue;
        const { at, name } = tub.inflows[inflow];
        const where = tub.panels[end.kind === 'rim' ? end.stretch.face : tub.inflows[inflow].panel];
        yield {
          message: `${plain(share * 100, 1)} % of ${named(name)} leaves ${place}; all of it needs to reach an outlet`,
          at,
          about: [name, where.name],
          related: [{ at: where.at, message: `${plain((share * rateMm3S * 60) / 1e6, 2)} L/min is lost here` }],
          values: { share_percent: share * 100, rate_L_min: (share * rateMm3S * 60) / 1e6 },
          measure: { has: share * 100, needs: NOTABLE_SHARE * 100, better: 'less' },
        };
      }
    }
  },
};

const placeOf = (tub: Tub, end: InflowEnd): string | undefined => {
  // What an outlet does not take is told of that outlet.
  if (end.kind === 'rim' && end.isOverfull) return undefined;
  if (end.kind === 'rim') return `over the edge of ${named(tub.panels[end.stretch.face].name)}`;
  if (end.kind === 'opening') return `through ${named(tub.openings[end.opening].name)}`;
  return undefined;
};
