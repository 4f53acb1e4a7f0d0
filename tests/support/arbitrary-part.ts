import fc from 'fast-check';
import { areaVector } from '../../src/analysis/geometry/polygon.js';
import { add, addScaled, cross, dot, lerp, scale, subtract, unit, type Vec3 } from '../../src/analysis/geometry/vec.js';
import type { Panel, Sheet, Tub } from '../../src/analysis/model.js';
import { tubOf } from './tub-of.js';

/** One flange of a random part: where it grows, how it turns, what form it has. All shares are 0..1. */
export interface Sprout {
  /** Which of the edges that are still free, as a share of their list. */
  readonly on: number;
  /** rad; positive: towards the side from which the root runs counter-clockwise. */
  readonly turn: number;
  readonly length: number;
  /** How far the free edge runs beyond the ends of the bent one, as a share of the length; negative: tapering in. */
  readonly flare: readonly [number, number];
  /** Share of the edge that is kept free at each end. */
  readonly trims: readonly [number, number];
}

export interface PartRecipe {
  readonly thickness: number;
  readonly radius: number;
  /** Of the root: distance of each corner from its middle, at equal angles. */
  readonly reaches: readonly number[];
  readonly sprouts: readonly Sprout[];
  readonly pose: Pose;
}

/** A turn (Euler angles, rad) and then a shift. */
export interface Pose {
  readonly turns: Vec3;
  readonly shift: Vec3;
}

export const toRad = (degrees: number): number => (degrees * Math.PI) / 180;

export const real = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

export const arbitraryPose: fc.Arbitrary<Pose> = fc.record({
  turns: fc.tuple(real(-3.1, 3.1), real(-3.1, 3.1), real(-3.1, 3.1)),
  shift: fc.tuple(real(-2000, 2000), real(-2000, 2000), real(-2000, 2000)),
});

/** A turn that is neither a fold nor flat, up or down. */
const arbitraryTurn = (most: number): fc.Arbitrary<number> =>
  fc.tuple(real(toRad(0.5), toRad(most)), fc.boolean()).map(([angle, up]) => (up ? angle : -angle));

export const arbitrarySprout = (mostTurnDeg = 145): fc.Arbitrary<Sprout> =>
  fc.record({
    on: real(0, 0.999),
    turn: arbitraryTurn(mostTurnDeg),
    length: real(60, 220),
    flare: fc.tuple(real(-0.15, 0.6), real(-0.15, 0.6)),
    trims: fc.oneof(fc.constant([0, 0] as const), fc.tuple(real(0.12, 0.3), real(0.12, 0.3)), fc.tuple(fc.constant(0), real(0.12, 0.4))),
  });

/** A root polygon with flanges on its edges, and flanges on those, in any pose. */
export const arbitraryPart = (most = 7): fc.Arbitrary<PartRecipe> =>
  fc.record({
    thickness: real(0.4, 3),
    radius: real(0.3, 4),
    reaches: fc.array(real(140, 320), { minLength: 3, maxLength: 7 }),
    sprouts: fc.array(arbitrarySprout(), { minLength: 1, maxLength: most }),
    pose: arbitraryPose,
  });

const turnAbout = (point: Vec3, axis: Vec3, angle: number): Vec3 =>
  add(add(scale(point, Math.cos(angle)), scale(cross(axis, point), Math.sin(angle))), scale(axis, dot(axis, point) * (1 - Math.cos(angle))));

export const posed = (point: Vec3, { turns, shift }: Pose): Vec3 => {
  const turned = turnAbout(turnAbout(turnAbout(point, [1, 0, 0], turns[0]), [0, 1, 0], turns[1]), [0, 0, 1], turns[2]);
  return add(turned, shift);
};

export const sheetOf = (thickness: number, radius: number, rest: Partial<Sheet> = {}): Sheet => ({
  name: 'skin', at: 1, material: 'stainless', thickness, gauge: undefined, radius, kFactor: undefined, coupon: undefined, grain: 'any', ...rest,
});

/** The panels of a recipe before any pose: corners to the sharp edges, counter-clockwise seen from the side they turn to. */
export const panelsOf = (recipe: PartRecipe): { readonly panels: Record<string, readonly Vec3[]>; readonly bends: readonly (readonly [string, string])[] } => {
  const count = recipe.reaches.length;
  const root = recipe.reaches.map((reach, i): Vec3 => [reach * Math.cos((2 * Math.PI * i) / count), reach * Math.sin((2 * Math.PI * i) / count), 0]);
  const panels: Record<string, readonly Vec3[]> = { p0: root };
  const bends: (readonly [string, string])[] = [];
  const free = root.map((_, edge) => ({ panel: 'p0', edge }));
  recipe.sprouts.forEach((sprout, i) => {
    const [{ panel, edge }] = free.splice(Math.floor(sprout.on * free.length), 1);
    const corners = panels[panel];
    const name = `p${i + 1}`;
    panels[name] = sproutFrom(corners, edge, sprout);
    bends.push([panel, name]);
    for (const e of [1, 2, 3]) free.push({ panel: name, edge: e });
  });
  return { panels, bends };
};

const sproutFrom = (corners: readonly Vec3[], edge: number, { turn, length, flare, trims }: Sprout): readonly Vec3[] => {
  const normal = unit(areaVector(corners));
  const [from, to] = [corners[edge], corners[(edge + 1) % corners.length]];
  const along = unit(subtract(to, from));
  const outward = cross(along, normal);
  const direction = add(scale(outward, Math.cos(turn)), scale(normal, Math.sin(turn)));
  const start = lerp(from, to, trims[0]);
  const end = lerp(from, to, 1 - trims[1]);
  const tipStart = addScaled(addScaled(start, direction, length), along, -flare[0] * length);
  const tipEnd = addScaled(addScaled(end, direction, length), along, flare[1] * length);
  // Runs against the parent along the bend: the same side of both is up.
  return [end, start, tipStart, tipEnd];
};

export const tubFrom = (recipe: PartRecipe, rest: Partial<Omit<Tub, 'panels' | 'bends'>> = {}): Tub => {
  const { panels, bends } = panelsOf(recipe);
  const moved = Object.fromEntries(Object.entries(panels).map(([name, corners]) => [name, corners.map((c) => posed(c, recipe.pose))]));
  return tubOf({ sheets: [sheetOf(recipe.thickness, recipe.radius)], ...rest, panels: moved, bends });
};

/** The same tub with every point through `map`. */
export const mapTub = (tub: Tub, map: (point: Vec3) => Vec3): Tub => ({
  ...tub,
  panels: tub.panels.map((panel): Panel => ({ ...panel, corners: panel.corners.map(map) })),
});
