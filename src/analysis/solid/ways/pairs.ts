/** A thing that moves beside all that stays: what it meets on straight moves. */
import { NO_AXIS, ROUND_OFF } from '../../geometry/tolerance.js';
import { cross, lengthOf, scale, type Vec3 } from '../../geometry/vec.js';
import type { Piece } from '../room/body-pieces.js';
import { boxedPrisms, depthOf, spanOf, type Box, type Prism } from '../bodies/prisms.js';
import { windowOf, type Window } from '../room/window.js';

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
  /** The second way, that it cannot go on from there. */
  readonly then?: Vec3;
  /** mm that the thing would have to stand to one side to get past all that it meets there; with `then`, that it would have to get farther first. */
  readonly depth: number;
  /** What is met first. */
  readonly by: Obstacle;
}

/** A panel, or a thing of another file (into `Tub.things`). */
export type Obstacle = Pick<Piece, 'face' | 'thing'>;

/** mm. Metal that has less in common with what it slides by gives way; arcs are taken as chords half as close. Common practice, no source. */
export const SLIDES_BY = 0.1;

/** mm. A first move goes on by as much past what was in the way, where there is room for it. */
const SPARE = 2;

const UP: Vec3 = [0, 0, 1];
export const HEADINGS: readonly Vec3[] = [UP, [0, -1, 0], [-1, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, -1]];

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
export class Pairs {
  private readonly atHome = new Map<Piece, Map<Piece, number>>();

  constructor(
    private readonly own: readonly Piece[],
    private readonly staying: readonly Piece[],
  ) {}

  /** What is met on a way without end: the first of it, and how much of all is in the way; undefined: nothing. */
  blockedAlong(way: Vec3): Blocked | undefined {
    const hit = this.hitAlong(way);
    if (hit.length === 0) return undefined;
    const first = hit.reduce((soonest, each) => (each.reach < soonest.reach ? each : soonest));
    const { face, thing } = first.still;
    const touches = windowOf(first.p, first.q, way, 0)?.[0] ?? first.reach;
    return { way, reach: Math.max(0, touches), depth: sidewaysDepth(hit, first, way), by: { face, thing } };
  }

  private hitAlong(way: Vec3): readonly Hit[] {
    const hit: Hit[] = [];
    this.each(way, undefined, Infinity, (p, q, clear, still) => {
      const window = windowOf(p, q, way, clear);
      if (window && window[1] > ROUND_OFF) hit.push({ p, q, reach: Math.max(0, window[0]), still });
      return true;
    });
    return hit;
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

  /** What, beside all that ends a first way, keeps another from being free there, where that would take less than `most` mm more of the first. */
  shortBefore(way: Vec3, reach: number, then: Vec3, most: number): Blocked | undefined {
    const ending = new Set(this.hitAlong(way).map(({ still }) => still));
    const windows: { readonly from: number; readonly to: number; readonly still: Piece }[] = [];
    this.each(way, then, reach + most, (p, q, clear, still) => {
      const window = ending.has(still) ? undefined : windowOf(p, q, way, clear, then);
      if (window && window[1] > reach && window[0] < reach + most)
        windows.push({ from: window[0], to: window[1], still });
      return true;
    });
    let at = reach;
    let last: Piece | undefined;
    for (const { from, to, still } of windows.sort((a, b) => a.from - b.from)) {
      if (from > at) break;
      if (to <= at) continue;
      [at, last] = [to, still];
      if (at >= reach + most) return undefined;
    }
    return last && { way, reach, then, depth: at - reach, by: { face: last.face, thing: last.thing } };
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
