import type { FlowNet } from '../flow-net.js';

type Pair = readonly [number, number];

/** Water on its way over a triangle: a span across the fall, with the density (mm3/s per mm) at both of its ends. */
export interface Span {
  readonly side: Pair;
  readonly density: Pair;
}

/** A part of a span that goes out over one edge. */
export interface Outgoing extends Span {
  readonly edge: number;
  /** Part of the edge, 0 at its point `a`. */
  readonly u: Pair;
  /** Flux per unit of `u` at both ends of that part. */
  readonly flux: Pair;
  /** Where along the fall the span's ends leave the triangle. */
  readonly exit: Pair;
}

/** A linear value over [from, to]. */
const linear = (at: number, [from, to]: Pair, [first, last]: Pair): number =>
  to > from ? first + ((last - first) * (at - from)) / (to - from) : first;

/** Splits a span over the sides by which it leaves a triangle; together they carry all of it. */
export const outgoing = (net: FlowNet, t: number, { side, density }: Span): readonly Outgoing[] => {
  const { edges, corners } = net.surface.triangle(t);
  const found: Outgoing[] = [];
  for (let i = 0; i < 3; i++) {
    const j = (i + 1) % 3;
    const reach: Pair = [net.side[3 * t + i], net.side[3 * t + j]];
    const part: Pair = [Math.max(side[0], reach[0]), Math.min(side[1], reach[1])];
    if (reach[1] <= reach[0] || part[1] <= part[0]) continue;
    const wide = reach[1] - reach[0];
    const own: Pair = [linear(part[0], side, density), linear(part[1], side, density)];
    const w: Pair = [(part[0] - reach[0]) / wide, (part[1] - reach[0]) / wide];
    const downs: Pair = [net.down[3 * t + i], net.down[3 * t + j]];
    const forward = net.surface.edge(edges[i]).a === corners[i];
    found.push({
      edge: edges[i],
      side: part,
      density: own,
      u: forward ? w : [1 - w[1], 1 - w[0]],
      flux: forward ? [own[0] * wide, own[1] * wide] : [own[1] * wide, own[0] * wide],
      exit: [linear(part[0], reach, downs), linear(part[1], reach, downs)],
    });
  }
  return found;
};

/** What comes in over part `u` of an edge, as a span of the triangle, and where along its fall each end comes in. */
export const incoming = (
  net: FlowNet,
  t: number,
  edge: number,
  u: Pair,
  flux: Pair,
): { readonly span: Span; readonly entry: Pair } => {
  const { edges, corners } = net.surface.triangle(t);
  const i = edges.indexOf(edge);
  const j = (i + 1) % 3;
  const forward = net.surface.edge(edge).a === corners[i];
  const [s0, s1] = [net.side[3 * t + i], net.side[3 * t + j]];
  const [d0, d1] = [net.down[3 * t + i], net.down[3 * t + j]];
  const at = (which: 0 | 1): { s: number; d: number; f: number } => {
    const w = forward ? u[which] : 1 - u[which];
    return { s: s0 + (s1 - s0) * w, d: d0 + (d1 - d0) * w, f: flux[which] / Math.abs(s1 - s0) };
  };
  const [low, high] = at(0).s <= at(1).s ? [at(0), at(1)] : [at(1), at(0)];
  return { span: { side: [low.s, high.s], density: [low.f, high.f] }, entry: [low.d, high.d] };
};

/** How far the fall runs over a triangle at the lowest, middle and highest place across it: 0, the longest, 0. */
export const runsOver = (
  net: FlowNet,
  t: number,
): { readonly sides: readonly [number, number, number]; readonly longest: number } => {
  const [low, middle, high] = [0, 1, 2]
    .map((i) => ({ s: net.side[3 * t + i], d: net.down[3 * t + i] }))
    .sort((p, q) => p.s - q.s);
  const across = linear(middle.s, [low.s, high.s], [low.d, high.d]);
  return { sides: [low.s, middle.s, high.s], longest: Math.abs(middle.d - across) };
};

/** Value at `at` of what runs linearly from one end of a span to the other. */
export const alongSpan = linear;

/** The side by which the line of fall at `s` leaves a triangle, and where; undefined on a triangle without fall. */
export const exitOf = (
  net: FlowNet,
  t: number,
  s: number,
): { readonly side: number; readonly w: number; readonly down: number } | undefined => {
  let best: { readonly side: number; readonly w: number; readonly down: number; readonly off: number } | undefined;
  for (let side = 0; side < 3; side++) {
    const [i, j] = [3 * t + side, 3 * t + ((side + 1) % 3)];
    const [s0, s1] = [net.side[i], net.side[j]];
    if (s1 <= s0) continue;
    const off = Math.max(s0 - s, s - s1, 0);
    const w = Math.min(1, Math.max(0, (s - s0) / (s1 - s0)));
    if (!best || off < best.off) best = { side, w, off, down: net.down[i] + (net.down[j] - net.down[i]) * w };
  }
  return best;
};

/** mm2. */
export const areaOf = (net: FlowNet, t: number): number => {
  const [a, b, c] = net.surface.triangle(t).plane;
  return Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2;
};
