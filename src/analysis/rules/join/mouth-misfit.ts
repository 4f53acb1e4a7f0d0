import { atPoint, inMm, named } from '../../model/wording.js';
import type { Tub } from '../../model/tub.js';
import { isOverMouth, type Mounting } from '../../solid/mountings.js';
import type { Stages } from '../../stages/stages.js';
import type { Rule, RuleFinding } from '../rule.js';

export const mouthMisfit: Rule = {
  code: 'join/mouth-misfit',
  severity: 'warning',
  *check(stages) {
    if (!stages.tub.groups?.some(({ role }) => role === 'existing')) return;
    for (const mounting of stages.mountings()) {
      // What stands in the sheet where nothing lies on it is told as metal in metal.
      if (mounting.lying.length > 0) yield* reachingPast(stages, mounting);
      const open = openHoles(stages.tub, mounting);
      if (open) yield open;
    }
  },
};

function* reachingPast({ tub, parts }: Stages, { mouths, through }: Mounting): Generator<RuleFinding> {
  const { name, at } = tub.openings[mouths[0]?.opening] ?? {};
  if (name === undefined || at === undefined) return;
  for (const { part, room, at: place } of through) {
    if (room >= 0) continue;
    const { name: partName } = parts()[part];
    yield {
      message: `${named(partName)} does not go through ${named(name)} as it is put in straight: it reaches ${inMm(-room, 0)} past the edge near ${atPoint(place)}; it needs to keep inside`,
      at,
      about: [name, partName],
      values: { past_mm: -room, x_mm: place[0], y_mm: place[1], z_mm: place[2] },
      measure: { has: -room, needs: 0, better: 'less' },
    };
  }
}

const openHoles = (tub: Tub, mounting: Mounting): RuleFinding | undefined => {
  const { bolts, mouths, face } = mounting;
  const open = bolts.filter(({ center, diameter }) => isOverMouth(mounting, center, diameter / 2)).length;
  if (open === 0) return undefined;
  const { name, at } = tub.openings[mouths[0].opening];
  return {
    message: `${open} of the ${bolts.length} holes that fasten the tub to ${named(tub.panels[face].name)} lie${open === 1 ? 's' : ''} in ${named(name)} or over its edge, where no metal is; all need to lie beside it`,
    at,
    about: [name, tub.panels[face].name],
    values: { open_count: open, holes_count: bolts.length },
    measure: { has: open, needs: 0, better: 'less' },
  };
};
