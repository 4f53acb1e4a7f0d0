/** A strip and a side as solids of an independent mesh kernel, folded from their flats by arithmetic of its own. */
import type { CrossSection, Manifold, ManifoldToplevel } from 'manifold-3d';
import type { FlatBend, FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import { flattenContour } from '../../../src/analysis/geometry/contour.js';
import type { Vec2 } from '../../../src/analysis/geometry/vec.js';

export interface ProfilePoint {
  readonly wet: Vec2;
  readonly dry: Vec2;
  /** Number of the leg or of the bend that it belongs to. */
  readonly leg: number | undefined;
}

const ARC_STEPS = 24;

/** The straight lengths and bends of a strip's flat, in order from its first leg: measured across the bend lines. */
const measure = (flat: FlatPattern): { readonly legs: number[]; readonly bends: FlatBend[] } => {
  const [a, b] = [flat.bends[0].start, flat.bends[0].end];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const across = ([x, y]: Vec2): number => ((x - a[0]) * (b[1] - a[1]) - (y - a[1]) * (b[0] - a[0])) / length;
  const ends = flat.outline.map(({ x, y }) => across([x, y]));
  const sorted = [...flat.bends].sort((p, q) => across(p.start) - across(q.start));
  const isForward = sorted[0].name.includes('leg1');
  const bends = isForward ? sorted : sorted.reverse();
  const sign = isForward ? 1 : -1;
  const from = isForward ? Math.min(...ends) : -Math.max(...ends);
  const to = isForward ? Math.max(...ends) : -Math.min(...ends);
  let at = from;
  const legs = bends.map((bend) => {
    const half = (bend.angle * (bend.radius + bend.kFactor * flat.thickness)) / 2;
    const middle = sign * across(bend.start);
    const leg = middle - half - at;
    at = middle + half;
    return leg;
  });
  return { legs: [...legs, to - at], bends };
};

/**
 * The folded strip seen from the side, from a first wet point with a heading, the wet face to the left of it. `off`: extra
 * angle of each bend; the neutral line keeps its length.
 */
export const foldProfile = (
  flat: FlatPattern,
  start: Vec2,
  heading: number,
  off: readonly number[] = [],
): readonly ProfilePoint[] => {
  const { legs, bends } = measure(flat);
  const t = flat.thickness;
  let [at, direction] = [start, heading];
  const points: ProfilePoint[] = [];
  const put = (leg: number | undefined): void => {
    const right: Vec2 = [Math.sin(direction), -Math.cos(direction)];
    points.push({ wet: at, dry: [at[0] + right[0] * t, at[1] + right[1] * t], leg });
  };
  legs.forEach((length, i) => {
    put(i);
    at = [at[0] + Math.cos(direction) * length, at[1] + Math.sin(direction) * length];
    put(i);
    const bend = bends[i];
    if (!bend) return;
    const turn = bend.angle + (off[i] ?? 0);
    const inner = (bend.angle * (bend.radius + bend.kFactor * t)) / turn - bend.kFactor * t;
    const isValley = bend.direction === 'down';
    const radius = isValley ? inner : inner + t;
    for (let step = 0; step < ARC_STEPS; step++) {
      const by = turn / ARC_STEPS;
      const chord = 2 * radius * Math.sin(by / 2);
      const half = (isValley ? 1 : -1) * (by / 2);
      at = [at[0] + Math.cos(direction + half) * chord, at[1] + Math.sin(direction + half) * chord];
      direction += 2 * half;
      if (step < ARC_STEPS - 1) put(undefined);
    }
  });
  return points;
};

/** The profile in the plane of distance and height, drawn out `wide` along x. */
export const stripSolid = (
  { CrossSection }: ManifoldToplevel,
  profile: readonly ProfilePoint[],
  wide: number,
): Manifold => {
  const ring = [...profile.map(({ wet }) => wet), ...[...profile].reverse().map(({ dry }) => dry)];
  const section: CrossSection = new CrossSection([ring.map(([a, b]): [number, number] => [a, b])], 'NonZero');
  // Columns: section x -> tub y, section y -> tub z, height -> tub x.
  return section.extrude(wide).transform([0, 1, 0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0, 1]);
};

/** A flat part where the model places it: its dry face in the frame's plane, the metal below. */
export const flatSolid = ({ CrossSection }: ManifoldToplevel, flat: FlatPattern): Manifold => {
  const corners = flattenContour(flat.outline, 0.0005).map(([x, y]): [number, number] => [x, y]);
  const { origin, u, v, normal } = flat.place!;
  return new CrossSection([corners], 'NonZero')
    .extrude(flat.thickness)
    .translate([0, 0, -flat.thickness])
    .transform([...u, 0, ...v, 0, ...normal, 0, ...origin, 1] as Parameters<Manifold['transform']>[0]);
};
