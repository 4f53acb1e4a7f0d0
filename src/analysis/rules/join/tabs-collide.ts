import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const tabsCollide: Rule = {
  code: 'join/tabs-collide',
  severity: 'warning',
  *check({ tub, joints }) {
    for (const { seam, runs } of joints().seams) {
      for (const { row, run } of runs) {
        if (!row?.stated || row.stated.takenBy !== undefined) continue;
        const { count, deep } = row.stated;
        const missing = count - row.centres.length;
        const { name, at, tabs } = tub.seams[seam];
        const panel = tub.panels[run.sides[row.carrier].face].name;
        const shortened = `${row.tabs.isLap ? 'it is' : 'they are'} cut ${inMm(row.tabs.deep)} deep instead of ${inMm(deep)}`;
        const what =
          missing === 0
            ? shortened
            : `${row.tabs.isLap ? 'it is left out' : `${missing} of ${count} ${missing === 1 ? 'is' : 'are'} left out`}${row.tabs.deep < deep ? `, and ${shortened}` : ''}`;
        yield {
          message: `${row.tabs.isLap ? 'The lap' : 'Tabs'} of seam ${named(name)} on ${named(panel)} run${row.tabs.isLap ? 's' : ''} into other metal of its flat: ${what}`,
          at: tabs?.at ?? at,
          about: [name, panel],
          related: [{ at, message: 'A wider margin, tabs on the other panel, or loose clips do without' }],
          values: { stated: count, left_out: missing, deep_mm: row.tabs.deep, stated_deep_mm: deep },
          measure: missing > 0 ? { has: row.centres.length, needs: count, better: 'more' } : undefined,
        };
      }
    }
  },
};
