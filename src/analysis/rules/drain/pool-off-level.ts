import { inDeg, inMm, named, plain, toDeg } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const poolOffLevel: Rule = {
  code: 'drain/pool-off-level',
  severity: 'warning',
  *check({ tub, water }) {
    const { tilted, pools, film, within, wetted } = water();
    const standing = new Set(pools().flatMap(({ depth, faces }) => (depth > film ? faces : [])));
    for (const { face, depth, volume, area, raised } of tilted()) {
      if (standing.has(face) || !wetted().has(face)) continue;
      const { name, at } = tub.panels[face];
      yield {
        message: `Water stands ${inMm(depth, film)} deep on ${named(name)} when the tub stands ${inDeg(within)} off level, more than the film of ${inMm(film, depth)} that rests on level sheet; it drains when level`,
        at,
        about: [name],
        related: [
          { at: tub.level?.at ?? at, message: `Worst of the tilts looked at; it holds ${plain(volume / 1000, 1)} mL` },
        ],
        values: {
          depth_mm: depth,
          film_mm: film,
          area_mm2: area,
          volume_mL: volume / 1000,
          raised_side_deg: toDeg(raised),
        },
        measure: { has: depth, needs: film, better: 'less' },
      };
    }
  },
};
