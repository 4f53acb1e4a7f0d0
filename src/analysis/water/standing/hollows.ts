import { isSolidEdge, type Flood } from './flood.js';
import { listOf, otherEnd } from '../surface/mesh.js';
import { heightsOf, type Surface } from '../surface/surface.js';

/** A hollow of the surface, before it joins another. */
export interface Hollow {
  readonly id: number;
  /** Its lowest point. */
  readonly lowest: number;
  /** Level at which water runs out of it, mm. */
  readonly level: number;
  /** The point over which it runs. */
  readonly pass: number;
  /** Id of the hollow that it runs into; undefined: off the surface. */
  readonly into: number | undefined;
}

interface Ways {
  readonly flood: Flood;
  readonly open: readonly boolean[];
}

/** Points that hang together below the level that has been reached. */
interface Region {
  readonly lowest: number;
  /** It holds several hollows, each with its own way out. */
  readonly isJoint: boolean;
  /** Level from which water leaves the surface here; undefined: not yet. */
  readonly outAt: number | undefined;
}

/** A hollow whose next one is not looked up yet. */
type Draft = Omit<Hollow, 'into' | 'id'> & { readonly isOut: boolean };

/**
 * The hollows of a surface as the level rises over all of it: each ends where it first meets another one that is deeper than
 * `least` below the meeting, or leaves the surface. Shallower ones are part of what they run into. A merge tree of
 * the heights at the corners, which is exact as these vary linearly between them. Cost: O(n log n) in points.
 */
export const hollowsOf = (surface: Surface, ways: Ways, least: number): readonly Hollow[] => {
  const heights = heightsOf(surface.points);
  const drafts = new Rising(surface, ways, heights, least).drafts();
  const owner = new Int32Array(heights.length).fill(-1);
  drafts.forEach(({ lowest, level }, id) => {
    const wet = [lowest];
    owner[lowest] = id;
    for (const point of wet) {
      for (const other of solidNeighbours(surface, ways.open, point)) {
        if (heights[other] >= level || owner[other] >= 0) continue;
        owner[other] = id;
        wet.push(other);
      }
    }
  });
  /** The first hollow on the ways down from where a hollow runs over. */
  const nextFrom = ({ pass }: Draft, from: number): number | undefined => {
    const reached = new Set([pass]);
    for (const point of reached) {
      if (owner[point] >= 0) return owner[point];
      for (const other of solidNeighbours(surface, ways.open, point))
        if (heights[other] <= heights[point] && owner[other] !== from) reached.add(other);
    }
    return undefined;
  };
  return drafts.map((draft, id) => {
    const { lowest, level, pass, isOut } = draft;
    return { id, lowest, level, pass, into: isOut ? undefined : nextFrom(draft, id) };
  });
};

/** Points at the other ends of the edges that are not wholly in holes. */
const solidNeighbours = ({ mesh }: Surface, open: Ways['open'], point: number): readonly number[] => {
  const found: number[] = [];
  for (let i = mesh.edgesAt.start[point]; i < mesh.edgesAt.start[point + 1]; i++) {
    const edge = mesh.edgesAt.items[i];
    if (isSolidEdge(mesh, edge, open)) found.push(otherEnd(mesh, edge, point));
  }
  return found;
};

/** The level as it rises: regions under water, joined as they meet. */
class Rising {
  private readonly parent: Int32Array;
  private readonly regions = new Map<number, Region>();
  private readonly ended = new Map<number, Draft>();

  constructor(
    private readonly surface: Surface,
    private readonly ways: Ways,
    private readonly heights: Float64Array,
    private readonly least: number,
  ) {
    this.parent = new Int32Array(heights.length).fill(-1);
  }

