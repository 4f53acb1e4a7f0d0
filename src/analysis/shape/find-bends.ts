import { disjointSets, type DisjointSets } from '../geometry/disjoint-sets.js';
import { allowanceOf, chooseKFactor, setbackOf } from '../material/bend-allowance.js';
import { angleBetween, cross, distance, dot, unit, subtract, type Vec3 } from '../geometry/vec.js';
import type { Sheet, StatedBend, Tub } from '../model/tub.js';
import { SAME_DIRECTION, SAME_POINT } from '../geometry/tolerance.js';
import { gapBetween, pointToSegment } from '../geometry/gap-between.js';
import type { Bend, Face, ShapeFault, Stretch } from './shape.js';

/** A bend with the stretches of both faces that it takes. */
export interface PlacedBend {
  readonly bend: Bend;
  readonly taken: readonly [readonly Stretch[], readonly Stretch[]];
}

/**
 * Puts the stated bends onto the edges that their panels share, with all their numbers.
 * A bend without a shared edge, one folded onto itself, one along an edge that is bent already, and one that closes a ring of
 * bends become faults instead.
 */
export const findBends = (
  tub: Tub,
  faces: readonly Face[],
): { readonly placed: readonly PlacedBend[]; readonly faults: readonly ShapeFault[] } => {
  const placed: PlacedBend[] = [];
  const faults: ShapeFault[] = [];
  const tree = new BendTree(faces.length);
  const takenBy = new Map<Stretch, StatedBend>();
  tub.bends.forEach((stated, statedIndex) => {
    const [a, b] = stated.panels.map((panel) => faces[panel]);
    if (!a?.usable || !b?.usable || a === b) return;
    const taken = sharedBy(a, b);
    if (taken[0].length === 0) {
      faults.push({ kind: 'no-shared-edge', bend: statedIndex, nearest: gapBetween(a, b) });
      return;
    }
    if (a.panel !== b.panel && tub.panels[a.panel].sheet !== tub.panels[b.panel].sheet) {
      faults.push({ kind: 'two-sheets', bend: statedIndex });
      return;
    }
    const angle = angleBetween(a.frame.normal, b.frame.normal);
    if (angle > Math.PI - SAME_DIRECTION) {
      faults.push({ kind: 'folded-onto-itself', bend: statedIndex });
      return;
    }
    const twice = inPairs(taken).find((stretch) => takenBy.has(stretch));
    if (twice) {
      faults.push({ kind: 'edge-used-twice', at: stated.at, other: takenBy.get(twice)!.at, panel: twice.face });
      return;
    }
    const loop = tree.join(a.panel, b.panel);
    if (loop) {
      faults.push({ kind: 'bend-loop', bend: statedIndex, loop });
      return;
    }
    for (const stretch of inPairs(taken)) takenBy.set(stretch, stated);
    const { sheet, cutK } = tub.panels[a.panel];
    const index = placed.length;
    const place = { sheet: tub.sheets[sheet], cutK, stated, index, faces: [a, b], taken, angle } as const;
    placed.push({ bend: measureBend(place), taken });
  });
  return { placed, faults };
};

type Shared = readonly [Stretch, Stretch];

/** The stretches of both faces along which they share most. */
const sharedBy = (a: Face, b: Face): PlacedBend['taken'] => {
  const run = longestShared(a, b);
  return [run.map(([own]) => own), run.map(([, mate]) => mate)];
};

const inPairs = ([own, mates]: PlacedBend['taken']): readonly Stretch[] =>
  own.flatMap((stretch, i) => [stretch, mates[i]]);

/**
 * The longest unbroken straight run of stretches of `a` that `b` shares, in the order of `a`, and the stretches of `b` along
 * it. A corner of 180 deg does not break it. Looked for from the face with fewer edges: a floor may have a thousand walls.
 */
