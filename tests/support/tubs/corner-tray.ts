import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import { tubOf } from '../tub-of.js';

export const FLOOR: Vec3[] = [
  [0, 0, 0],
  [200, 0, 0],
  [200, 100, 0],
  [0, 100, 0],
];

/** At the back of the floor. */
export const WALL: Vec3[] = [
  [0, 100, 0],
  [200, 100, 0],
  [200, 100, 50],
  [0, 100, 50],
];

/** A floor of 200 x 100 with one wall of 50 at its back, bent up square. */
export const cornerTray = tubOf({
  name: 'Corner tray',
  panels: { floor: FLOOR, wall: WALL },
  bends: [['floor', 'wall']],
});
