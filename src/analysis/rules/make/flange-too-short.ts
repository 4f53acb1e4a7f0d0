import type { BendCheck, Leg } from '../../making/bend-check.js';
import { isFlangeShort, type Setup } from '../../making/bend-fit.js';
import { placeOfBend } from '../../making/making.js';
import type { Stages } from '../../stages/stages.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule, RuleFinding } from '../rule.js';

export const flangeTooShort: Rule = {
  code: 'make/flange-too-short',
  severity: 'error',
  *check(stages) {
    for (const { bends } of stages.making().pieces) {
      const told = new Set<string>();
      for (const check of bends) {
        const [setup] = check.setups;
        if (!setup || check.bend.isMade || told.has(check.bend.name)) continue;
        const short = check.legs.find((leg) => isFlangeShort(leg.reaches, setup.shortestFlange));
        if (!short) continue;
        told.add(check.bend.name);
        yield findingOf(stages, check, short, setup);
      }
    }
  },
};

const findingOf = ({ tub, shape }: Stages, check: BendCheck, leg: Leg, setup: Setup): RuleFinding => {
  const name = check.flat.panels[leg.panel].name;
  const tool =
    setup.die === undefined ? `the clamp of ${named(setup.machine.name)}` : `a ${inMm(setup.die)} die opening`;
  const at = placeOfBend(tub, shape(), check.flat, check.bend);
  return {
    message: `Flange ${named(name)} is ${inMm(leg.outside, setup.shortestFlange)} at bend ${named(check.bend.name)}; ${tool} needs at least ${inMm(setup.shortestFlange, leg.outside)}`,
    at,
    about: [name, check.bend.name],
    related: [{ at, message: `Measured outside, from the virtual sharp corner; ${narrower(check, setup)}` }],
    values: {
      flange_mm: leg.outside,
      shortest_mm: setup.shortestFlange,
      ...(setup.die === undefined ? {} : { die_mm: setup.die }),
      machine: setup.machine.name,
    },
    measure: { has: leg.outside, needs: setup.shortestFlange, better: 'more' },
  };
};

/** What the smallest die at hand asks, where it is another one. */
const narrower = ({ setups }: BendCheck, { machine, die }: Setup): string => {
  const onRack = setups.filter((each) => each.die !== undefined && each.machine.name === machine.name);
  const least = onRack.reduce<Setup | undefined>(
    (best, each) => (best && best.shortestFlange <= each.shortestFlange ? best : each),
    undefined,
  );
  return least?.die === undefined || least.die === die
    ? 'a narrower die takes a shorter flange'
    : `the ${inMm(least.die)} die of ${named(machine.name)} still needs ${inMm(least.shortestFlange)}`;
};
