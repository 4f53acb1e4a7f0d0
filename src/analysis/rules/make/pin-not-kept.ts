import { pinsOf } from '../../making/pins.js';
import { inMm, named } from '../../model/wording.js';
import { flatsToCut } from '../../stages/flats-to-cut.js';
import type { Rule } from '../rule.js';

export const pinNotKept: Rule = {
  code: 'make/pin-not-kept',
  severity: 'error',
  *check(stages) {
    const { tub } = stages;
    if (!tub.pins) return;
    for (const { pin, flat, why, distance } of pinsOf(tub, flatsToCut(stages)).refused) {
      const name = flat?.name ?? tub.panels[pin.panel].name;
      const short =
        distance && `: ${inMm(distance.has, distance.needs)} where a cut needs ${inMm(distance.needs, distance.has)}`;
      const values: Record<string, number> = distance ? { has_mm: distance.has, needs_mm: distance.needs } : {};
      yield {
        message: `Pinned ${named(name)} ${why}${short ?? ''}`,
        at: pin.at,
        about: [name],
        related: [{ at: pin.at, message: 'It is laid where there is room; pin it anew there, or take the pin out' }],
        values,
        ...(distance && { measure: { ...distance, better: 'more' as const } }),
      };
    }
  },
};
