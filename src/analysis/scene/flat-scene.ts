import type { Contour, FlatBend, FlatPattern, Part } from '../fold/flat-pattern.js';
import { distance2 } from '../geometry/vec.js';
import type { Sheet, SourceId, Stock, Tub } from '../model.js';
import type { Stages } from '../stages.js';
import { drawn2, drawnContour, drawnDegrees, drawnLength, drawnNumber, note, sheetWords } from './drawn.js';
import type { FlatPartItem, SceneEntry } from './scene.js';

/** Every flat pattern: one item for its outline, one per panel and one per bend line. */
export const flatScene = (stages: Stages): SceneEntry[] => {
  const { tub } = stages;
  const parts = stages.parts();
  if (parts.length === 0) return [note('no-parts', 'Nothing to lay flat yet: the text has no panel that can be used', tub.at)];
  const entries: SceneEntry[] = [];
  stages.flats().forEach((flat, i) => {
    if (flat) entries.push(...flatEntries(stages, flat, i));
    else entries.push(noFlat(tub, parts[i]));
  });
  return entries;
};

const noFlat = (tub: Tub, part: Part): SceneEntry =>
  note(`no-flat:${part.name}`, `Part \`${part.name}\` has no flat pattern: its findings say why`, partAt(tub, part));

/** The statement that makes the part: the strip of its first panel, else that panel itself. */
export const partAt = (tub: Tub, part: Part): SourceId => {
  const panel = tub.panels[part.faces[0]];
  return panel.kind.kind === 'leg' ? tub.strips[panel.kind.strip].at : panel.at;
};

export const partKey = (flat: { readonly name: string }): string => `part:${flat.name}`;

const flatEntries = (stages: Stages, flat: FlatPattern, order: number): SceneEntry[] => {
  const { tub } = stages;
  const part = partKey(flat);
  const parts = stages.parts();
  const at = flat.part === undefined ? undefined : partAt(tub, parts[flat.part]);
  return [
    { key: part, at, item: partItem(tub, flat, order) },
    ...flat.panels.map((panel): SceneEntry => ({
      key: `panel:${panel.name}`,
      at: panel.face === undefined ? at : tub.panels[panel.face].at,
      item: { kind: 'flat-panel', part, name: panel.name, region: drawnContour(panel.region) },
    })),
    ...flat.bends.map((bend): SceneEntry => ({
      key: `bend:${bend.name}`,
      at: bend.bend === undefined ? at : stages.shape().bends[bend.bend].at,
      item: bendItem(part, bend),
    })),
  ];
};

const partItem = (tub: Tub, flat: FlatPattern, order: number): FlatPartItem => {
  const box = boxOf(flat.outline);
  const sheet = tub.sheets[flat.sheet];
  return {
    kind: 'flat-part',
    order,
    name: flat.name,
    sheet: sheetWords(sheet),
    quantity: flat.quantity,
    outline: drawnContour(flat.outline),
    holes: flat.holes.map((hole) => drawnContour(hole.contour)),
    marks: flat.marks.map((mark) => ({ kind: mark.kind, points: mark.points.map(drawn2), closed: mark.closed, text: mark.text })),
    box: [drawnLength(box[0]), drawnLength(box[1]), drawnLength(box[2]), drawnLength(box[3])],
    stock: stockWords(tub, sheet, box[2] - box[0], box[3] - box[1]),
  };
};

const bendItem = (part: string, bend: FlatBend): SceneEntry['item'] => ({
  kind: 'flat-bend',
  part,
  name: bend.name,
  start: drawn2(bend.start),
  end: drawn2(bend.end),
  tangents: [
    [drawn2(bend.tangents[0][0]), drawn2(bend.tangents[0][1])],
    [drawn2(bend.tangents[1][0]), drawn2(bend.tangents[1][1])],
  ],
  direction: bend.direction,
  angle_deg: drawnDegrees(bend.angle),
  radius_mm: drawnLength(bend.radius),
  k: drawnNumber(bend.kFactor),
  allowance_mm: drawnLength(bend.allowance),
  length_mm: drawnLength(distance2(bend.start, bend.end)),
});

/** [left, bottom, right, top] of a contour, arcs included: an arc reaches its extremes at quarter directions. */
export const boxOf = (contour: Contour): readonly [number, number, number, number] => {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  const take = (x: number, y: number): void => {
    box[0] = Math.min(box[0], x);
    box[1] = Math.min(box[1], y);
    box[2] = Math.max(box[2], x);
    box[3] = Math.max(box[3], y);
  };
  contour.forEach((from, i) => {
    take(from.x, from.y);
    if (from.bulge !== 0) arcExtremes(from, contour[(i + 1) % contour.length], take);
  });
  return box;
};

const arcExtremes = (
  from: { readonly x: number; readonly y: number; readonly bulge: number },
  to: { readonly x: number; readonly y: number },
  take: (x: number, y: number) => void,
): void => {
  const { bulge } = from;
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  // Centre from chord and bulge = tan(sweep / 4): it lies on the chord's left for a counter-clockwise minor arc.
  const offset = (1 - bulge * bulge) / (4 * bulge);
  const [cx, cy] = [(from.x + to.x) / 2 - dy * offset, (from.y + to.y) / 2 + dx * offset];
  const radius = Math.hypot(from.x - cx, from.y - cy);
  const start = Math.atan2(from.y - cy, from.x - cx);
  const sweep = 4 * Math.atan(bulge);
  const quarter = Math.PI / 2;
  const [low, high] = sweep > 0 ? [start, start + sweep] : [start + sweep, start];
  for (let n = Math.ceil(low / quarter); n * quarter <= high; n++) {
    take(cx + radius * Math.cos(n * quarter), cy + radius * Math.sin(n * quarter));
  }
};

/** Words on the first stock sheet that takes the part's box square on, or on the largest when none does. */
const stockWords = (tub: Tub, sheet: Sheet, width: number, height: number): string | undefined => {
  const stocks = (tub.shop?.stock ?? []).filter(
    (stock) => stock.material === sheet.material && Math.abs(stock.thickness - sheet.thickness) < 0.05 * sheet.thickness,
  );
  if (stocks.length === 0) return undefined;
  const size = (stock: Stock): string => `${drawnLength(stock.size[0])} × ${drawnLength(stock.size[1])} mm`;
  const fits = stocks.find((stock) => boxFits(stock, width, height));
  if (fits) return `its box fits on ${size(fits)}`;
  const largest = stocks.reduce((a, b) => (b.size[0] * b.size[1] > a.size[0] * a.size[1] ? b : a));
  return `its box is larger than the stock of ${size(largest)}`;
};

const boxFits = (stock: Stock, width: number, height: number): boolean => {
  const [short, long] = [Math.min(...stock.size), Math.max(...stock.size)];
  return Math.min(width, height) <= short && Math.max(width, height) <= long;
};
