/** Moves the pieces of a nest closer together than they were first laid: fewer sheets, then a shorter last one. */
import type { NestRoom } from '../../making/blanks.js';
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Vec2 } from '../../geometry/vec.js';
import { lengthOfContour } from '../../geometry/contour.js';
import { signedArea } from '../../geometry/polygon.js';
import { metalArea } from '../metal-area.js';
import type { NestSheet, Placement } from '../nest.js';
import { chanceFrom } from './chance.js';
import { keepPlaces, layNear, putBack } from './keep.js';
import { createLayout, put, type Layout } from './layout.js';
import { outerRings, partsOf } from './outlines.js';
import { shapesOf, type KnownTables, type Shape } from './shapes.js';
import { shorten, tryApart, type Work } from './shorten.js';
import { SAME_DIRECTION } from '../../geometry/tolerance.js';
import { NEST_SLACK } from '../../model/tolerance.js';

/** Rounds in vain before a sheet cannot be emptied into the others. */
const PATIENCE_TO_EMPTY = 80;

export interface Tightening {
  readonly sheets: readonly NestSheet[];
  readonly room: NestRoom;
  /** rad, how a piece may be turned besides as it lies. */
  readonly turns: (flat: FlatPattern) => readonly number[];
  /** Work that may be done, in places tried for a piece: about a microsecond each. */
  readonly tries: number;
  /** Of the stream of chance: another one, another nest. */
  readonly seed: number;
  readonly tables: KnownTables;
}

export interface Tightened {
  /** Places tried so far. */
  readonly tried: number;
  /** The best placements so far; `sheet` indexes the sheets given. Undefined: nothing better yet. */
  readonly best: readonly Moved[] | undefined;
}

export interface Moved extends Placement {
  readonly sheet: number;
}

/** Yields after each round; the same input gives the same nest, stopped wherever. */
export function* tighten(job: Tightening): Generator<Tightened, Tightened> {
  const placed = job.sheets.flatMap(({ placed }, sheet) => placed.map((placement) => ({ ...placement, sheet })));
  const start = job.room.margin - job.room.gap / 2;
  const layout = layoutOf(job, placed, start);
  let best: readonly Moved[] | undefined;
  const onBetter = (): void => {
    best = placed.map((_, i) => movedOf(placed, layout, i, start));
  };
  const budget = { left: job.tries };
  const working = tightenLayout({ layout, chance: chanceFrom(job.seed), budget, onBetter });
  const now = (): Tightened => ({ tried: job.tries - Math.max(0, budget.left), best });
  for (let step = working.next(); !step.done; step = working.next()) yield now();
  return now();
}

const movedOf = (placed: readonly Moved[], layout: Layout, i: number, start: number): Moved =>
  placed[i].isPinned
    ? placed[i]
    : {
        flat: placed[i].flat,
        copy: placed[i].copy,
        sheet: layout.bin[i],
        turn: layout.shapes.turned[layout.turned[i]].turn,
        offset: [layout.x[i] + start, layout.y[i] + start],
      };

const layoutOf = (job: Tightening, placed: readonly Moved[], start: number): Layout => {
  const rings = new Map<FlatPattern, Vec2[][]>();
  for (const { flat } of placed) if (!rings.has(flat)) rings.set(flat, outerRings(flat));
  const leastArea = Math.min(...[...rings.values()].map(([outer]) => signedArea(outer)));
  const shapes: Shape[] = [];
  const known = new Map<string, number>();
  const shapeOf = (flat: FlatPattern): number => {
    const own = placed.filter((p) => p.flat === flat).map(({ turn }) => turn);
    const turns = distinct([...own, ...job.turns(flat)]);
    const parts = partsOf(rings.get(flat) ?? [], leastArea);
    const key = JSON.stringify([turns, flat.outline, parts]);
    const area = metalArea(flat) + (lengthOfContour(flat.outline) * job.room.gap) / 2;
    const at = known.get(key) ?? shapes.push({ outline: flat.outline, parts, turns, area }) - 1;
    known.set(key, at);
    return at;
  };
  const shapeOfFlat = new Map([...rings.keys()].map((flat) => [flat, shapeOf(flat)]));
  const bins = job.sheets.map(({ size, isRemnant }) => ({
    length: size[0] - 2 * start,
    width: size[1] - 2 * start,
    isRemnant,
  }));
  const shape = placed.map(({ flat }) => shapeOfFlat.get(flat) ?? 0);
  const layout = createLayout(
    shapesOf(shapes, job.room.gap, NEST_SLACK * Math.max(...bins.map(({ width }) => width)), job.tables),
    shape,
    placed.map(({ isPinned }) => isPinned === true),
    bins,
  );
  placed.forEach(({ turn, offset, sheet, isPinned }, i) => {
    const turned = layout.shapes.starts[shape[i]] + shapes[shape[i]].turns.findIndex((t) => isSame(t, turn));
    put(layout, i, { turned, bin: sheet, x: offset[0] - start, y: offset[1] - start });
    if (isPinned) return;
    const { left, low, right, high } = layout;
    layNear(layout, i, sheet, (left[i] + right[i]) / 2, (low[i] + high[i]) / 2);
  });
  return layout;
};

