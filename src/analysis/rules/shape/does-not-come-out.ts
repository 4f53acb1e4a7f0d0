import { directionWords, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const doesNotComeOut: Rule = {
  code: 'shape/does-not-come-out',
  severity: 'warning',
  worst: 'error',
  *check({ tub, waysOut }) {
    for (const { mover, blocked } of waysOut()) {
      yield undefined;
      if (!blocked) continue;
      const { way, reach, then, depth, by } = blocked;
      const turned = then ? `, then ${directionWords(then)} ` : ', then ';
      const obstacle = by.face === undefined ? tub.things?.[by.thing ?? -1] : tub.panels[by.face];
      const name = obstacle?.name ?? '?';
      const isRemovable = mover.kind === 'removable';
      yield {
        message: `${isRemovable ? named(mover.name) : `${named(mover.name)}, which is screwed on,`} does not come out, nor go in: ${directionWords(way)} it goes ${inMm(reach)}${turned}${named(name)} is in the way by ${inMm(depth, 0)}; it needs one straight way, or two`,
        at: mover.at,
        about: [mover.name, name],
        related: obstacle
          ? [
              {
                at: obstacle.at,
                message: `${named(name)} is in the way; of all ways that were tried this one is blocked least`,
              },
            ]
          : [],
        values: { depth_mm: depth, reach_mm: reach },
        measure: { has: depth, needs: 0, better: 'less' },
        ...(isRemovable && { severity: 'error' as const }),
      };
    }
  },
};
