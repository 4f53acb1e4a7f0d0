import { openingRange, recommendedOpening } from '../../making/air-bend.js';
import { shortfallsOf, worstPerSheet } from '../shortfalls.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const dieMisfit: Rule = {
  code: 'make/die-misfit',
  severity: 'warning',
  *check(stages) {
    for (const { check, setup, shortfall, names } of worstPerSheet(shortfallsOf(stages, 'opening'))) {
      const sheet = stages.tub.sheets[check.flat.sheet];
      const [least, most] = openingRange(sheet.thickness);
      yield {
        message: `Sheet ${named(sheet.name)} of ${inMm(sheet.thickness)} takes a die opening of ${inMm(least)} to ${inMm(most)}; the nearest of ${named(setup.machine.name)} is ${inMm(setup.die!)}`,
        at: sheet.at,
        about: [sheet.name, ...names],
        related: [{ at: sheet.at, message: `Charts recommend ${inMm(recommendedOpening(sheet.thickness))}` }],
        values: {
          die_mm: setup.die!,
          least_mm: least,
          most_mm: most,
          thickness_mm: sheet.thickness,
          machine: setup.machine.name,
        },
        measure: shortfall,
      };
    }
  },
};