  /** By their lowest points. */
  drafts(): readonly Draft[] {
    const { next, level } = this.ways.flood;
    const rank = (point: number): number => (next[point] === -1 && this.besideLine(point).length > 0 ? 0 : 1);
    const exits = [...next.keys()]
      .filter((point) => next[point] === -1)
      .sort((p, q) => level[p] - level[q] || rank(p) - rank(q) || p - q);
    const order = [...this.heights.keys()].sort(
      (p, q) => this.heights[p] - this.heights[q] || rank(p) - rank(q) || p - q,
    );
    let left = 0;
    for (const point of order) {
      for (; left < exits.length && level[exits[left]] < this.heights[point]; left++) this.leave(exits[left]);
      // What runs off along a line there does so, before it joins anything.
      const isOff = exits[left] === point && level[point] === this.heights[point] && rank(point) === 0;
      if (isOff) for (const other of this.besideLine(point)) if (this.parent[other] >= 0) this.leave(other, point);
      this.reach(point);
      if (isOff) this.leave(exits[left++]);
    }
    for (; left < exits.length; left++) this.leave(exits[left]);
    return [...this.ended.values()].sort((p, q) => p.lowest - q.lowest);
  }

  /** Below the level free edges at a point, a point of each triangle: what stands there runs off along a line, not at a corner. */
  private besideLine(point: number): readonly number[] {
    const { mesh } = this.surface;
    const found: number[] = [];
    for (const edge of listOf(mesh.edgesAt, point)) {
      if (this.heights[otherEnd(mesh, edge, point)] !== this.heights[point] || mesh.borders.get(edge)?.kind !== 'free')
        continue;
      const [t] = listOf(mesh.trianglesOfEdge, edge);
      for (const corner of mesh.corners.subarray(3 * t, 3 * t + 3))
        if (this.heights[corner] < this.heights[point]) found.push(corner);
    }
    return found;
  }

  private rootOf(point: number): number {
    let root = point;
    while (this.parent[root] !== root) {
      this.parent[root] = this.parent[this.parent[root]];
      root = this.parent[root];
    }
    return root;
  }

  /** The level comes to a point: it joins all that hangs together with it. */
  private reach(point: number): void {
    this.parent[point] = point;
    this.regions.set(point, { lowest: point, isJoint: false, outAt: undefined });
    for (const other of this.reachedBeside(point)) this.join(point, other);
  }

  private reachedBeside(point: number): readonly number[] {
    return solidNeighbours(this.surface, this.ways.open, point).filter((other) => this.parent[other] >= 0);
  }

  private join(point: number, other: number): void {
    const [a, b] = [this.rootOf(point), this.rootOf(other)];
    if (a === b) return;
    const [p, q] = [this.regions.get(a)!, this.regions.get(b)!];
    const level = this.heights[point];
    const [isDeep, isOtherDeep] = [this.isDeep(p, level), this.isDeep(q, level)];
    if (isDeep && (isOtherDeep || q.outAt !== undefined)) this.end(p, level, point, false);
    if (isOtherDeep && (isDeep || p.outAt !== undefined)) this.end(q, level, point, false);
    const lower = this.heights[p.lowest] <= this.heights[q.lowest] ? p : q;
    const kept = isDeep === isOtherDeep ? lower : isDeep ? p : q;
    const outAt = p.outAt === undefined || q.outAt === undefined ? (p.outAt ?? q.outAt) : Math.min(p.outAt, q.outAt);
    this.parent[b] = a;
    this.regions.delete(b);
    this.regions.set(a, { lowest: kept.lowest, isJoint: p.isJoint || q.isJoint || (isDeep && isOtherDeep), outAt });
  }

  /** Does it hold more than a film below the level, or below the one at which it runs off? */
  private isDeep({ lowest, isJoint, outAt }: Region, level: number): boolean {
    return isJoint || Math.min(level, outAt ?? level) - this.heights[lowest] > this.least;
  }

  /** What a point belongs to runs off the surface at `exit`. */
  private leave(point: number, exit = point): void {
    const root = this.rootOf(point);
    const region = this.regions.get(root)!;
    if (region.outAt !== undefined) return;
    const level = this.ways.flood.level[exit];
    if (this.isDeep(region, level)) this.end(region, level, exit, true);
    this.regions.set(root, { ...region, outAt: level });
  }

  /** A hollow has its way out. What holds several, or has had its own before, is none. */
  private end({ lowest, isJoint, outAt }: Region, level: number, pass: number, isOut: boolean): void {
    if (isJoint || outAt !== undefined || this.ended.has(lowest)) return;
    this.ended.set(lowest, { lowest, level, pass, isOut });
  }
}
