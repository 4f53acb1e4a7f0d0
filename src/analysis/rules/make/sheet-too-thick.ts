import { shortfallsOf, worstPerSheet } from '../shortfalls.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const sheetTooThick: Rule = {
  code: 'make/sheet-too-thick',
  severity: 'error',
  *check(stages) {
    for (const { check, setup, shortfall, names } of worstPerSheet(shortfallsOf(stages, 'capacity'))) {
      const sheet = stages.tub.sheets[check.flat.sheet];
      const { has, needs } = shortfall;
      yield {
        message: `Sheet ${named(sheet.name)} loads ${named(setup.machine.name)} like ${inMm(has, needs)} mild steel; it folds ${inMm(needs, has)}`,
        at: sheet.at,
        about: [sheet.name, ...names],
        related: [
          {
            at: sheet.at,
            message: `${inMm(sheet.thickness)} ${sheet.material}; the moment to fold it goes with tensile strength times thickness squared`,
          },
        ],
        values: {
          like_mild_steel_mm: has,
          capacity_mm: needs,
          thickness_mm: sheet.thickness,
          machine: setup.machine.name,
        },
        measure: shortfall,
      };
    }
  },
};
