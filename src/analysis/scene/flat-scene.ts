import type { FlatBend, FlatPattern, Part } from '../fold/flat-pattern.js';
import { gaugedOn, gaugeMark, gaugeWords } from '../fold/bend-words.js';
import { facingOf } from '../fold/facing.js';
import { asMarked, sideUpOf } from '../fold/marked-side.js';
import { extentOfContour } from '../geometry/contour.js';
import { insidePlace } from '../geometry/inside-place.js';
import { distance2 } from '../geometry/vec.js';
import { inMm } from '../model/wording.js';
import { FLAT_BEND_COLUMNS, flatBendRow } from '../report/making/bends.js';
import { ordinatesOf, type Ordinate } from '../report/flats/flat-ordinates.js';
import { holeGroups, type HoleGroup } from '../report/flats/hole-groups.js';
import { numberedStrokes, type Stroke } from '../report/flats/numbered-strokes.js';
import { nickerOf, type Nick } from '../stages/nicks.js';
import type { Plan } from '../making/plan/plan.js';
import { madeFor, PART_COLUMNS, partRow } from '../report/making/parts.js';
import { toFacts } from '../report/table.js';
import type { Sheet, SourceId, Stock, Tub } from '../model/tub.js';
import { cutParts } from '../stages/flats-to-cut.js';
import type { Stages } from '../stages/stages.js';
import { drawn2, drawnContour, drawnRing, drawnLength, drawnNumber, drawnUnit, note, sheetWords } from './drawn.js';
import type { DrawnOrdinate, FlatPartItem } from './items/flat-items.js';
import type { SceneEntry } from './scene-items.js';
import { stockOf } from '../making/blanks.js';
import { shopOf } from '../model/shop/default-shop.js';

/** The bend plan of a flat, dry side up, as far as it is known. */
export type KnownPlan = (flat: FlatPattern) => Plan | undefined;

