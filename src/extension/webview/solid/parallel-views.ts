import { button } from '../dom.js';
import type { V3 } from './piece.js';
import type { Space } from './space.js';

const VIEWS: readonly (readonly [name: string, from: string, direction: V3])[] = [
  ['Front', 'the front', [0, -1, 0.001]],
  ['Side', 'the right', [1, 0, 0.001]],
  ['Top', 'above', [0, -0.001, 1]],
];

/** Buttons that look straight from a side, near and far in one scale. */
export const parallelViews = (space: Space): HTMLButtonElement[] =>
  VIEWS.map(([name, from, direction]) =>
    button(name, `Look straight from ${from}, in one scale`, () => space.viewpoint.fit(direction, 'parallel')),
  );
