import { named, plain } from '../../model/wording.js';
import { ROUND_OFF } from '../../geometry/tolerance.js';
import type { Box } from '../../model/tub.js';
import type { Rule } from '../rule.js';

export const tankLargerThanBox: Rule = {
  code: 'drain/tank-larger-than-box',
  severity: 'error',
  *check({ tub }) {
    for (const { name, at, box, capacityMm3 } of tub.tanks) {
      if (!box || capacityMm3 <= roomOf(box) * (1 + ROUND_OFF)) continue;
      const [holds, room] = [capacityMm3 / 1e6, roomOf(box) / 1e6];
      yield {
        message: `Tank ${named(name)} is said to hold ${plain(holds, 2, room)} L; its box holds ${plain(room, 2, holds)} L`,
        at,
        about: [name],
        related: [{ at, message: 'State less, or a larger box: levels are reckoned from the box' }],
        values: { stated_L: holds, box_L: room },
        measure: { has: holds, needs: room, better: 'less' },
      };
    }
  },
};

/** mm3 */
const roomOf = ({ min, max }: Box): number => max.reduce((room, end, axis) => room * (end - min[axis]), 1);
