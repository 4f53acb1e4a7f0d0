/** How things come out of their place, past all that stays: one or two straight moves, swept. */
import { keepBy } from '../../cache/memo.js';
import { NO_AXIS, ROUND_OFF, SAME_TURN } from '../../geometry/tolerance.js';
import { cross, dot, lengthOf, scale, type Vec3 } from '../../geometry/vec.js';
import type { FaceIndex, Shape } from '../../shape/shape.js';
import type { Piece } from '../body-pieces.js';
import { boundsOf, boxedPrisms, depthOf, spanOf, type Body, type Box, type Prism } from '../prisms.js';
import type { Mover } from './movers.js';
import { windowOf, type Window } from './window.js';

/** One straight move of a way out; `by` mm, undefined: as far as one likes. */
export interface Move {
  readonly way: Vec3;
  readonly by: number | undefined;
}

/** What is met where a thing gets out of the way least badly. */
export interface Blocked {
  readonly way: Vec3;
  /** mm until it is met. */
  readonly reach: number;
  /** mm that the thing would have to stand to one side to get past all that it meets there. */
  readonly depth: number;
  /** What is met first. */
  readonly by: Obstacle;
}

/** A panel, or a thing of another file (into `Tub.things`). */
export type Obstacle = Pick<Piece, 'face' | 'thing'>;

export interface WayOut {
  /** The middle of the box around it, mm. */
  readonly middle: Vec3;
  /** Longest side of that box, mm. */
  readonly size: number;
  readonly mover: Mover;
  /** None: no way out was found, and `blocked` says what is met. The way in is the same backwards. */
  readonly moves: readonly Move[];
  readonly blocked: Blocked | undefined;
  /** Indices into the movers of what has to be out before. */
  readonly after: readonly number[];
}

/** mm. Metal that has less in common with what it slides by gives way; arcs are taken as chords half as close. Common practice, no source. */
const SLIDES_BY = 0.1;

/** mm. A first move goes on by as much past what was in the way, where there is room for it. */
const SPARE = 2;

/** Directions that are tried: more are none that anybody would think of. */
const MOST_WAYS = 24;

/**
 * Of each mover, in its order. What finds no way past all else is tried again past what is left when those that do are out. Exact for
 * flat metal and closed things; rounds as chords that stray at most 0.05 mm. Cost: for each way tried the pieces whose boxes the
 * swept ones meet; pairs of ways only where no single one is free.
 */
export const waysOutOf = (
  shape: Shape,
  movers: readonly Mover[],
  piecesOf: readonly (readonly Piece[])[],
  others: readonly Piece[],
): readonly WayOut[] => {
  const found = new Map<number, WayOut>();
  for (;;) {
    const out = [...found.keys()].filter((i) => found.get(i)!.moves.length > 0);
    const before = out.length;
    movers.forEach((mover, i) => {
      if (out.includes(i)) return;
      const staying = [...others, ...piecesOf.flatMap((own, k) => (k === i || out.includes(k) ? [] : own))];
      const way = wayOutFor(shape, mover, piecesOf[i], staying);
      found.set(i, {
        mover,
        ...extentOf(piecesOf[i]),
        ...way,
        after: out.filter((k) => !isFree(piecesOf[i], piecesOf[k], way.moves)),
      });
    });
    const after = [...found.values()].filter(({ moves }) => moves.length > 0).length;
    if (after === before || after === movers.length) return movers.map((_, i) => found.get(i)!);
  }
};

const extentOf = (pieces: readonly Piece[]): Pick<WayOut, 'middle' | 'size'> => {
  if (pieces.length === 0) return { middle: [0, 0, 0], size: 0 };
  const { low, high } = boundsOf(pieces.flatMap(({ body }) => [body.low, body.high]));
  const middle = [0, 1, 2].map((k) => (low[k] + high[k]) / 2) as unknown as Vec3;
  return { middle, size: Math.max(...[0, 1, 2].map((k) => high[k] - low[k])) };
};

type Found = Pick<WayOut, 'moves' | 'blocked'>;

const foundFor = keepBy<Body, Found>();

const FREE: Found = { moves: [{ way: [0, 0, 1], by: undefined }], blocked: undefined };

