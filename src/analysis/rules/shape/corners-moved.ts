import { SAME_POINT } from '../../geometry/tolerance.js';
import { distance, type Vec3 } from '../../geometry/vec.js';
import { NOT_FLAT_SHARE, TAPE_MISREADS } from '../../model/tolerance.js';
import { atPoint, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const cornersMoved: Rule = {
  code: 'shape/corners-moved',
  severity: 'info',
  worst: 'error',
  *check({ tub }) {
    for (const { name, at, corners, cornerNames, movedBy } of tub.panels) {
      if (!movedBy?.some((moved) => moved > SAME_POINT)) continue;
      const most = movedBy.reduce((best, moved, i) => (moved > movedBy[best] ? i : best), 0);
      const corner = (i: number): string =>
        cornerNames[i] === undefined ? atPoint(corners[i]) : named(cornerNames[i]);
      const isFar = movedBy[most] > TAPE_MISREADS;
      yield {
        message: `Corners of ${named(name)} are laid on its best plane: ${movedBy.map((moved, i) => `${corner(i)} by ${inMm(moved)}`).join(', ')}${isFar ? `; a tape misreads by ${inMm(TAPE_MISREADS, movedBy[most])} at most` : ''}`,
        at,
        about: [name],
        related: [
          {
            at,
            message: isFar
              ? `Measure ${corner(most)} again, or part the panel by a bend: as it stands it is cut to other corners`
              : `Measure ${corner(most)} again if that is more than your tape tells`,
          },
        ],
        values: { most_moved_mm: movedBy[most], corner: most + 1 },
        ...(isFar
          ? {
              severity:
                movedBy[most] > NOT_FLAT_SHARE * longestWay(corners) ? ('error' as const) : ('warning' as const),
              measure: { has: movedBy[most], needs: TAPE_MISREADS, better: 'less' as const },
            }
          : {}),
      };
    }
  },
};

const longestWay = (corners: readonly Vec3[]): number =>
  Math.max(...corners.flatMap((a) => corners.map((b) => distance(a, b))));
