import { pumpStates, HYDRAULIC_INSTITUTE } from '../../water/pump/pumps.js';
import type { Vec3 } from '../../geometry/vec.js';
import { HAND_ROUNDED } from '../../model/tolerance.js';
import type { Box } from '../../model/tub.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule, RuleFinding } from '../rule.js';

export const notCovered: Rule = {
  code: 'pump/not-covered',
  severity: 'error',
  *check({ tub, water }): Iterable<RuleFinding> {
    if (tub.inflows.every(({ pump }) => !pump)) return;
    for (const { inflow, pump, cover, needed, lowest } of pumpStates(tub, water())) {
      const { name } = tub.inflows[inflow];
      const tank = tub.tanks[pump.tank];
      if (cover === undefined || lowest === undefined) {
        yield {
          severity: 'info',
          message: `Whether the inlet of ${named(name)} stays covered is not known; tank ${named(tank.name)} needs its place, such as \`from (0, 0, -300) to (400, 400, -100)\``,
          at: pump.at,
          about: [name, tank.name],
          values: {},
        };
        continue;
      }
      const beside = tank.box ? besideBox(tank.box, pump.inlet) : 0;
      if (beside > HAND_ROUNDED) {
        yield {
          message: `The inlet of ${named(name)} lies ${inMm(beside, 0)} beside tank ${named(tank.name)}; it needs to lie within`,
          at: pump.at,
          about: [name, tank.name],
          related: [{ at: tank.at, message: 'The tank as stated' }],
          values: { beside_mm: beside },
          measure: { has: beside, needs: 0, better: 'less' },
        };
        continue;
      }
      if (cover >= needed) continue;
      const source = pump.covered === undefined ? HYDRAULIC_INSTITUTE : 'as stated';
      yield {
        message: `The inlet of ${named(name)} has ${inMm(Math.max(0, cover), needed)} of liquid over it while the tub is wet; it needs ${inMm(needed, cover)}, or it draws air`,
        at: pump.at,
        about: [name, tank.name],
        related: [
          {
            at: tank.at,
            message: `The level falls to ${inMm(lowest)} by what is out in the tub, its pools and the hose; cover: ${source}`,
          },
        ],
        values: { cover_mm: cover, needed_mm: needed, lowest_level_mm: lowest, source },
        measure: { has: cover, needs: needed, better: 'more' },
      };
    }
  },
};

/** How far a place lies outside of a box in plan, mm; negative: so far inside. */
const besideBox = ({ min, max }: Box, place: Vec3): number =>
  Math.max(...[0, 1].map((k) => Math.max(min[k] - place[k], place[k] - max[k])));
