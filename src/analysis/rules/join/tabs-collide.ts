import type { TabRemedy } from '../../join/tabs/tab-remedies.js';
import type { Related } from '../../model/finding.js';
import type { Seam, Tub } from '../../model/tub.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const tabsCollide: Rule = {
  code: 'join/tabs-collide',
  severity: 'warning',
  *check({ tub, joints, tabRemedies }) {
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
          related: relatedOf(tub, seam, tabRemedies(seam)),
          values: { stated: count, left_out: missing, deep_mm: row.tabs.deep, stated_deep_mm: deep },
          measure: missing > 0 ? { has: row.centres.length, needs: count, better: 'more' } : undefined,
        };
      }
    }
  },
};

/** Each was joined again, the smallest change first. */
const relatedOf = ({ seams }: Tub, seam: number, remedies: readonly TabRemedy[]): readonly Related[] => {
  const { at, tabs, members } = seams[seam];
  if (remedies.length === 0) return [{ at, message: 'Narrower or fewer tabs, or a weld without them, do without' }];
  return remedies.map((remedy): Related => ({ at: tabs?.at ?? at, message: told(remedy, members) }));
};

const told = (remedy: TabRemedy, members: Seam['members']): string => {
  switch (remedy.kind) {
    case 'margin':
      return `With \`margin ${inMm(remedy.margin)}\` all that then fit stand`;
    case 'pitch':
      return `With \`every ${inMm(remedy.every)}\` all of them stand`;
    case 'member':
      return `On ${named(members[remedy.on].name)} all of them stand`;
    case 'loose':
      return 'Loose clips (`tabs loose`) all stand';
  }
};
