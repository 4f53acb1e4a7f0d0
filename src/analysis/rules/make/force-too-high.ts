import { shortfallsOf } from '../shortfalls.js';
import { placeOfBend } from '../../making/making.js';
import type { BendTask, Setup } from '../../making/bend-fit.js';
import { propertiesOf } from '../../material/properties.js';
import type { SourceId } from '../../model/tub.js';
import { inMm, named, plain } from '../../model/wording.js';
import type { Rule, RuleFinding } from '../rule.js';

/** Charts of bending force lie -25 to +20 % apart; from this share on the stronger of them stops the brake. */
const NEAR_LIMIT = 0.8;

export const forceTooHigh: Rule = {
  code: 'make/force-too-high',
  severity: 'error',
  *check(stages) {
    for (const { check, setup, at, name } of shortfallsOf(stages, 'force'))
      yield told(setup, at, name, check.task, 'error');
    const { tub, shape, making } = stages;
    for (const { flat, bends } of making().pieces) {
      for (const { bend, task, setups } of bends) {
        const setup = setups[0];
        if (bend.isMade || setup?.force === undefined || setup.load <= NEAR_LIMIT || setup.load > 1) continue;
        yield told(setup, placeOfBend(tub, shape(), flat, bend), bend.name, task, 'warning');
      }
    }
  },
};

const told = (
  setup: Setup,
  at: SourceId,
  name: string,
  { length, metal }: BendTask,
  severity: 'error' | 'warning',
): RuleFinding => {
  const { grade, tensileMPa } = propertiesOf(metal);
  const force = setup.force! / 1000;
  const brake = force / setup.load;
  const limit = severity === 'error' ? brake : NEAR_LIMIT * brake;
  const needs =
    severity === 'error'
      ? `has ${plain(brake, 0, force)} kN`
      : `has ${plain(brake, 0)} kN, and charts of such forces differ by a fifth`;
  return {
    severity,
    message: `Bend ${named(name)} takes about ${plain(force, 0, severity === 'error' ? brake : undefined)} kN in a ${inMm(setup.die!)} die; ${named(setup.machine.name)} ${needs}`,
    at,
    about: [name],
    related: [
      {
        at,
        message: `Reckoned with ${plain(tensileMPa.value, 0)} MPa, as ${grade}; a wider die, thinner sheet or a shorter bend takes less`,
      },
    ],
    values: {
      force_kN: force,
      brake_kN: brake,
      load_percent: setup.load * 100,
      die_mm: setup.die!,
      length_mm: length,
      machine: setup.machine.name,
      grade,
      tensile_MPa: tensileMPa.value,
    },
    measure: { has: force, needs: limit, better: 'less' },
  };
};
