/** Changed copies of a flat pattern, for trying what would free a blocked part. Lengths mm. */
import type { FlatBend, FlatPattern } from '../../fold/flat-pattern.js';
import type { Contour } from '../../geometry/contour.js';
import { addScaled2, dot2, left2, lerp2, subtract2, unit2, type Vec2 } from '../../geometry/vec.js';
import { neighboursOf } from './operations.js';

/**
 * The flat with one panel's leg made longer or shorter by `by`: all that lies beyond the leg's middle, seen from the bend
 * that joins it to its parent (for the root: from its first child's bend), moves along. Undefined when the leg has bends on its flanks, or
 * would be used up. The outline is left as it was: only panels and bends are planned with.
 */
export const withLeg = (flat: FlatPattern, panel: number, by: number): FlatPattern | undefined => {
  const neighbours = neighboursOf(flat);
  const near = neighbours[panel].find((i) => flat.bends[i].child === panel) ?? neighbours[panel][0];
  if (near === undefined) return undefined;
  const { origin, away } = edgeOf(flat.bends[near], flat.bends[near].child === panel ? 1 : 0);
  const distance = (p: Vec2): number => dot2(subtract2(p, origin), away);
  const region = flat.panels[panel].region;
  const far = region.reduce((most, { x, y }) => Math.max(most, distance([x, y])), 0);
  if (far + by < 1) return undefined;
  const moved = new Set<number>();
  const movedBends = new Set<number>();
  for (const bend of neighbours[panel]) {
    if (bend === near) continue;
    const ends = [flat.bends[bend].start, flat.bends[bend].end].map(distance);
    if (Math.abs(ends[0] - ends[1]) > 0.01 * far || Math.min(...ends) < far / 2) return undefined;
    const beyond = beyondBend(flat, neighbours, bend, panel);
    beyond.panels.forEach((each) => moved.add(each));
    beyond.bends.forEach((each) => movedBends.add(each));
  }
  const shift = (p: Vec2): Vec2 => addScaled2(p, away, by);
  const shiftAll = (contour: Contour): Contour => contour.map((v) => ({ ...v, ...xy(shift([v.x, v.y])) }));
  return {
    ...flat,
    panels: flat.panels.map((p, i) => {
      if (moved.has(i)) return { ...p, region: shiftAll(p.region) };
      if (i !== panel) return p;
      return {
        ...p,
        region: p.region.map((v) => (distance([v.x, v.y]) > far / 2 ? { ...v, ...xy(shift([v.x, v.y])) } : v)),
      };
    }),
    bends: flat.bends.map((bend, i) => (movedBends.has(i) ? mapBend(bend, shift) : bend)),
  };
};

/**
 * The flat with a panel that ends in nothing made narrower by `by` at both ends of the bend that joins it. Undefined where other bends
 * are on it, or too little of it would be left. The outline is left as it was.
 */
export const withTrim = (flat: FlatPattern, panel: number, by: number): FlatPattern | undefined => {
  const [near, ...others] = neighboursOf(flat)[panel];
  if (near === undefined || others.length > 0) return undefined;
  const bend = flat.bends[near];
  const along = unit2(subtract2(bend.end, bend.start));
  const at = (p: Vec2): number => dot2(subtract2(p, bend.start), along);
  const length = at(bend.end);
  if (length - 2 * by < LEAST_LEFT * length) return undefined;
  const drawnIn = (p: Vec2): Vec2 => addScaled2(p, along, Math.min(Math.max(at(p), by), length - by) - at(p));
  const isMoved = ({ x, y }: Contour[number]): boolean => at([x, y]) < by || at([x, y]) > length - by;
  const { region } = flat.panels[panel];
  const trimmed = region.map((v, i) => {
    const isStraight = isMoved(v) || isMoved(region[(i + 1) % region.length]);
    return { ...v, ...xy(drawnIn([v.x, v.y])), ...(isStraight ? { bulge: 0 } : undefined) };
  });
  return {
    ...flat,
    panels: flat.panels.map((p, i) => (i === panel ? { ...p, region: trimmed } : p)),
    bends: flat.bends.map((each, i) => (i === near ? mapBend(each, drawnIn) : each)),
  };
};

/** Share of a flange that a trim leaves at least: less is another part. */
const LEAST_LEFT = 0.5;

const xy = ([x, y]: Vec2): { x: number; y: number } => ({ x, y });

/** A point of the bend's tangent on that side (0 parent, 1 child) and the direction away from the bend. */
const edgeOf = (bend: FlatBend, side: 0 | 1): { readonly origin: Vec2; readonly away: Vec2 } => {
  const across = left2(unit2(subtract2(bend.end, bend.start)));
  const outward = subtract2(bend.tangents[side][0], bend.tangents[1 - side][0]);
  const sign = dot2(outward, across) >= 0 ? 1 : -1;
  return { origin: lerp2(...bend.tangents[side], 0.5), away: [across[0] * sign, across[1] * sign] };
};

/** Everything beyond a bend, seen from one of its panels. */
const beyondBend = (
  flat: FlatPattern,
  neighbours: readonly (readonly number[])[],
  bend: number,
  from: number,
): { readonly panels: ReadonlySet<number>; readonly bends: ReadonlySet<number> } => {
  const [panels, bends] = [new Set<number>(), new Set<number>()];
  const stack: (readonly [number, number])[] = [[bend, from]];
  for (let top = stack.pop(); top; top = stack.pop()) {
    const [through, source] = top;
    if (bends.has(through)) continue;
    bends.add(through);
    const { parent, child } = flat.bends[through];
    const panel = parent === source ? child : parent;
    panels.add(panel);
    for (const next of neighbours[panel]) if (next !== through) stack.push([next, panel]);
  }
  return { panels, bends };
};

const mapBend = (bend: FlatBend, map: (p: Vec2) => Vec2): FlatBend => ({
  ...bend,
  start: map(bend.start),
  end: map(bend.end),
  tangents: [
    [map(bend.tangents[0][0]), map(bend.tangents[0][1])],
    [map(bend.tangents[1][0]), map(bend.tangents[1][1])],
  ],
});

/** The two pieces that are left when the flat is cut along those bends (all of one stroke). */
export const splitAt = (flat: FlatPattern, bends: readonly number[]): readonly FlatPattern[] => {
  const cut = new Set(bends);
  const neighbours = neighboursOf(flat).map((at) => at.filter((bend) => !cut.has(bend)));
  const pieceOf = flat.panels.map(() => -1);
  let pieces = 0;
  flat.panels.forEach((_, start) => {
    if (pieceOf[start] >= 0) return;
    const stack = [start];
    pieceOf[start] = pieces;
    for (let panel = stack.pop(); panel !== undefined; panel = stack.pop()) {
      for (const bend of neighbours[panel]) {
        const { parent, child } = flat.bends[bend];
        const next = parent === panel ? child : parent;
        if (pieceOf[next] >= 0) continue;
        pieceOf[next] = pieces;
        stack.push(next);
      }
    }
    pieces++;
  });
  return Array.from({ length: pieces }, (_, piece): FlatPattern => {
    const index = new Map(
      flat.panels.flatMap((_p, i) => (pieceOf[i] === piece ? [i] : [])).map((panel, i) => [panel, i]),
    );
    return {
      ...flat,
      panels: flat.panels.filter((_p, i) => pieceOf[i] === piece),
      bends: flat.bends
        .filter((bend, i) => !cut.has(i) && index.has(bend.parent))
        .map((bend) => ({ ...bend, parent: index.get(bend.parent)!, child: index.get(bend.child)! })),
    };
  });
};
