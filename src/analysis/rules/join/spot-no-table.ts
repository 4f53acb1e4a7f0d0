import { spotRowsOf } from '../../join/spots/spot-plan.js';
import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const spotNoTable: Rule = {
  code: 'join/spot-no-table',
  severity: 'warning',
  *check({ tub, joints }) {
    const told = new Set<number>();
    for (const { seam, limits, joint } of spotRowsOf(tub, joints())) {
      if (limits || told.has(seam)) continue;
      told.add(seam);
      const { name, at } = tub.seams[seam];
      const sheet = tub.sheets[tub.panels[joint.run.sides[joint.row?.carrier ?? 0].face].sheet];
      yield {
        message: `Seam ${named(name)} is spot welded in ${sheet.material}; the spot tables cover steel, galvanized and stainless only`,
        at,
        about: [name],
        values: { material: sheet.material, thickness_mm: sheet.thickness },
      };
    }
  },
};
