import { shortfallsOf } from '../shortfalls.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const bendTooLong: Rule = {
  code: 'make/bend-too-long',
  severity: 'error',
  *check(stages) {
    for (const { setup, shortfall, at, name } of shortfallsOf(stages, 'length')) {
      const { has, needs } = shortfall;
      yield {
        message: `Bend ${named(name)} is ${inMm(has, needs)} long; ${named(setup.machine.name)} takes ${inMm(needs, has)}`,
        at,
        about: [name],
        related: [{ at, message: 'Narrow the part, divide it with a seam, or have it bent on a longer brake' }],
        values: { length_mm: has, bed_mm: needs, machine: setup.machine.name },
        measure: shortfall,
      };
    }
  },
};
