import { NOTABLE_SHARE } from '../../geometry/tolerance.js';
import type { Tub } from '../../model/tub.js';
import { named, plain } from '../../model/wording.js';
import type { InflowEnd } from '../../water/flow/inflows.js';
import { basinWithoutOutlet } from '../../water/outlet/no-way-open.js';
import type { Rule } from '../rule.js';

export const inflowLost: Rule = {
  code: 'drain/inflow-lost',
  severity: 'error',
  *check({ tub, water }) {
    // That nothing lets it out is told once, of the tub.
    if (basinWithoutOutlet(tub, water())) return;
    for (const { inflow, ends, rateMm3S } of water().flows()) {
      const lost = lostAt(tub, ends).filter(({ share }) => share >= NOTABLE_SHARE);
      if (lost.length === 0) continue;
      const { at, name, panel } = tub.inflows[inflow];
      const all = lost.reduce((sum, { share }) => sum + share, 0);
      const rate = (share: number): number => (share * rateMm3S * 60) / 1e6;
      const faces = lost.map(({ end }) => tub.panels[end.kind === 'rim' ? end.stretch.face : panel]);
      yield {
        message: `${plain(all * 100, 1)} % of ${named(name)} leaves ${lost.map(({ place }) => place).join(', ')}; all of it needs to reach an outlet`,
        at,
        about: [name, ...new Set(faces.map((face) => face.name))],
        related: lost.map(({ share }, i) => ({
          at: faces[i].at,
          message: `${plain(rate(share), 2)} L/min is lost here`,
        })),
        values: { share_percent: all * 100, rate_L_min: rate(all) },
        measure: { has: all * 100, needs: NOTABLE_SHARE * 100, better: 'less' },
      };
    }
  },
};

interface Loss {
  readonly place: string;
  readonly share: number;
  readonly end: InflowEnd;
}

/** By place, the greatest first. */
const lostAt = (tub: Tub, ends: readonly InflowEnd[]): readonly Loss[] => {
  const lost = new Map<string, Loss>();
  for (const end of ends) {
    const place = placeOf(tub, end);
    if (place !== undefined) lost.set(place, { place, share: (lost.get(place)?.share ?? 0) + end.share, end });
  }
  return [...lost.values()].sort((p, q) => q.share - p.share);
};

const placeOf = (tub: Tub, end: InflowEnd): string | undefined => {
  // What an outlet does not take is told of that outlet.
  if (end.kind === 'rim' && end.isOverfull) return undefined;
  if (end.kind === 'rim') return `over the edge of ${named(tub.panels[end.stretch.face].name)}`;
  if (end.kind === 'opening') return `through ${named(tub.openings[end.opening].name)}`;
  return undefined;
};
