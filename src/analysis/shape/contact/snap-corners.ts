/** Corners that were rounded by hand, put where they are meant to be before anything is worked out from them. */
import { indexBoxes, type BoxSearch } from '../../geometry/box-index.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { addScaled, distance, dot, subtract, type Vec3 } from '../../geometry/vec.js';
import { keepBy, memoBy } from '../../cache/memo.js';
import { HAND_ROUNDED } from '../../model/tolerance.js';
import type { Panel, PanelIndex, Tub } from '../../model/tub.js';
import { clusterCorners, type Clusters, type PanelCorner } from './cluster-corners.js';

/** A corner that is taken at another place than the one stated. */
export interface Snap extends PanelCorner {
  /** The panel it is put onto: its corner of that index, or somewhere on its edges. */
  readonly onto: { readonly panel: PanelIndex; readonly corner: number | undefined };
  /** How far off the two are as stated, mm. */
  readonly off: number;
  /** Where it is taken to be. */
  readonly place: Vec3;
}

export interface SnappedPanels {
  readonly panels: readonly Panel[];
  readonly snaps: readonly Snap[];
}

/** The tub with its corners where they are meant to be; the same object when that is where they are stated. */
export const snapTub = (tub: Tub): { readonly tub: Tub; readonly snaps: readonly Snap[] } => {
  const { panels, snaps } = snapPanels(tub.panels);
  return { tub: panels === tub.panels ? tub : tubWith(tub, panels), snaps };
};

const tubFor = keepBy<Tub, Tub>();
const tubWith = (tub: Tub, panels: readonly Panel[]): Tub => tubFor(tub, [panels], () => ({ ...tub, panels }));

/**
 * Puts corners of different panels within HAND_ROUNDED of each other onto one place: that of a computed panel (a leg, a side, a
 * flange) before one by points, else the one stated first. Then corners as near to another panel's edge go onto that edge.
 *
 * No corner is moved farther than HAND_ROUNDED from where it is stated, however many stand in a row, and none within SAME_POINT
 * is moved at all. Cost: O(n log n) in corners.
 */
export const snapPanels = memoBy((panels: readonly Panel[]): SnappedPanels => {
  const clusters = clusterCorners(panels);
  const targets = clusters.clusters.map(({ place, leader }): Target => ({ place, onto: leader }));
  for (let round = 0; round < MOST_ROUNDS; round++) if (!snapOntoEdges(panels, clusters, targets)) break;
  const snaps: Snap[] = [];
  const moved = panels.map((panel, i): Panel => {
    const corners = panel.corners.map((stated, corner): Vec3 => {
      const { place, onto } = targets[clusters.clusterOf[i][corner]];
      if (distance(stated, place) <= SAME_POINT) return stated;
      if (onto.panel !== i) {
        const off = offAsStated(panels, stated, onto);
        if (off > SAME_POINT) snaps.push({ panel: i, corner, onto, off, place });
      }
      return place;
    });
    return corners.every((corner, k) => corner === panel.corners[k]) ? panel : { ...panel, corners };
  });
  return { panels: moved.every((panel, i) => panel === panels[i]) ? panels : moved, snaps };
});

/** An edge that a corner goes onto may have to go onto another one itself. */
const MOST_ROUNDS = 3;

/** Where the corners of a cluster are put, and what is there. */
interface Target {
  place: Vec3;
  onto: Snap['onto'];
}

const offAsStated = (panels: readonly Panel[], stated: Vec3, { panel, corner }: Snap['onto']): number => {
  const { corners } = panels[panel];
  if (corner !== undefined) return distance(stated, corners[corner]);
  return Math.min(...corners.map((from, i) => distanceTo(stated, from, corners[(i + 1) % corners.length])));
};

interface Edge {
  readonly panel: PanelIndex;
  readonly ends: readonly [number, number];
}

