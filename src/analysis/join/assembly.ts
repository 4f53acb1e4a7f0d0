/** In which order the parts go together, and which way each is moved into place. */
import { ROUND_OFF } from '../geometry/tolerance.js';
import { add, cross, dot, lengthOf, scale, unit, type Vec3 } from '../geometry/vec.js';
import type { Part } from '../fold/flat-pattern.js';
import { groupBy } from '../model/group-by.js';
import type { Joints } from './joints.js';
import type { RunJoint } from './seam-joint.js';
import type { SeamRun } from './seam/seam-runs.js';

export interface Assembly {
  /** Parts in order; the first is the one the others are brought to. */
  readonly steps: readonly AssemblyStep[];
  /** Pairs of parts that no straight move brings together. */
  readonly locks: readonly Lock[];
  /** What tabs and clips leave free. */
  readonly limits: readonly Limit[];
}

export interface AssemblyStep {
  readonly part: number;
  /** Direction in which it is moved into place; undefined for the first part and where nothing limits it. */
  readonly move: Vec3 | undefined;
  /** Parts already there that it is joined to. */
  readonly joins: readonly number[];
}

export interface Lock {
  readonly parts: readonly [number, number];
  /** Seams whose tabs or clips lock them. */
  readonly seams: readonly number[];
}

/** Directions in which a part may leave another: along `d` with every `normal . d >= 0`. */
export interface Limit {
  readonly part: number;
  readonly other: number;
  readonly seam: number;
  /** For moves of `part` away from `other`. */
  readonly normal: Vec3;
}

/**
 * Puts the parts together one by one, along the seams, starting with the part that has most runs.
 *
 * A row of tabs or clips holds the other panel on two sides: it cannot leave across the tabs (towards its own dry side) nor
 * down onto their root. A straight move must respect all rows at once: directions d with n . d >= 0 for every such side n; the
 * part is brought along -d. Where none is left the two parts lock. Seams without tabs limit nothing: their panels only touch.
 * Cost: O(n) in rows, times the square of the distinct directions between two parts.
 */
export const assemblyOf = (parts: readonly Part[], joints: Joints): Assembly => {
  const { partOf } = joints.paths;
  const runs = joints.seams.flatMap((joint) => joint.runs);
  const limits = runs.flatMap((run) => limitsOf(run, partOf));
  const links = linksOf(parts, runs, partOf);
  const steps: AssemblyStep[] = [];
  const locks: Lock[] = [];
  const placed = new Set<number>();
  const perPart = groupBy(limits, (limit) => limit.part);
  for (const first of startOrder(parts, links)) {
    if (placed.has(first)) continue;
    const queue = [first];
    placed.add(first);
    steps.push({ part: first, move: undefined, joins: [] });
    for (const at of queue) {
      for (const next of links[at]) {
        if (placed.has(next)) continue;
        const joins = [...links[next]].filter((other) => placed.has(other));
        const own = (perPart.get(next) ?? []).filter((limit) => placed.has(limit.other));
        const away = own.length > 0 ? freeDirection(own.map((limit) => limit.normal)) : undefined;
        if (own.length > 0 && !away) locks.push(...lockingPairs(next, joins, own));
        steps.push({ part: next, move: away && scale(away, -1), joins });
        placed.add(next);
        queue.push(next);
      }
    }
  }
  return { steps, locks, limits };
};

const limitsOf = ({ run, row }: RunJoint, partOf: (face: number) => number | undefined): readonly Limit[] => {
  if (!row || row.centres.length === 0) return [];
  const [carrier, held] = [run.sides[row.carrier], run.sides[1 - row.carrier]];
  const [part, other] = [partOf(held.face), partOf(carrier.face)];
  if (part === undefined || other === undefined || part === other) return [];
  return normalsOf(run, row.carrier, row.tabs.isLap === true).flatMap((normal): Limit[] => [
    { part, other, seam: run.seam, normal },
    { part: other, other: part, seam: run.seam, normal: scale(normal, -1) },
  ]);
};

/** The held panel stands on the tabs' root and against their legs: it may go into its own panel's direction, and to its wet side. */
const normalsOf = (run: SeamRun, carrier: 0 | 1, isLap: boolean): readonly Vec3[] => {
  const held = run.sides[1 - carrier];
  // The tabs lie on the face: it may only go away from them.
  if (run.footing !== undefined) return [scale(held.normal, -1)];
  return [held.inward, isLap || run.corner <= Math.PI ? held.normal : scale(held.normal, -1)];
};

const linksOf = (
  parts: readonly Part[],
  runs: readonly RunJoint[],
  partOf: (face: number) => number | undefined,
): readonly Set<number>[] => {
  const links = parts.map(() => new Set<number>());
  for (const { run } of runs) {
    const [a, b] = run.sides.map((side) => partOf(side.face));
    if (a === undefined || b === undefined || a === b) continue;
    links[a].add(b);
    links[b].add(a);
  }
  return links;
};

/** The part with most neighbours first, then the largest piece count, then by index. */
const startOrder = (parts: readonly Part[], links: readonly Set<number>[]): readonly number[] =>
  parts
    .map((part) => part.index)
    .sort((a, b) => links[b].size - links[a].size || parts[b].faces.length - parts[a].faces.length || a - b);

const lockingPairs = (part: number, joins: readonly number[], limits: readonly Limit[]): readonly Lock[] => {
  const alone = joins.filter((other) => !freeDirection(limits.filter((l) => l.other === other).map((l) => l.normal)));
  const named = alone.length > 0 ? alone : joins;
  return named.map((other) => ({
    parts: [other, part],
    seams: [...new Set(limits.filter((limit) => limit.other === other).map((limit) => limit.seam))],
  }));
};

/**
 * A unit direction d with n . d >= 0 for all, the one that leaves most room; undefined when there is none.
 *
 * If any exists, then one along the mean of the normals, square to two of them, or square to one.
 */
export const freeDirection = (normals: readonly Vec3[]): Vec3 | undefined => {
  const distinct = distinctOf(normals);
  if (distinct.length === 0) return undefined;
  let [best, room] = [undefined as Vec3 | undefined, -ROUND_OFF];
  const consider = (candidate: Vec3): void => {
    if (lengthOf(candidate) < ROUND_OFF) return;
    const direction = unit(candidate);
    let [least, most] = [Infinity, -Infinity];
    for (const n of distinct) {
      const share = dot(n, direction);
      least = Math.min(least, share);
      most = Math.max(most, share);
    }
    if (least > room) [best, room] = [direction, least];
    if (-most > room) [best, room] = [scale(direction, -1), -most];
  };
  consider(unit(distinct.reduce<Vec3>(add, [0, 0, 0])));
  distinct.forEach(consider);
  distinct.forEach((a, i) => {
    for (let j = i + 1; j < distinct.length; j++) consider(cross(a, distinct[j]));
  });
  for (const axis of AXES) consider(cross(distinct[0], axis));
  return best;
};

const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** Directions that differ by more than a ten-thousandth: nearer ones count as one. */
const distinctOf = (normals: readonly Vec3[]): readonly Vec3[] => {
  const distinct: Vec3[] = [];
  const seen = new Set<string>();
  for (const normal of normals) {
    const key = `${tenThousandths(normal[0])} ${tenThousandths(normal[1])} ${tenThousandths(normal[2])}`;
    if (seen.has(key)) continue;
    seen.add(key);
    distinct.push(normal);
  }
  return distinct;
};

const tenThousandths = (share: number): number => Math.round(share * 1e4);
