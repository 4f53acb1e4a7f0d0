/** Where the part touches the back gauge, and how much flat metal stands beside the line. Lengths mm. */
import { commonRunOf } from '../../leg-run.js';
import { CONTACT } from '../metal/body.js';
import type { BendLine } from '../operations.js';
import type { SideView } from './side.js';

export interface Stop {
  /** From the bend line to what touches the stop. */
  readonly distance: number;
  /** What touches it runs along the bend: it sits square against the stop. */
  readonly square: boolean;
}

/** mm. Height of a stop over the die; a flange that stands up behind the line touches it with its outer face. */
const STOP_HEIGHT = 10;
/** mm. Two touching points have to lie this far apart along the bend to keep the part square. Common practice. */
const SQUARE_BASE = 20;
/** mm. Points this near to the farthest one touch as well. */
const EVEN = 0.2;

/** The farthest metal behind the line at the stop's height. */
export const stopOf = (side: SideView): Stop => {
  const touching: (readonly [number, number])[] = [];
  for (const { points, level } of side.blocks) {
    const outside = level ? 0 : CONTACT;
    const n = points.length / 6;
    const look = (i: number, j: number): void => {
      const [hi, hj] = [points[3 * i + 1], points[3 * j + 1]];
      if (hi >= -EVEN && hi <= STOP_HEIGHT) touching.push([points[3 * i] + outside, points[3 * i + 2]]);
      if (hi > STOP_HEIGHT === hj > STOP_HEIGHT) return;
      const t = (STOP_HEIGHT - hi) / (hj - hi);
      const between = (axis: 0 | 2): number => points[3 * i + axis] + (points[3 * j + axis] - points[3 * i + axis]) * t;
      touching.push([between(0) + outside, between(2)]);
    };
    for (let i = 0; i < n; i++) {
      look(i, (i + 1) % n);
      look(n + i, n + ((i + 1) % n));
      look(i, n + i);
    }
  }
  const distance = touching.reduce((most, [x]) => Math.max(most, x), 0);
  const stations = touching.filter(([x]) => x > distance - EVEN).map(([, z]) => z);
  const base =
    stations.reduce((m, z) => Math.max(m, z), -Infinity) - stations.reduce((m, z) => Math.min(m, z), Infinity);
  return { distance, square: base >= SQUARE_BASE };
};

/** Flat run from the bend line outwards that at least half of the bend's length has. */
export const levelRunOf = (side: SideView, spans: BendLine['spans']): number => commonRunOf(side.level, spans);