const longestShared = (a: Face, b: Face): readonly Shared[] => {
  const [few, many] = a.corners.length <= b.corners.length ? [a, b] : [b, a];
  let best: readonly Shared[] = [];
  let bestLength = 0;
  let run: Shared[] = [];
  for (const stretch of fromRealCorner(few)) {
    const mate = mateOn(many, stretch);
    const isStraight = run.length > 0 && runsStraight(run[0][0].start, stretch);
    if (!isStraight || mate === undefined) run = [];
    if (mate === undefined) continue;
    run.push([stretch, mate]);
    const length = distance(run[0][0].start, stretch.end);
    if (length > bestLength) [best, bestLength] = [[...run], length];
  }
  return few === a ? best : best.map(([own, mate]): Shared => [mate, own]).reverse();
};

/** All stretches in order, beginning where the outline turns. */
const fromRealCorner = (face: Face): readonly Stretch[] => {
  const all = face.stretches.flat();
  const first = all.findIndex((stretch, i) => !runsStraight(all[(i + all.length - 1) % all.length].start, stretch));
  return first <= 0 ? all : [...all.slice(first), ...all.slice(0, first)];
};

/** Does the line from `from` reach the end of the stretch without a turn at its start? */
const runsStraight = (from: Vec3, { start, end }: Stretch): boolean =>
  pointToSegment(start, from, end) <= 2 * SAME_POINT;

const mateOn = (face: Face, stretch: Stretch): Stretch | undefined => {
  const mate = stretch.mates.find((m) => m.face === face.panel);
  return mate && face.stretches[mate.edge][mate.stretch];
};

interface BendPlace extends Pick<PlacedBend, 'taken'> {
  readonly sheet: Sheet;
  readonly stated: StatedBend;
  readonly index: number;
  readonly faces: readonly [Face, Face];
  readonly angle: number;
  readonly cutK: number | undefined;
}

const measureBend = ({ sheet, stated, index, faces: [a, b], taken, angle, cutK }: BendPlace): Bend => {
  const [shared, mates] = taken;
  const radius = stated.radius ?? sheet.radius;
  const { kFactor, source } = chooseKFactor({ sheet, radius, bendKFactor: stated.kFactor, cutK });
  const start = shared[0].start;
  const end = shared[shared.length - 1].end;
  const wet = risesToWetSide(a, b, unit(subtract(end, start))) ? 'inside' : 'outside';
  const bend = { angle, radius, thickness: sheet.thickness, kFactor, wet } as const;
  const allowance = allowanceOf(bend);
  const setback = setbackOf(bend);
  return {
    index,
    name: stated.name,
    at: stated.at,
    faces: [a.panel, b.panel],
    edges: [shared[0].edge, mates[0].edge],
    stretches: [a.stretches[shared[0].edge].indexOf(shared[0]), b.stretches[mates[0].edge].indexOf(mates[0])],
    start,
    end,
    length: distance(start, end),
    ...bend,
    kSource: source,
    allowance,
    setback,
    deduction: 2 * setback - allowance,
  };
};

/** Does face `b` leave the shared edge towards the wet side of `a`? `along` runs counter-clockwise in `a`. */
const risesToWetSide = (a: Face, b: Face, along: Vec3): boolean =>
  dot(cross(along, b.frame.normal), a.frame.normal) > 0;

/** Faces joined so far; remembers the tree, so that a ring can be named. */
class BendTree {
  private readonly joined: DisjointSets;
  private readonly links = new Map<number, number[]>();

  constructor(size: number) {
    this.joined = disjointSets(size);
  }

  /** Undefined when joined; else the faces of the ring that this bend would close, in order. */
  join(a: number, b: number): readonly number[] | undefined {
    const { rootOf, join } = this.joined;
    if (rootOf(a) === rootOf(b)) return this.pathBetween(a, b);
    join(a, b);
    this.link(a, b);
    this.link(b, a);
    return undefined;
  }

  private link(from: number, to: number): void {
    const links = this.links.get(from);
    if (links) links.push(to);
    else this.links.set(from, [to]);
  }

  private pathBetween(a: number, b: number): readonly number[] {
    const cameFrom = new Map<number, number>([[a, a]]);
    const queue = [a];
    for (const at of queue) {
      for (const next of this.links.get(at) ?? []) {
        if (cameFrom.has(next)) continue;
        cameFrom.set(next, at);
        queue.push(next);
      }
    }
    const path = [b];
    while (path[path.length - 1] !== a) path.push(cameFrom.get(path[path.length - 1])!);
    return path.reverse();
  }
}