/** Puts clusters that stand by an edge onto it. Returns whether any was moved. */
const snapOntoEdges = (panels: readonly Panel[], clusters: Clusters, targets: Target[]): boolean => {
  const edges = edgesOf(panels, clusters);
  const near = edgeSearch(edges, targets);
  let isMoved = false;
  const before = targets.map(({ place }) => place);
  clusters.clusters.forEach(({ members }, i) => {
    const place = before[i];
    let [best, least] = [undefined as Edge | undefined, HAND_ROUNDED];
    for (const edge of near(place)) {
      const [from, to] = edge.ends.map((end) => before[end]);
      const off = distanceTo(place, from, to);
      if (off <= SAME_POINT || off >= least || !isBetween(place, from, to)) continue;
      if (members.some(({ panel }) => panel === edge.panel)) continue;
      [best, least] = [edge, off];
    }
    if (!best) return;
    const foot = footOf(place, before[best.ends[0]], before[best.ends[1]]);
    if (members.some(({ panel, corner }) => distance(panels[panel].corners[corner], foot) > HAND_ROUNDED)) return;
    targets[i].place = foot;
    targets[i].onto = { panel: best.panel, corner: undefined };
    isMoved = true;
  });
  return isMoved;
};

/** Every edge once, though two panels may share it. */
const edgesOf = (panels: readonly Panel[], { clusterOf, clusters }: Clusters): readonly Edge[] => {
  const seen = new Set<number>();
  const edges: Edge[] = [];
  panels.forEach(({ corners }, panel) => {
    for (let i = 0; i < corners.length; i++) {
      const [a, b] = [clusterOf[panel][i], clusterOf[panel][(i + 1) % corners.length]];
      const key = Math.min(a, b) * clusters.length + Math.max(a, b);
      if (a === b || seen.has(key)) continue;
      seen.add(key);
      edges.push({ panel, ends: [a, b] });
    }
  });
  return edges;
};

/** Edges whose box a place lies in, or nearly so. */
const edgeSearch = (edges: readonly Edge[], targets: readonly Target[]): ((place: Vec3) => readonly Edge[]) => {
  if (edges.length === 0) return () => [];
  const boxes = new Float64Array(4 * edges.length);
  edges.forEach(({ ends }, i) => {
    const [p, q] = [targets[ends[0]].place, targets[ends[1]].place];
    boxes.set([Math.min(p[0], q[0]), Math.min(p[1], q[1]), Math.max(p[0], q[0]), Math.max(p[1], q[1])], 4 * i);
  });
  const search: BoxSearch = indexBoxes(boxes);
  const d = HAND_ROUNDED;
  return (place) => {
    const [x, y, z] = place;
    const isLevel = (i: number): boolean => {
      const [low, high] = [targets[edges[i].ends[0]].place[2], targets[edges[i].ends[1]].place[2]];
      return Math.min(low, high) - d <= z && z <= Math.max(low, high) + d;
    };
    return search(x - d, y - d, x + d, y + d, isLevel).map((i) => edges[i]);
  };
};

const shareAlong = (point: Vec3, from: Vec3, to: Vec3): number => {
  const along = subtract(to, from);
  const square = dot(along, along);
  return square > 0 ? dot(subtract(point, from), along) / square : 0;
};

/** On the line through both ends, between them. */
const footOf = (point: Vec3, from: Vec3, to: Vec3): Vec3 =>
  addScaled(from, subtract(to, from), Math.min(1, Math.max(0, shareAlong(point, from, to))));

const distanceTo = (point: Vec3, from: Vec3, to: Vec3): number => distance(point, footOf(point, from, to));

/** Is its foot clear of both ends? By an end it is a matter of two corners. */
const isBetween = (point: Vec3, from: Vec3, to: Vec3): boolean => {
  const foot = footOf(point, from, to);
  return distance(foot, from) > HAND_ROUNDED && distance(foot, to) > HAND_ROUNDED;
};

/** Snaps of one panel onto one other, in the order of the first of each pair. */
export const snapsByPair = (snaps: readonly Snap[]): readonly (readonly Snap[])[] => {
  const pairs = new Map<string, Snap[]>();
  for (const snap of snaps) {
    const key = `${snap.panel} ${snap.onto.panel}`;
    const pair = pairs.get(key);
    if (pair) pair.push(snap);
    else pairs.set(key, [snap]);
  }
  return [...pairs.values()];
};
