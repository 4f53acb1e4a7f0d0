/** The strokes that a flat pattern needs: bends on one line are pressed together. Lengths mm, angles rad. */
import { SAME_TURN } from '../../geometry/tolerance.js';
import type { FlatBend, FlatPattern } from '../../fold/flat-pattern.js';
import { addScaled2, dot2, left2, subtract2, unit2, type Vec2 } from '../../geometry/vec.js';
import { SAME_LINE } from '../../model/tolerance.js';
import { towardsChildOf } from '../leg-run.js';

/** A set of operations, one bit each. */
export type OperationSet = bigint;

export interface Operation {
  readonly index: number;
  /** Bends of the flat, in their order. */
  readonly bends: readonly number[];
  /** It is made already: what was read of one bend holds for the stroke. */
  readonly isMade: boolean;
  /** Which face of the flat looks up at the brake: an `up` bend is made dry side up, a `down` bend wet side up. */
  readonly direction: FlatBend['direction'];
  readonly angle: number;
  readonly radius: number;
  readonly kFactor: number;
  readonly allowance: number;
  readonly line: BendLine;
  /** Panels and operations on the parents' side and on the children's side. */
  readonly sides: readonly [OperationSide, OperationSide];
}

/** The bend line on the flat: the middle of the bend zone. */
export interface BendLine {
  readonly origin: Vec2;
  readonly along: Vec2;
  /** Unit, square to the line, towards the child. */
  readonly away: Vec2;
  /** Stations of the first and the last end of a bend on it, along the line from the origin. */
  readonly length: number;
  /** Of the single bends together: the length less the gaps between them. */
  readonly bent: number;
  /** Station intervals of the single bends. */
  readonly spans: readonly (readonly [number, number])[];
}

export interface OperationSide {
  /** Panels that the bend zone ends at. */
  readonly roots: readonly number[];
  readonly operations: OperationSet;
}

/**
 * Groups bends into strokes: same line, same panel behind it, same direction, angle and radius.
 * Order: by first bend of the flat. Cost O(n log n); the sides are found in O(n) per stroke.
 */
export const operationsOf = (flat: FlatPattern): readonly Operation[] => {
  const groups: number[][] = [];
  const known = new Map<string, number[][]>();
  flat.bends.forEach((bend, i) => {
    const key = `${bend.parent}|${bend.direction}`;
    const candidates = known.get(key) ?? [];
    const group = candidates.find((members) => isSameStroke(flat, flat.bends[members[0]], bend));
    if (group) {
      group.push(i);
      return;
    }
    const fresh = [i];
    groups.push(fresh);
    known.set(key, [...candidates, fresh]);
  });
  const operationOf = new Map(groups.flatMap((bends, index) => bends.map((bend) => [bend, index] as const)));
  const tree = neighboursOf(flat);
  return groups.map((bends, index) => {
    const first = flat.bends[bends[0]];
    return {
      index,
      isMade: bends.some((bend) => flat.bends[bend].isMade),
      bends,
      direction: first.direction,
      angle: first.angle,
      radius: first.radius,
      kFactor: first.kFactor,
      allowance: first.allowance,
      line: lineOf(flat, bends),
      sides: [0, 1].map((side) =>
        sideOfTree(flat, tree, bends, side as 0 | 1, operationOf),
      ) as unknown as Operation['sides'],
    };
  });
};

const isSameStroke = (flat: FlatPattern, a: FlatBend, b: FlatBend): boolean => {
  const along = unit2(subtract2(a.end, a.start));
  const offLine = (p: Vec2): number => Math.abs(dot2(subtract2(p, a.start), left2(along)));
  const childSide = (bend: FlatBend): number => Math.sign(towardsChildOf(flat, bend, left2(along)));
  return (
    Math.abs(a.angle - b.angle) < SAME_TURN &&
    Math.abs(a.radius - b.radius) < SAME_LINE &&
    Math.abs(a.kFactor - b.kFactor) < SAME_TURN &&
    offLine(b.start) < SAME_LINE &&
    offLine(b.end) < SAME_LINE &&
    childSide(a) === childSide(b)
  );
};

const lineOf = (flat: FlatPattern, bends: readonly number[]): BendLine => {
  const first = flat.bends[bends[0]];
  const along = unit2(subtract2(first.end, first.start));
  const across = left2(along);
  const away: Vec2 = towardsChildOf(flat, first, across) >= 0 ? across : [-across[0], -across[1]];
  const spans = bends.map((i): readonly [number, number] => {
    const ends = [flat.bends[i].start, flat.bends[i].end].map((p) => dot2(subtract2(p, first.start), along));
    return [Math.min(...ends), Math.max(...ends)];
  });
  const from = Math.min(...spans.map(([a]) => a));
  const to = Math.max(...spans.map(([, b]) => b));
  return {
    origin: addScaled2(first.start, along, from),
    along,
    away,
    length: to - from,
    bent: spans.reduce((sum, [a, b]) => sum + b - a, 0),
    spans: spans.map(([a, b]): readonly [number, number] => [a - from, b - from]).sort((a, b) => a[0] - b[0]),
  };
};

/** Per panel, the bends that end at it. */
export const neighboursOf = (flat: FlatPattern): readonly (readonly number[])[] => {
  const at: number[][] = flat.panels.map(() => []);
  flat.bends.forEach((bend, i) => {
    at[bend.parent].push(i);
    at[bend.child].push(i);
  });
  return at;
};

const sideOfTree = (
  flat: FlatPattern,
  tree: readonly (readonly number[])[],
  bends: readonly number[],
  side: 0 | 1,
  operationOf: ReadonlyMap<number, number>,
): OperationSide => {
  const roots = [...new Set(bends.map((i) => (side === 0 ? flat.bends[i].parent : flat.bends[i].child)))];
  const cut = new Set(bends);
  const seen = new Set(roots);
  const stack = [...roots];
  let operations = 0n;
  for (let panel = stack.pop(); panel !== undefined; panel = stack.pop()) {
    for (const i of tree[panel]) {
      if (cut.has(i)) continue;
      operations |= 1n << BigInt(operationOf.get(i)!);
      const next = flat.bends[i].parent === panel ? flat.bends[i].child : flat.bends[i].parent;
      if (seen.has(next)) continue;
      seen.add(next);
      stack.push(next);
    }
  }
  return { roots, operations };
};
