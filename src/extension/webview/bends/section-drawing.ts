import type { SceneItem } from '../../../language/protocol.js';
import { setAttributes, svg } from '../dom.js';

type Point = readonly [number, number];

/** Draws a bend seen along its line: the tools and the part at a step, or the plain angle when no step is known. */
export const sectionDrawing = (drawing: SVGSVGElement, item: SceneItem | undefined, look: 'whole' | 'near'): void => {
  if (item?.kind === 'bend-step') {
    const shapes = [
      ...item.tools.map((tool) =>
        svg('polygon', { class: 'tool', points: pointsOf(tool.outline) }, svg('title', {}, tool.name)),
      ),
      ...item.metal.map((outline) => svg('polygon', { class: 'metal', points: pointsOf(outline) })),
      svg('polygon', { class: 'metal made', points: pointsOf(item.bend) }, svg('title', {}, 'the bend of this step')),
    ];
    const [left, bottom, right, top] = look === 'near' ? NEAR : item.box;
    show(
      drawing,
      shapes,
      [
        [left, bottom],
        [right, top],
      ],
      `Section at ${item.title}: operator to the right, back gauge to the left`,
    );
    drawing.append(...words(item.tools, look === 'near' ? NEAR : item.box));
    return;
  }
  if (item?.kind === 'bend-row') {
    const profile = profileOf((item.angle_deg * Math.PI) / 180, item.radius_mm, item.direction === 'down' ? -1 : 1);
    show(drawing, [svg('polyline', { class: 'profile', points: pointsOf(profile) })], profile, `Angle of ${item.name}`);
    return;
  }
  drawing.replaceChildren();
};

/** mm around the bend line: the tools and the first of the metal. */
const NEAR: readonly [number, number, number, number] = [-75, -60, 75, 90];

/** Who stands where, and what each tool is, as text in the drawing. */
const words = (
  tools: readonly { readonly name: string; readonly outline: readonly Point[] }[],
  [left, bottom, right, top]: readonly [number, number, number, number],
): SVGElement[] => {
  const size = Math.max(right - left, top - bottom) / 30;
  const text = (x: number, y: number, anchor: string, content: string): SVGElement =>
    svg('text', { x, y: -y, 'text-anchor': anchor, 'font-size': size }, content);
  const named = new Map<string, { readonly from: number; readonly to: number; readonly y: number }>();
  for (const { name, outline } of tools) {
    const xs = outline.map((p) => p[0]);
    const ys = outline.map((p) => p[1]);
    const place = { from: Math.min(...xs), to: Math.max(...xs), y: (Math.max(...ys) + Math.min(...ys)) / 2 };
    const isSeen = place.y > bottom && place.y < top && place.to > left && place.from < right;
    if (isSeen && place.to > (named.get(name)?.to ?? -Infinity)) named.set(name, place);
  }
  const labels = [...named].map(([name, { from, to, y }]) => {
    const fits = to + size * (0.5 + 0.6 * name.length) < right;
    return fits ? text(to + size * 0.5, y, 'start', name) : text(from - size * 0.5, y, 'end', name);
  });
  return [
    text(left, bottom - size, 'start', '← back gauge'),
    text(right, bottom - size, 'end', 'operator →'),
    ...labels,
  ];
};

const pointsOf = (points: readonly Point[]): string =>
  points.map(([x, y]) => `${x.toFixed(2)},${(-y).toFixed(2)}`).join(' ');

const show = (drawing: SVGSVGElement, shapes: readonly SVGElement[], extent: readonly Point[], label: string): void => {
  const xs = extent.map((p) => p[0]);
  const ys = extent.map((p) => -p[1]);
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const margin = Math.max(right - left, bottom - top, 1) * 0.08;
  setAttributes(drawing, {
    viewBox: `${left - margin} ${top - margin} ${right - left + 2 * margin} ${bottom - top + 2 * margin}`,
    'aria-label': label,
  });
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
