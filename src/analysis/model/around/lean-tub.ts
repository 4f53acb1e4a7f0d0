import { leaned } from '../../geometry/lean.js';
import type { Vec3 } from '../../geometry/vec.js';
import type { Opening, OpeningShape } from '../opening.js';
import { roleOf } from './roles.js';
import type { Stand } from './stand.js';
import type { Tub } from '../tub.js';

/**
 * The tub as it stands: all that is made leans, what stands around it (existing things, zones, tanks, ends of pipes) does not. What
 * is level or upright in its panel is so as it is built (`levelAxes`).
 */
export const leanTub = (tub: Tub, stands: Stand): Tub => {
  const lean = (vector: Vec3): Vec3 => leaned(vector, stands);
  const stays = (panel: number): boolean => roleOf(tub, panel) === 'existing';
  return {
    ...tub,
    stands,
    panels: tub.panels.map((panel, i) =>
      stays(i) ? panel : { ...panel, corners: panel.corners.map(lean), facing: panel.facing && lean(panel.facing) },
    ),
    strips: tub.strips.map((strip) =>
      strip.panels.some(stays) ? strip : { ...strip, heading: lean(strip.heading), across: lean(strip.across) },
    ),
    openings: tub.openings.map((opening): Opening =>
      stays(opening.panel) ? opening : { ...opening, shape: shapeMoved(opening.shape, lean) },
    ),
    outlets: tub.outlets.map((outlet) => ({ ...outlet, center: lean(outlet.center) })),
    inflows: tub.inflows.map(({ point, ...inflow }) => ({ ...inflow, point: point && lean(point) })),
  };
};

const shapeMoved = (shape: OpeningShape, move: (point: Vec3) => Vec3): OpeningShape => {
  switch (shape.kind) {
    case 'round':
    case 'slot':
      return { ...shape, center: move(shape.center) };
    case 'vee':
      return { ...shape, tip: move(shape.tip) };
    case 'window':
    case 'notch':
      return { ...shape, from: move(shape.from), to: move(shape.to) };
  }
};
