/** The pieces in every turn that is allowed, and how any two of them overlap. */
import { extentOfContour, mapContour, type Contour } from '../../geometry/contour.js';
import type { Vec2 } from '../../geometry/vec.js';
import { overlapTable } from './make-table.js';
import type { OverlapTable } from './overlap-table.js';
import { NOISE } from '../../geometry/tolerance.js';
import { createPairs, type Pair, type Pairs } from './pairs.js';

/** One outline, as convex parts in the coordinates of its flat that hold all of it, with the turns it may take, rad. */
export interface Shape {
  readonly outline: Contour;
  readonly parts: readonly (readonly Vec2[])[];
  readonly turns: readonly number[];
  /** mm2, with half the gap round about. */
  readonly area: number;
}

/** A shape in one of its turns; the box is that of the turned outline about its origin, with half the gap round about. */
export interface Turned {
  readonly shape: number;
  readonly turn: number;
  readonly left: number;
  readonly low: number;
  readonly right: number;
  readonly high: number;
}

export interface Shapes {
  readonly turned: readonly Turned[];
  /** For each shape, where its turns start in `turned`, and the end. */
  readonly starts: readonly number[];
  /** Of each shape, mm2. */
  readonly areas: readonly number[];
  /** How deep two of `turned` overlap. */
  readonly pairs: Pairs;
  /** mm: pieces nearer than this beyond the gap count as overlapping. */
  readonly slack: number;
  /** mm: pieces whose boxes are farther apart cannot overlap. */
  readonly reach: number;
}

/** Share of the gap by which the corners of what is grown by it stand out at most. */
const STANDS_OUT = 0.5;

/** Tables that were made, by what they are made of: strands one after the other make none twice. */
export interface KnownTables {
  readonly ids: Map<string, number>;
  readonly tables: Map<string, OverlapTable>;
}

export const noTables = (): KnownTables => ({ ids: new Map(), tables: new Map() });

const idIn = ({ ids }: KnownTables, text: string): number => {
  const id = ids.get(text) ?? ids.size;
  ids.set(text, id);
  return id;
};

export const shapesOf = (shapes: readonly Shape[], gap: number, slack: number, known: KnownTables): Shapes => {
  const starts = [0];
  const turned: Turned[] = [];
  shapes.forEach(({ outline, turns }, shape) => {
    for (const turn of turns) turned.push({ shape, turn, ...boxOf(outline, turn, gap / 2) });
    starts.push(turned.length);
  });
  const texts = shapes.map(({ parts }) => JSON.stringify([gap, slack, parts]));
  const ids = texts.map((text) => idIn(known, text));
  const tableOf = (a: Turned, b: Turned): OverlapTable => {
    const relative = settled(normal(b.turn - a.turn));
    const key = `${ids[a.shape]} ${ids[b.shape]} ${Math.round(relative / NOISE)}`;
    let table = known.tables.get(key);
    if (!table) {
      const other = shapes[b.shape].parts.map((part) => part.map((point) => turnedBy(point, relative)));
      known.tables.set(key, (table = overlapTable(shapes[a.shape].parts, other, gap, slack)));
    }
    return table;
  };
  const makePair = (i: number, k: number): Pair => {
    const [a, b] = [turned[i], turned[k]];
    return texts[a.shape] <= texts[b.shape]
      ? { table: tableOf(a, b), cos: Math.cos(a.turn), sin: Math.sin(a.turn) }
      : { table: tableOf(b, a), cos: -Math.cos(b.turn), sin: -Math.sin(b.turn) };
  };
  return {
    turned,
    starts,
    areas: shapes.map(({ area }) => area),
    slack,
    reach: slack + STANDS_OUT * gap,
    pairs: createPairs(turned.length, makePair),
  };
};

const normal = (turn: number): number => {
  const within = ((turn % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  return 2 * Math.PI - within < NOISE ? 0 : within;
};

/** One angle for all that are told as one, whichever comes first: a table then is the same whatever was made before. */
const settled = (angle: number): number => {
  const quarters = Math.round(angle / (Math.PI / 2)) * (Math.PI / 2);
  return Math.abs(angle - quarters) < NOISE ? quarters : Math.round(angle / NOISE) * NOISE;
};

const turnedBy = ([x, y]: Vec2, turn: number): Vec2 => {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return [x * cos - y * sin, x * sin + y * cos];
};

const boxOf = (outline: Contour, turn: number, more: number): Omit<Turned, 'shape' | 'turn'> => {
  const { min, max } = extentOfContour(mapContour(outline, (point) => turnedBy(point, turn)));
  return { left: min[0] - more, low: min[1] - more, right: max[0] + more, high: max[1] + more };
};
