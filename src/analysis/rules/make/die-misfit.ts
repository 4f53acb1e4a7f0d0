import { openingRange, recommendedOpening } from '../../making/air-bend.js';
import { shortfallsOf, worstPerSheet } from '../shortfalls.js';
import { inMm, named } from '../../model/wording.js';
import type { BendCheck } from '../../making/bend-check.js';
import type { Shortfall } from '../../making/bend-fit.js';
import type { Rule } from '../rule.js';

export const dieMisfit: Rule = {
  code: 'make/die-misfit',
  severity: 'warning',
  *check(stages) {
    for (const { check, setup, shortfall, names, at } of worstPerSheet(shortfallsOf(stages, 'opening'))) {
      const sheet = stages.tub.sheets[check.flat.sheet];
      const [least, most] = openingRange(sheet.thickness);
      yield {
        message: `Bend ${named(check.bend.name)} takes the ${inMm(setup.die!)} die of ${named(setup.machine.name)}; sheet ${named(sheet.name)} of ${inMm(sheet.thickness)} wants an opening of ${inMm(least)} to ${inMm(most)}`,
        at: sheet.at,
        about: [sheet.name, ...names],
        related: [
          { at: sheet.at, message: `Charts recommend ${inMm(recommendedOpening(sheet.thickness))}` },
          ...whyNot(check).map((message) => ({ at, message })),
        ],
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

/** Why the die in the charts' range that comes nearest to doing is not taken: nothing where the shop has none. */
const whyNot = ({ setups }: BendCheck): readonly string[] => {
  const usual = setups.find(({ die, shortfalls }) => die !== undefined && !shortfalls.some(isOpening));
  return (usual?.shortfalls ?? []).slice(0, 1).flatMap(({ kind, has, needs }) => {
    if (kind !== 'flange') return [];
    return `The ${inMm(usual!.die!)} die of ${named(usual!.machine.name)} needs a flange of ${inMm(needs)}, and the bend has ${inMm(has)}`;
  });
};

const isOpening = ({ kind }: Shortfall): boolean => kind === 'opening';
