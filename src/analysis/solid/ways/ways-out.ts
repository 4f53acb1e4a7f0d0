/** How things come out of their place, past all that stays: one or two straight moves, swept. */
import { keepBy } from '../../cache/memo.js';
import { SAME_TURN } from '../../geometry/tolerance.js';
import { dot, scale, type Vec3 } from '../../geometry/vec.js';
import type { FaceIndex, Shape } from '../../shape/shape.js';
import type { Piece } from '../room/body-pieces.js';
import { boundsOf, type Body } from '../bodies/prisms.js';
import type { Mover } from './movers.js';
import { HEADINGS, Pairs, SLIDES_BY, type Blocked, type Move } from './pairs.js';

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
  return { moves: [], blocked: leastBlocked(pairs, tried, ways) };
};

/** Of all ways, and all pairs of ways, that which needs the least. */
const leastBlocked = (pairs: Pairs, tried: readonly Tried[], ways: readonly Vec3[]): Blocked => {
  let [least] = tried.map(({ blocked }) => blocked!).sort((a, b) => a.depth - b.depth);
  for (const { way, blocked } of tried) {
    if (blocked!.reach <= SLIDES_BY) continue;
    for (const then of ways) {
      if (Math.abs(dot(way, then)) > 1 - SAME_TURN) continue;
      least = pairs.shortBefore(way, blocked!.reach, then, least.depth) ?? least;
    }
  }
  return least;
};

/** Does nothing of some metal stand in a way that was found past other metal? */
const isFree = (own: readonly Piece[], staying: readonly Piece[], [first, then]: readonly Move[]): boolean => {
  if (!first) return false;
  const pairs = new Pairs(own, staying);
  const blocked = pairs.blockedAlong(first.way);
  if (!then) return !blocked;
  return (!blocked || blocked.reach >= first.by!) && pairs.isFreeFrom(first, then.way);
};
