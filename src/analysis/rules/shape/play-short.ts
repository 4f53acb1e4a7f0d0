import { truenessOf } from '../../join/seam/seam-gap.js';
import { directionWords, inDeg, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** mm. Metal that shares more room than this is told as that. */
const GIVES = 0.1;

export const playShort: Rule = {
  code: 'shape/play-short',
  severity: 'warning',
  worst: 'error',
  *check({ tub, plays }) {
    const { bends, marks } = truenessOf(tub.shop);
    for (const { group, sides } of plays()) {
      yield undefined;
      const { name, at, play = 0 } = tub.groups![group];
      // What is in other metal has no play: `shape/metal-in-metal` says how far it must move.
      const tight = sides.filter(({ gap, worst }) => worst < play && gap > -GIVES);
      if (tight.length === 0) continue;
      const [{ way, gap, worst, by }, ...more] = [...tight].sort((a, b) => a.worst - b.worst);
      const obstacle = by.face === undefined ? tub.things?.[by.thing ?? -1] : tub.panels[by.face];
      const met = obstacle?.name ?? '?';
      const trueness = `bends ± ${inDeg(bends)} and marks ± ${inMm(marks)}`;
      const isDrawn = gap < play;
      const told = isDrawn ? gap : worst;
      const where = `${directionWords(way)}, towards ${named(met)}`;
      yield {
        message: isDrawn
          ? `${named(name)} has ${inMm(gap, play)} of play ${where}; it needs at least ${inMm(play, gap)}, and that at worst`
          : `${named(name)} has ${inMm(gap)} of play ${where}, and at worst, with ${trueness}, ${inMm(worst, play)} ${worst < 0 ? '(it does not go in) ' : ''}is left; it needs at least ${inMm(play, worst)}`,
        at,
        about: [name, met],
        related: [
          ...(obstacle
            ? [
                {
                  at: obstacle.at,
                  message: `${named(met)} is what it meets there; to have it at worst too, ${named(name)} needs to be ${inMm(play - worst)} smaller on that side`,
                },
              ]
            : []),
          ...more.map((side) => ({
            at,
            message: `${directionWords(side.way)}: ${inMm(side.gap)}, at worst ${inMm(side.worst)}`,
          })),
        ],
        values: { play_mm: gap, at_worst_mm: worst, needs_mm: play },
        measure: { has: told, needs: play, better: 'more' },
        ...(isDrawn && { severity: 'error' as const }),
      };
    }
  },
};