/** Every flat pattern: one item for its outline, one per panel and one per bend line, with the numbers of known plans. */
export const flatScene = (stages: Stages, planOf: KnownPlan = () => undefined): SceneEntry[] => {
  const { tub } = stages;
  const parts = stages.parts();
  if (parts.length === 0)
    return [note('no-parts', 'Nothing to lay flat yet: the text has no panel that can be used', tub.at)];
  const entries: SceneEntry[] = [];
  const nicker = nickerOf(stages);
  const entriesOf = (flat: FlatPattern, order: number): SceneEntry[] => {
    const plan = planOf(flat);
    const marked = asMarked(tub, flat);
    const strokes = plan ? numberedStrokes(marked, plan) : [];
    return flatEntries(stages, { flat: marked, order, strokes, nicks: nicker(marked) });
  };
  stages.flats().forEach((flat, i) => {
    if (flat) entries.push(...entriesOf(flat, i));
    else entries.push(noFlat(tub, parts[i]));
  });
  for (const [i, clip] of stages.loosePieces().entries()) entries.push(...entriesOf(clip, parts.length + i));
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

/** Names of panels and bends are unique in a tub; those of clips are not. */
const panelKey = (flat: FlatPattern, name: string): string =>
  flat.part === undefined ? `panel:${flat.name}/${name}` : `panel:${name}`;
const bendKey = (flat: FlatPattern, name: string): string =>
  flat.part === undefined ? `bend:${flat.name}/${name}` : `bend:${name}`;

interface Laid {
  readonly flat: FlatPattern;
  readonly order: number;
  readonly strokes: readonly Stroke[];
  readonly nicks: readonly Nick[];
}

const flatEntries = (stages: Stages, laid: Laid): SceneEntry[] => {
  const { tub } = stages;
  const { flat } = laid;
  const part = partKey(flat);
  const parts = stages.parts();
  const at = flat.part === undefined ? undefined : partAt(tub, parts[flat.part]);
  return [
    { key: part, at, item: partItem(tub, laid, cutParts(stages).has(flat.part ?? -1)) },
    ...flat.panels.map((panel): SceneEntry => ({
      key: panelKey(flat, panel.name),
      at: panel.face === undefined ? at : tub.panels[panel.face].at,
      item: panelItem(flat, panel),
    })),
    ...flat.bends.map((bend, i): SceneEntry => ({
      key: bendKey(flat, bend.name),
      at: bend.bend === undefined ? at : stages.shape().bends[bend.bend].at,
      item: bendItem(part, bend, laid.strokes.find(({ bends }) => bends.includes(i))?.number, flat),
    })),
  ];
};

const panelItem = (flat: FlatPattern, { name, region }: FlatPattern['panels'][number]): SceneEntry['item'] => {
  const sides = region.map(({ x, y }, i) => {
    const next = region[(i + 1) % region.length];
    return inMm(distance2([x, y], [next.x, next.y]));
  });
  return {
    kind: 'flat-panel',
    part: partKey(flat),
    name,
    region: drawnContour(region),
    told: { what: `Panel ${name}`, facts: [`in part ${flat.name}`, `sides ${sides.join(', ')}`] },
  };
};

const partItem = (tub: Tub, { flat, order, nicks }: Laid, isCut: boolean): FlatPartItem => {
  const extent = extentOfContour(flat.outline);
  const { min, max } = extent;
  const groups = holeGroups(tub, flat);
  const sheet = tub.sheets[flat.sheet];
  const stock = stockWords(tub, sheet, max[0] - min[0], max[1] - min[1]);
  const cuts = `${flat.holes.length} inner ${flat.holes.length === 1 ? 'cut' : 'cuts'}`;
  const row = partRow(
    tub,
    flat,
    flat.panels.map(({ name }) => name),
    madeFor(tub, flat),
  );
  return {
    kind: 'flat-part',
    order,
    name: flat.name,
    side: sideUpOf(flat),
    sheet: sheetWords(sheet),
    quantity: flat.quantity,
    isCut,
    outline: drawnContour(flat.outline),
    holes: flat.holes.map((hole) => drawnContour(hole.contour)),
    marks: flat.marks.map((mark) => ({
      kind: mark.kind,
      points: mark.points.map(drawn2),
      closed: mark.closed,
      text: mark.text,
    })),
    letters: groups.flatMap(({ letter, holes }) => holes.map((hole) => ({ letter, hole }))),
    nicks: nicks.map(({ from, to }) => [drawn2(from), drawn2(to)] as const),
    facing: facingItem(flat),
    ordinates: [drawnOrdinates(ordinatesOf(flat, extent, 0)), drawnOrdinates(ordinatesOf(flat, extent, 1))],
    datum: 'left',
    box: [drawnLength(min[0]), drawnLength(min[1]), drawnLength(max[0]), drawnLength(max[1])],
    stock,
    told: {
      what: `Part ${flat.name}`,
      facts: [
        ...(isCut ? ['cut already'] : []),
        ...toFacts(PART_COLUMNS, row),
        cuts,
        ...groups.map(holeWords),
        ...(stock === undefined ? [] : [stock]),
      ],
    },
  };
};

const facingItem = (flat: FlatPattern): FlatPartItem['facing'] => {
  const panel = drawnRing(flat.panels[0].region);
  return {
    panel,
    at: insidePlace(panel),
    ways: facingOf(flat).map(({ name, towards: [x, y] }) => {
      const [dx, dy] = drawnUnit([x, y, 0]);
      return { name, towards: [dx, dy] as const };
    }),
  };
};

/** Along one axis: more are told by the drawing file. */
const MOST_ORDINATES = 40;

/** The weightiest of each value: of two that read alike one is enough. */
const drawnOrdinates = (all: readonly Ordinate[]): readonly DrawnOrdinate[] => {
  const seen = new Map<number, DrawnOrdinate>();
  for (const { value, reach, weight } of all) {
    const drawn = { value: drawnLength(value), reach: drawnLength(reach), weight: drawnNumber(weight) };
    const known = seen.get(drawn.value);
    if (!known || known.weight < drawn.weight) seen.set(drawn.value, drawn);
  }
  return [...seen.values()].sort((a, b) => b.weight - a.weight).slice(0, MOST_ORDINATES);
};

const sizeWords = (size: HoleGroup['size']): string => {
  if (size.kind === 'round') return `\u00d8 ${inMm(size.diameter)}`;
  if (size.kind === 'hexagon') return `${inMm(size.acrossFlats)} across flats`;
  return `${drawnLength(size.width)} \u00d7 ${inMm(size.height)}`;
};

/** `hole A: drain, Ø 52 mm`, as in the table of holes. */
const holeWords = ({ letter, name, size, holes }: HoleGroup): string => {
  return `${holes.length === 1 ? 'hole' : `${holes.length} holes`} ${letter}: ${name}, ${sizeWords(size)}`;
};

const bendItem = (part: string, bend: FlatBend, number: number | undefined, flat: FlatPattern): SceneEntry['item'] => ({
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
  angle: gaugeMark(bend.angle),
  number,
  length_mm: drawnLength(distance2(bend.start, bend.end)),
  told: {
    what: `Bend ${bend.name}`,
    facts: [
      ...(number === undefined ? [] : [`stroke ${number} of its part`]),
      gaugeWords(bend.angle, gaugedOn(flat, bend)),
      ...toFacts(FLAT_BEND_COLUMNS, flatBendRow(bend)),
    ],
  },
});

/** Words on the first stock sheet that takes the part's box square on, or on the largest when none does. */
const stockWords = (tub: Tub, sheet: Sheet, width: number, height: number): string | undefined => {
  const stocks = stockOf(shopOf(tub), sheet);
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
