import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const closedLoop: Rule = {
  code: 'bend/closed-loop',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { bend, loop } of faultsOfKind(shape(), 'bend-loop')) {
      const { name, at } = tub.bends[bend];
      const names = loop.map((panel) => tub.panels[panel].name);
      yield {
        message: `Bends ${names.map(named).join(', ')} and back close a ring; no flat sheet folds to that: make one of them a seam`,
        at,
        about: [name, ...names],
        related: tub.bends
          .filter((other) => other.at !== at && other.panels.every((panel) => loop.includes(panel)))
          .map((other) => ({ at: other.at, message: `The ring runs through ${named(other.name)}` })),
        values: { panels: names.length },
      };
    }
  },
};
