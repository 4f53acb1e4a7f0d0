import type { SceneItem } from '../../../language/protocol.js';
import { setAttributes, svg } from '../dom.js';
import { firstFree, type Box, type Point } from './free-place.js';

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
    const box = look === 'near' ? NEAR : withRoomForWords(item);
    const [left, bottom, right, top] = box;
    show(
      drawing,
      shapes,
      [
        [left, bottom],
        [right, top],
      ],
      `Section at ${item.title}: operator to the right, back gauge to the left`,
    );
    drawing.append(...words(item, box));
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
const NEAR: Box = [-75, -60, 75, 90];

type BendStep = Extract<SceneItem, { readonly kind: 'bend-step' }>;

const BEHIND = '← back gauge';
const BEFORE = 'operator →';

/** Width of a letter by its size, and that size by the larger side of the picture. */
const LETTER = 0.6;
const sizeIn = ([left, bottom, right, top]: Box): number => Math.max(right - left, top - bottom) / 30;

/** The box of the metal, widened so that there is room beside the tools to say who stands where. */
const withRoomForWords = ({ box, tools }: BendStep): Box => {
  const xs = tools.flatMap(({ outline }) => outline.map(([x]) => x));
  const roomFor = (content: string): number => LETTER * sizeIn(box) * (content.length + 2);
  const [left, bottom, right, top] = box;
  return [
    Math.min(left, Math.min(...xs) - roomFor(BEHIND)),
    bottom,
    Math.max(right, Math.max(...xs) + roomFor(BEFORE)),
    top,
  ];
};

/** Who stands where, and what each tool is, as text where neither metal nor tools are in the way. */
const words = ({ tools, metal, bend }: BendStep, box: Box): SVGElement[] => {
  const [left, bottom, right, top] = box;
  const size = sizeIn(box);
  const taken: (readonly Point[])[] = [...metal, bend, ...tools.map(({ outline }) => outline)];
  const put = (content: string, places: readonly (readonly [x: number, y: number, anchor: 'start' | 'end'])[]) => {
    const width = LETTER * size * content.length;
    const found = firstFree(
      places.map(([x, y, anchor]) => {
        const from = anchor === 'start' ? x : x - width;
        return { x, y, anchor, box: [from, y - 0.3 * size, from + width, y + 0.9 * size] as const };
      }),
      taken,
    );
    const [x0, y0, x1, y1] = found.box;
    taken.push([
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ]);
    return svg('text', { x: found.x, y: -found.y, 'text-anchor': found.anchor, 'font-size': size }, content);
  };
  const named = new Map<string, { readonly from: number; readonly to: number; readonly y: number }>();
  for (const { name, outline } of tools) {
    const xs = outline.map((p) => p[0]);
    const ys = outline.map((p) => p[1]);
    const place = { from: Math.min(...xs), to: Math.max(...xs), y: (Math.max(...ys) + Math.min(...ys)) / 2 };
    const isSeen = place.y > bottom && place.y < top && place.to > left && place.from < right;
    if (isSeen && place.to > (named.get(name)?.to ?? -Infinity)) named.set(name, place);
  }
  const heights = [bottom - size, top, (bottom + top) / 2];
  return [
    ...[...named].map(([name, { from, to, y }]) => {
      const width = LETTER * size * name.length;
      const beside = [y, y + size, y - size].flatMap((height) => [
        [to + size * 0.5, height, 'start'] as const,
        [from - size * 0.5, height, 'end'] as const,
      ]);
      const inPicture = beside.filter(([x, , anchor]) => (anchor === 'start' ? x + width < right : x - width > left));
      return put(name, inPicture.length > 0 ? inPicture : beside);
    }),
    put(
      BEHIND,
      heights.map((y) => [left, y, 'start'] as const),
    ),
    put(
      BEFORE,
      heights.map((y) => [right, y, 'end'] as const),
    ),
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
