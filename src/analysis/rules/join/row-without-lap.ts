import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const rowWithoutLap: Rule = {
  code: 'join/row-without-lap',
  severity: 'error',
  *check({ tub, joints }) {
    for (const { seam, runs } of joints().seams) {
      const { name, at, fasteners, tabs } = tub.seams[seam];
      const bare = runs.filter((run) => run.fasteners.length === 0);
      if (!fasteners || bare.length === 0) continue;
      const length = bare.reduce((sum, { run }) => sum + run.length, 0);
      const [kind, holds] = [
        fasteners.kind === 'rivet' ? 'Rivets' : 'Screws',
        tabs ? 'no tab or clip stands' : 'the sheets do not lie on one another',
      ];
      yield {
        message: `${kind} of seam ${named(name)} have nothing to go through over ${inMm(length, 0)}, where ${holds}; they need a \`lap\`, \`tabs\` or clips there`,
        at: fasteners.at ?? at,
        about: [name],
        values: { length_mm: length },
        measure: { has: length, needs: 0, better: 'less' },
      };
    }
  },
};
