import { restPlaces } from '../../water/solids-run.js';
import { SOLIDS_SOURCE } from '../../water/flow/solids.js';
import { inDeg, named, toDeg } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const solidsSettle: Rule = {
  code: 'drain/solids-settle',
  severity: 'warning',
  *check({ tub, water }) {
    const first = new Set<number>();
    for (const { inflow, kind, faces, worst, needed } of restPlaces(tub, water())) {
      const { name, at, solids } = tub.inflows[inflow];
      const names = faces.map((face) => tub.panels[face].name);
      const isFirst = !first.has(inflow);
      first.add(inflow);
      const where = kind === 'panel' ? named(names[0]) : `the ${kind} on ${names.slice(0, 2).map(named).join(' and ')}`;
      const isOne = solids?.kind === 'sludge';
      const why =
        kind === 'pool'
          ? 'where water stands'
          : `which falls ${inDeg(worst, needed)}${water().within > 0 ? ' at worst' : ''}`;
      yield {
        message: `The ${solids?.kind ?? 'solids'} of ${named(name)} come${isOne ? 's' : ''} to rest${isFirst ? ' first' : ''} on ${where}, ${why}; ${isOne ? 'it needs' : 'they need'} ${inDeg(needed, worst)}`,
        at: tub.panels[faces[0]].at,
        about: [...names, name],
        related: [
          { at, message: `Carried by this inflow; the least fall for ${solids?.kind ?? 'solids'} is ${SOLIDS_SOURCE}` },
        ],
        values: { worst_deg: toDeg(worst), needed_deg: toDeg(needed), is_first: isFirst, source: SOLIDS_SOURCE },
        measure: { has: toDeg(worst), needs: toDeg(needed), better: 'more' },
      };
    }
  },
};
