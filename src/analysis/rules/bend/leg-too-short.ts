import { flatFaultsOfKind } from '../../fold/flat-faults-of-kind.js';
import { inDeg, inMm, named } from '../../wording.js';
import type { Rule } from '../rule.js';

export const legTooShort: Rule = {
  code: 'bend/leg-too-short',
  severity: 'error',
  *check({ tub, shape, unfolded }) {
    for (const { face, has, needs, bends } of flatFaultsOfKind(unfolded(), 'leg-too-short')) {
      const { name, at } = tub.panels[face];
      const names = bends.map((bend) => shape().bends[bend].name);
      yield {
        message: `${named(name)} is ${inMm(has)} to the sharp corners; the bends beside it take ${inMm(needs)} before any flat metal is left`,
        at,
        about: [name, ...names],
        related: bends.map((bend) => ({
          at: shape().bends[bend].at,
          message: `Bend ${named(shape().bends[bend].name)} takes ${inMm(shape().bends[bend].setback)} of each side (radius ${inMm(shape().bends[bend].radius)}, ${inDeg(shape().bends[bend].angle)})`,
        })),
        values: { length_mm: has, needed_mm: needs },
        measure: { has, needs, better: 'more' },
      };
    }
  },
};