const wayOutFor = (shape: Shape, mover: Mover, own: readonly Piece[], staying: readonly Piece[]): Found => {
  if (own.length === 0) return FREE;
  const normalsOf = (faces: readonly FaceIndex[]): readonly Vec3[] =>
    [...new Set(faces)].flatMap((face) => bothWays(shape.faces[face].frame.normal));
  const ownNormals = normalsOf(own.flatMap(({ face }) => face ?? []));
  // What is screwed on comes straight off first.
  const straight = normalsOf(mover.seats);
  const ways = waysToTry(
    mover.kind === 'bolted' ? [...straight, ...HEADINGS, ...ownNormals] : [...HEADINGS, ...straight, ...ownNormals],
  );
  const inputs = [own.length, ...[...own, ...staying].map(({ body }) => body), ...ways.flat()];
  return foundFor(own[0].body, inputs, () => search(own, staying, ways));
};

const UP: Vec3 = [0, 0, 1];
const HEADINGS: readonly Vec3[] = [UP, [0, -1, 0], [-1, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, -1]];

const bothWays = (way: Vec3): readonly Vec3[] => [way, scale(way, -1)];

/** Each once. */
const waysToTry = (candidates: readonly Vec3[]): readonly Vec3[] => {
  const ways: Vec3[] = [];
  for (const way of candidates) {
    if (ways.length >= MOST_WAYS) break;
    if (!ways.some((known) => dot(known, way) > 1 - SAME_TURN)) ways.push(way);
  }
  return ways;
};

interface Tried {
  readonly way: Vec3;
  readonly blocked: Blocked | undefined;
}

const search = (own: readonly Piece[], staying: readonly Piece[], ways: readonly Vec3[]): Found => {
  const pairs = new Pairs(own, staying);
  const tried: Tried[] = [];
  for (const way of ways) {
    const blocked = pairs.blockedAlong(way);
    if (!blocked) return { moves: [{ way, by: undefined }], blocked: undefined };
    tried.push({ way, blocked });
  }
  for (const { way, blocked } of tried) {
    if (blocked!.reach <= SLIDES_BY) continue;
    for (const then of ways) {
      if (Math.abs(dot(way, then)) > 1 - SAME_TURN) continue;
      const by = pairs.turnsAfter(way, blocked!.reach, then);
      if (by !== undefined)
        return {
          moves: [
            { way, by },
            { way: then, by: undefined },
          ],
          blocked: undefined,
        };
    }
  }
  const least = tried.reduce((best, each) => (each.blocked!.depth < best.blocked!.depth ? each : best));
  return { moves: [], blocked: least.blocked };
};

/** Does nothing of some metal stand in a way that was found past other metal? */
const isFree = (own: readonly Piece[], staying: readonly Piece[], [first, then]: readonly Move[]): boolean => {
  if (!first) return false;
  const pairs = new Pairs(own, staying);
  const blocked = pairs.blockedAlong(first.way);
  if (!then) return !blocked;
  return (!blocked || blocked.reach >= first.by!) && pairs.isFreeFrom(first, then.way);
};

interface Hit {
  readonly p: Prism;
  readonly q: Prism;
  readonly reach: number;
  readonly still: Piece;
}

/** Least that the thing would have to stand to one side, square to its way, to go past all that it meets. */
const sidewaysDepth = (hit: readonly Hit[], { p, q }: Hit, way: Vec3): number => {
  const axes = [...HEADINGS, ...p.edges, ...q.edges].map((edge) => cross(edge, way)).filter((axis) => lengthOf(axis) > NO_AXIS); // prettier-ignore
  return axes.reduce((least, axis) => {
    const along = scale(axis, 1 / lengthOf(axis));
    let [onwards, back] = [0, 0];
    for (const each of hit) {
      const [a, b] = [spanOf(along, each.p.corners), spanOf(along, each.q.corners)];
      onwards = Math.max(onwards, b[1] - a[0]);
      back = Math.max(back, a[1] - b[0]);
    }
    return Math.min(least, onwards, back);
  }, Infinity);
};

/** Every piece that moves against every one that stays. */
class Pairs {
  private readonly atHome = new Map<Piece, Map<Piece, number>>();

  constructor(
    private readonly own: readonly Piece[],
    private readonly staying: readonly Piece[],
  ) {}

