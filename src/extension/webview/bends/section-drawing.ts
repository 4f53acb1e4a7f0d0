import type { SceneItem } from '../../../language/protocol.js';
import { setAttributes, svg } from '../dom.js';

type Point = readonly [number, number];

/** Draws a bend seen along its line: the tools and the part at a step, or the plain angle when no step is known. */
export const sectionDrawing = (drawing: SVGSVGElement, item: SceneItem | undefined): void => {
  if (item?.kind === 'bend-step') {
    const shapes = [
      ...item.tools.map((tool) => svg('polygon', { class: 'tool', points: pointsOf(tool.outline) }, svg('title', {}, tool.name))),
      ...item.metal.map((outline) => svg('polygon', { class: 'metal', points: pointsOf(outline) })),
      svg('polygon', { class: 'metal made', points: pointsOf(item.bend) }, svg('title', {}, 'the bend of this step')),
    ];
    const [left, bottom, right, top] = item.box;
    show(drawing, shapes, [[left, bottom], [right, top]], `Section at ${item.title}: operator to the right, back gauge to the left`);
    return;
  }
  if (item?.kind === 'bend-row') {
    const profile = profileOf((item.angle_deg * Math.PI) / 180, item.radius_mm, item.direction === 'down' ? -1 : 1);
    show(drawing, [svg('polyline', { class: 'profile', points: pointsOf(profile) })], profile, `Angle of ${item.name}`);
    return;
  }
  drawing.replaceChildren();
};

const pointsOf = (points: readonly Point[]): string => points.map(([x, y]) => `${x.toFixed(2)},${(-y).toFixed(2)}`).join(' ');

const show = (drawing: SVGSVGElement, shapes: readonly SVGElement[], extent: readonly Point[], label: string): void => {
  const xs = extent.map((p) => p[0]);
  const ys = extent.map((p) => -p[1]);
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const margin = Math.max(right - left, bottom - top, 1) * 0.08;
  setAttributes(drawing, { viewBox: `${left - margin} ${top - margin} ${right - left + 2 * margin} ${bottom - top + 2 * margin}`, 'aria-label': label });
  drawing.replaceChildren(...shapes);
};

/** Two legs of 40 mm and the arc between them; the first lies level. */
const profileOf = (angle: number, radius: number, turn: 1 | -1): Point[] => {
  const leg = 40;
  const points: Point[] = [[-leg, 0]];
  const steps = 16;
  for (let i = 0; i <= steps; i++) {
    const a = (angle * i) / steps;
    points.push([radius * Math.sin(a), turn * radius * (1 - Math.cos(a))]);
  }
  const [x, y] = points[points.length - 1];
  points.push([x + leg * Math.cos(angle), y + turn * leg * Math.sin(angle)]);
  return points;
};
