/** Water that goes on from where it stands: over crests, through openings, into outlets. */
import { beginAt } from '../flow/route/run-thread.js';
import { isHole, takesFrom, type FlowNet } from '../flow/flow-net.js';
import { fallAlong } from '../flow/route/leave-edge.js';
import { runFilm } from '../flow/route/run-film.js';
import { toNode, type Routing } from '../flow/route/routing.js';
import { listOf } from '../surface/mesh.js';
import { overCrest } from './crest-law.js';
import type { Crest, CrestLine } from './crests.js';
import type { Mouth, Passage } from './mouths.js';
import type { Regions } from './regions.js';

export interface SpillSite {
  readonly net: FlowNet;
  readonly regions: Regions;
}

/** mm. Head for which the water is laid along a crest before its level is known. */
const FIRST_HEAD = 1;

export const bottomOf = ({ from, to }: Pick<Crest, 'from' | 'to'>): number => Math.min(from, to);

/** Levels on both sides of a way, the higher first; undefined: not known yet, it runs low and freely. */
type Levels = readonly [high: number, low: number] | undefined;

/** Lets a flow go over a crest line, from its first hollow to its second or (end 1) back. */
export const spillOver = (
  state: Routing,
  site: SpillSite,
  { between, crests }: CrestLine,
  { end, flux, levels }: { readonly end: 0 | 1; readonly flux: number; readonly levels: Levels },
): void => {
  const [high, low] = levels ?? [Math.min(...crests.map(bottomOf)) + FIRST_HEAD, -Infinity];
  const parts = crests.map((crest) => overCrest(crest, high, low));
  const all = parts.reduce((sum, part) => sum + part, 0);
  const to = between[end === 0 ? 1 : 0];
  crests.forEach((crest, i) => {
    const part = (flux * parts[i]) / all;
    if (!(part > 0)) return;
    const onto = crest.beside[end === 0 ? 1 : 0];
    if (onto === undefined) return fallAlong(state, crest.edge, [0, 1], [part, part]);
    if (to >= 0 && low > bottomOf(crest)) return intoNode(state, site, to, part);
    launch(state, site, { edge: crest.edge, onto, to, flux: part });
  });
};

/** Lets a flow go through an opening of a divider. */
export const spillThrough = (
  state: Routing,
  site: SpillSite,
  { between, bottom, sides }: Passage,
  { end, flux, levels }: { readonly end: 0 | 1; readonly flux: number; readonly levels: Levels },
): void => {
  const side = end === 0 ? 1 : 0;
  if (between[side] >= 0 && levels && levels[1] > bottom) return intoNode(state, site, between[side], flux);
  beginAt(state, sides[side].triangle, sides[side].at, flux);
};

/** Lets an outlet or hole take a flow of standing water. */
export const takeBy = (state: Routing, { opening, edges }: Mouth, flux: number): void => {
  if (opening === undefined) {
    const lengths = edges.map((edge) => lengthIn(state.net, edge));
    const all = lengths.reduce((sum, length) => sum + length, 0);
    return edges.forEach((edge, i) => {
      const part = (flux * lengths[i]) / all;
      fallAlong(state, edge, [0, 1], [part, part]);
    });
  }
  const ran = state.out.entries().reduce((sum, entry) => sum + (entry.opening === opening ? entry.flux : 0), 0);
  state.out.taken(opening, flux, Math.max(0, flux - ran));
};

const lengthIn = ({ surface: { mesh, points } }: FlowNet, edge: number): number => {
  const [a, b] = [points[mesh.ends[2 * edge]], points[mesh.ends[2 * edge + 1]]];
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
};

/** Water that comes straight to standing water. */
const intoNode = (state: Routing, { net, regions }: SpillSite, node: number, flux: number): void => {
  const flatArea = net.flatAreaOfPoint[regions.lowest[node]];
  if (flatArea >= 0) state.through.set(flatArea, (state.through.get(flatArea) ?? 0) + flux);
  toNode(state, node, flux);
};

interface Launch {
  readonly edge: number;
  readonly onto: number;
  readonly to: number;
  readonly flux: number;
}

/** A film that starts at an edge; from a level strip at the far side of it. */
const launch = (state: Routing, site: SpillSite, { edge, onto, to, flux }: Launch): void => {
  const { net } = site;
  const starts =
    net.flatAreaOfTriangle[onto] < 0 ? [{ edge, onto }] : isLevel(net, onto) ? farSide(site, onto, to) : [];
  const lengths = starts.map((start) => lengthIn(net, start.edge));
  const all = lengths.reduce((sum, length) => sum + length, 0);
  if (all <= 0) return to >= 0 ? intoNode(state, site, to, flux) : state.out.unresolved(flux);
  starts.forEach((start, i) => {
    const part = (flux * lengths[i]) / all;
    if (takesFrom(net, start.onto, start.edge))
      runFilm(state, { edge: start.edge, triangle: start.onto, u: [0, 1], flux: [part, part] });
    else if (to >= 0) intoNode(state, site, to, part);
    else state.out.unresolved(part);
  });
};

/** Edges by which water leaves the level triangles that hang together with one, on the side of a hollow. */
const farSide = (
  { net, regions }: SpillSite,
  from: number,
  to: number,
): readonly { readonly edge: number; readonly onto: number }[] => {
  const { mesh } = net.surface;
  const reached = new Set([from]);
  const found: { readonly edge: number; readonly onto: number }[] = [];
  const flatArea = net.flatAreaOfTriangle[from];
  for (const t of reached) {
    for (const edge of mesh.sides.subarray(3 * t, 3 * t + 3)) {
      for (const other of listOf(mesh.trianglesOfEdge, edge)) {
        if (other === t || isHole(net, other)) continue;
        if (net.flatAreaOfTriangle[other] === flatArea && isLevel(net, other)) reached.add(other);
        else if (net.flatAreaOfTriangle[other] < 0 && regions.ofTriangle[other] === to && takesFrom(net, other, edge))
          found.push({ edge, onto: other });
      }
    }
  }
  return found;
};

const isLevel = ({ surface: { mesh, points } }: FlowNet, t: number): boolean => {
  const [a, b, c] = [0, 1, 2].map((i) => points[mesh.corners[3 * t + i]][2]);
  return a === b && b === c;
};
