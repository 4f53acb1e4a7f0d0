/** A tub whose panels came to lie otherwise: what they have in common with others, and what is in them. */
import { SAME_POINT } from '../geometry/tolerance.js';
import { add, distance, subtract, type Vec3 } from '../geometry/vec.js';
import type { Inflow, Opening, OpeningShape, Outlet, Panel, PanelIndex, Tub } from '../model/tub.js';

export type Motion = (point: Vec3) => Vec3;

/** With other panels; what is in those that moved as a whole goes with them. */
export const withMoved = (tub: Tub, panels: readonly Panel[], motions: ReadonlyMap<PanelIndex, Motion>): Tub => ({
  ...tub,
  panels,
  openings: tub.openings.map((opening) => movedOpening(opening, motions.get(opening.panel))),
  outlets: tub.outlets.map((outlet) => movedOutlet(outlet, motions.get(outlet.panel))),
  inflows: tub.inflows.map((inflow) => movedInflow(inflow, motions.get(inflow.panel))),
});

/** A corner that another panel had in common with one that moved goes with it. */
export const shareCorners = (drawn: readonly Panel[], panels: Panel[], isFree: readonly boolean[]): void => {
  const moved: { readonly from: Vec3; readonly to: Vec3 }[] = [];
  panels.forEach((panel, i) => {
    const before = drawn[i];
    if (panel === before) return;
    before.corners.forEach((from, corner) => moved.push({ from, to: panel.corners[corner] }));
  });
  panels.forEach((panel, i) => {
    if (!isFree[i] || panel !== drawn[i]) return;
    const targets = panel.corners.map((corner) => moved.find(({ from }) => distance(from, corner) <= SAME_POINT));
    if (targets.every((target) => target === undefined)) return;
    panels[i] = { ...panel, corners: panel.corners.map((corner, k) => targets[k]?.to ?? corner) };
  });
};

const movedOpening = (opening: Opening, motion: Motion | undefined): Opening =>
  motion ? { ...opening, shape: movedShape(opening.shape, motion) } : opening;

const movedShape = (shape: OpeningShape, motion: Motion): OpeningShape => {
  switch (shape.kind) {
    case 'round':
    case 'slot':
      return { ...shape, center: motion(shape.center) };
    case 'window':
    case 'notch':
      return { ...shape, from: motion(shape.from), to: motion(shape.to) };
    case 'vee':
      return { ...shape, tip: motion(shape.tip) };
  }
};

const movedOutlet = (outlet: Outlet, motion: Motion | undefined): Outlet =>
  motion ? { ...outlet, center: motion(outlet.center) } : outlet;

const movedInflow = (inflow: Inflow, motion: Motion | undefined): Inflow => {
  if (!motion || !inflow.point) return inflow;
  const point = motion(inflow.point);
  const { pump } = inflow;
  return {
    ...inflow,
    point,
    ...(pump && { pump: { ...pump, outlet: add(pump.outlet, subtract(point, inflow.point)) } }),
  };
};