const isSame = (a: number, b: number): boolean => Math.abs(a - b) < SAME_DIRECTION;
const distinct = (turns: readonly number[]): number[] =>
  turns.filter((turn, i) => turns.findIndex((other) => isSame(turn, other)) === i);

function* tightenLayout(work: Work): Generator<void, void> {
  const { layout, budget, onBetter } = work;
  // Round sides were told by other polygons when they were first laid.
  if (yield* tryApart(work)) return;
  onBetter();
  for (;;) {
    const open = layout.bins.map((_, bin) => bin).filter((bin) => layout.bin.includes(bin));
    const least = leastFull(layout, open);
    if (open.length > 1 && mayEmpty(layout, open, least) && (yield* empty(work, open, least))) continue;
    yield* shorten(work, least, Math.max(fixedReach(layout, least), open.length > 1 ? 0 : leastLength(layout, least)));
    if (budget.left <= 0 || layout.bin.includes(least)) return;
  }
}

/** Remnants stay as full as they are as long as whole sheets are open, and so do sheets on which pieces are pinned. */
const leastFull = (layout: Layout, open: readonly number[]): number => {
  const whole = open.filter((bin) => !layout.bins[bin].isRemnant);
  const loose = whole.filter((bin) => fixedReach(layout, bin) === 0);
  const from = [loose, whole, open].find((bins) => bins.length > 0) ?? open;
  return from.reduce((a, b) => (areaIn(layout, b) <= areaIn(layout, a) ? b : a));
};

/** As far as pieces that stay where they are reach in a bin; 0: there are none. */
const fixedReach = ({ bin, fixed, right, count }: Layout, target: number): number => {
  let reach = 0;
  for (let i = 0; i < count; i++) if (fixed[i] === 1 && bin[i] === target && right[i] > reach) reach = right[i];
  return reach;
};

const areaIn = ({ bin, count, shape, shapes }: Layout, target: number): number => {
  let sum = 0;
  for (let i = 0; i < count; i++) if (bin[i] === target) sum += shapes.areas[shape[i]];
  return sum;
};

const mayEmpty = (layout: Layout, open: readonly number[], least: number): boolean => {
  if (fixedReach(layout, least) > 0) return false;
  const others = open.filter((bin) => bin !== least);
  const room = others.reduce((sum, bin) => sum + layout.bins[bin].length * layout.bins[bin].width, 0);
  return open.reduce((sum, bin) => sum + areaIn(layout, bin), 0) < room;
};

/** True when all pieces of a bin found room in the others; else all is as before. */
function* empty(work: Work, open: readonly number[], target: number): Generator<void, boolean> {
  const { layout, chance, onBetter } = work;
  const before = keepPlaces(layout);
  const { length } = layout.bins[target];
  const others = open.filter((bin) => bin !== target);
  layout.bins[target].length = 0;
  let fits = true;
  for (let i = 0; i < layout.count && fits; i++) {
    if (layout.bin[i] !== target) continue;
    const first = chance.below(others.length);
    fits = others.some((_, k) => {
      const bin = others[(first + k) % others.length];
      const { length, width } = layout.bins[bin];
      return layNear(layout, i, bin, chance.next() * length, chance.next() * width);
    });
  }
  if (fits && !(yield* tryApart(work, PATIENCE_TO_EMPTY))) {
    onBetter();
    return true;
  }
  layout.bins[target].length = length;
  putBack(layout, before);
  return false;
}

/** No length below this can hold all pieces: their area over the width, and the shortest way of each. */
const leastLength = ({ shapes, shape, bins, count }: Layout, target: number): number => {
  const { width } = bins[target];
  let area = 0;
  let longest = 0;
  for (let i = 0; i < count; i++) {
    area += shapes.areas[shape[i]];
    const turns = shapes.turned.slice(shapes.starts[shape[i]], shapes.starts[shape[i] + 1]);
    const lengths = turns.filter(({ low, high }) => high - low <= width).map(({ left, right }) => right - left);
    longest = Math.max(longest, Math.min(...lengths));
  }
  return Math.max(longest, area / width);
};
