import { shortfallsOf } from '../shortfalls.js';
import { inDeg, named, toDeg } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const angleOutOfReach: Rule = {
  code: 'make/angle-out-of-reach',
  severity: 'error',
  *check(stages) {
    for (const { check, setup, shortfall, at, name } of shortfallsOf(stages, 'angle')) {
      const { flatten, machine, reach, bendTo } = setup;
      const message = flatten
        ? `Bend ${named(name)} is closed flat; its lip has to be bent ${inDeg(shortfall.needs, reach)} first, and ${named(machine.name)} reaches ${inDeg(reach, shortfall.needs)}`
        : `Bend ${named(name)} has to go to ${inDeg(bendTo, reach)} under load; ${named(machine.name)} reaches ${inDeg(reach, bendTo)}`;
      yield {
        message,
        at,
        about: [name],
        related: flatten ? [] : [{ at, message: `${inDeg(check.task.angle)} remain after it springs back` }],
        values: {
          bend_to_deg: toDeg(bendTo),
          reach_deg: toDeg(reach),
          angle_deg: toDeg(check.task.angle),
          machine: machine.name,
        },
        measure: { has: toDeg(shortfall.has), needs: toDeg(shortfall.needs), better: shortfall.better },
      };
    }
  },
};
