import { weldVertices } from '../../geometry/weld-vertices.js';
import { distance, type Vec3 } from '../../geometry/vec.js';
import { HAND_ROUNDED } from '../../model/tolerance.js';
import type { Panel, PanelIndex } from '../../model/tub.js';

/** A corner by the panel's own order. */
export interface PanelCorner {
  readonly panel: PanelIndex;
  readonly corner: number;
}

/** Corners that are meant to be one place: what stands first among them, its place as stated, and all that belong to it. */
export interface Cluster {
  readonly leader: PanelCorner;
  readonly place: Vec3;
  readonly members: readonly PanelCorner[];
}

export interface Clusters {
  readonly clusters: readonly Cluster[];
  /** Per panel and corner. */
  readonly clusterOf: readonly (readonly number[])[];
}

/**
 * Gathers corners around leaders, each with the nearest within HAND_ROUNDED as stated, so that no row of corners draws one away.
 * Corners of computed panels lead, then those by points, each in order. Two corners of one panel never become one: what is to
 * be said of a short edge is said of the panel. Cost: O(n) in corners.
 */
export const clusterCorners = (panels: readonly Panel[]): Clusters => {
  const { places, ownersOf } = placesOf(panels);
  const near = createGrid(places);
  const clusters: (Cluster & { readonly members: PanelCorner[] })[] = [];
  const clusterOf: number[][] = panels.map(({ corners }) => corners.map(() => 0));
  const led = new Map<number, number>();
  places.forEach((place, i) => {
    const owners = ownersOf[i];
    const sharesPanel = (leader: number): boolean =>
      clusters[led.get(leader)!].members.some(({ panel }) => owners.some((owner) => owner.panel === panel));
    const leader = near.nearest(place, sharesPanel);
    const cluster = leader === undefined ? clusters.length : led.get(leader)!;
    if (leader === undefined) {
      near.add(i);
      led.set(i, cluster);
      clusters.push({ leader: owners[0], place, members: [] });
    }
    for (const owner of owners) {
      clusters[cluster].members.push(owner);
      clusterOf[owner.panel][owner.corner] = cluster;
    }
  });
  return { clusters, clusterOf };
};

/** Every place that is stated, once, and whose corner it is. */
const placesOf = (
  panels: readonly Panel[],
): { readonly places: readonly Vec3[]; readonly ownersOf: readonly (readonly PanelCorner[])[] } => {
  const weld = weldVertices();
  const ownersOf: PanelCorner[][] = [];
  for (const panel of computedFirst(panels)) {
    panels[panel].corners.forEach((place, corner) => {
      const i = weld.indexOf(place);
      (ownersOf[i] ??= []).push({ panel, corner });
    });
  }
  return { places: weld.points, ownersOf };
};

const computedFirst = (panels: readonly Panel[]): readonly PanelIndex[] => {
  const all = panels.map((_, i) => i);
  const isByPoints = (i: number): boolean => panels[i].kind.kind === 'points';
  return [...all.filter((i) => !isByPoints(i)), ...all.filter(isByPoints)];
};

interface Grid {
  readonly add: (place: number) => void;
  /** Of the places added, the nearest within HAND_ROUNDED that is not left out. */
  readonly nearest: (at: Vec3, isLeftOut: (place: number) => boolean) => number | undefined;
}

/** mm. Most places then lie in one cell with all that could be near. */
const CELL = 8 * HAND_ROUNDED;

const NONE: readonly number[] = [];

const createGrid = (places: readonly Vec3[]): Grid => {
  const cells = new Map<number, number[]>();
  // Cells may share a key, which costs a little time: the distance decides.
  const keyOf = (x: number, y: number, z: number): number =>
    Math.imul(x, 73_856_093) ^ Math.imul(y, 19_349_663) ^ Math.imul(z, 83_492_791);
  const cellAt = (value: number): number => Math.floor(value / CELL);
  const add = (place: number): void => {
    const [x, y, z] = places[place];
    const key = keyOf(cellAt(x), cellAt(y), cellAt(z));
    const cell = cells.get(key);
    if (cell) cell.push(place);
    else cells.set(key, [place]);
  };
  const nearest: Grid['nearest'] = (at, isLeftOut) => {
    let [best, least] = [undefined as number | undefined, HAND_ROUNDED];
    const [low, high] = [-HAND_ROUNDED, HAND_ROUNDED].map((by) => at.map((value) => cellAt(value + by)));
    for (let x = low[0]; x <= high[0]; x++) {
      for (let y = low[1]; y <= high[1]; y++) {
        for (let z = low[2]; z <= high[2]; z++) {
          for (const place of cells.get(keyOf(x, y, z)) ?? NONE) {
            const off = distance(places[place], at);
            if (off > least || isLeftOut(place)) continue;
            [best, least] = [place, off];
          }
        }
      }
    }
    return best;
  };
  return { add, nearest };
};