  /** What is met on a way without end: the first of it, and how much of all is in the way; undefined: nothing. */
  blockedAlong(way: Vec3): Blocked | undefined {
    const hit: Hit[] = [];
    this.each(way, undefined, Infinity, (p, q, clear, still) => {
      const window = windowOf(p, q, way, clear);
      if (window && window[1] > ROUND_OFF) hit.push({ p, q, reach: Math.max(0, window[0]), still });
      return true;
    });
    if (hit.length === 0) return undefined;
    const first = hit.reduce((soonest, each) => (each.reach < soonest.reach ? each : soonest));
    const { face, thing } = first.still;
    const touches = windowOf(first.p, first.q, way, 0)?.[0] ?? first.reach;
    return { way, reach: Math.max(0, touches), depth: sidewaysDepth(hit, first, way), by: { face, thing } };
  }

  /** How far to go one way, at most `reach`, so that another is free from there; undefined: nowhere. */
  turnsAfter(way: Vec3, reach: number, then: Vec3): number | undefined {
    const windows: Window[] = [];
    const isOpen = this.each(way, then, reach, (p, q, clear) => {
      const window = windowOf(p, q, way, clear, then);
      if (window && window[1] > 0 && window[0] < reach) windows.push(window);
      return !window || window[0] > 0 || window[1] < reach;
    });
    if (!isOpen) return undefined;
    let at = 0;
    for (const [from, to] of windows.sort((a, b) => a[0] - b[0])) {
      if (from > at) return at + Math.min(SPARE, (from - at) / 2);
      at = Math.max(at, to);
      if (at >= reach) return undefined;
    }
    return at + Math.min(SPARE, (reach - at) / 2);
  }

  /** Is a way free once a first move is made? */
  isFreeFrom({ way, by }: Move, then: Vec3): boolean {
    return this.each(way, then, by!, (p, q, clear) => {
      const window = windowOf(p, q, way, clear, then);
      return !window || window[0] >= by! || window[1] <= by!;
    });
  }

  /** Calls for all pairs of prisms whose boxes could meet, until one call says no. */
  private each(
    way: Vec3,
    then: Vec3 | undefined,
    reach: number,
    call: (p: Prism, q: Prism, clear: number, still: Piece) => boolean,
  ): boolean {
    for (const moving of this.own) {
      const swept = sweptBox(moving.body, way, then, reach);
      for (const still of this.staying) {
        if (!boxesMeet(swept, still.body)) continue;
        const clear = SLIDES_BY + this.sharedAtHome(moving, still);
        for (const p of boxedPrisms(moving.body)) {
          const path = sweptBox(p, way, then, reach);
          if (!boxesMeet(path, still.body)) continue;
          for (const q of boxedPrisms(still.body)) if (boxesMeet(path, q) && !call(p, q, clear, still)) return false;
        }
      }
    }
    return true;
  }

  /** What takes the same room in place may do so all the way. */
  private sharedAtHome(moving: Piece, still: Piece): number {
    let known = this.atHome.get(moving);
    if (!known) this.atHome.set(moving, (known = new Map()));
    let most = known.get(still);
    if (most === undefined) {
      most = 0;
      if (boxesMeet(moving.body, still.body))
        for (const p of boxedPrisms(moving.body))
          for (const q of boxedPrisms(still.body)) if (boxesMeet(p, q)) most = Math.max(most, depthOf(p, q, most));
      known.set(still, most);
    }
    return most;
  }
}

const boxesMeet = (a: Box, b: Box): boolean => [0, 1, 2].every((k) => a.low[k] <= b.high[k] && a.high[k] >= b.low[k]);

/** All that a box goes through: `reach` mm one way, then another without end. */
const sweptBox = ({ low, high }: Box, way: Vec3, then: Vec3 | undefined, reach: number): Box => {
  const grown = (from: Vec3, side: -1 | 1): Vec3 =>
    from.map((at, k) => {
      if (then && side * then[k] > ROUND_OFF) return side * Infinity;
      const ahead = side * way[k];
      return ahead > ROUND_OFF ? at + side * ahead * reach : at;
    }) as unknown as Vec3;
  return { low: grown(low, -1), high: grown(high, 1) };
};
