import fc from 'fast-check';
import { areaVector } from '../../../src/analysis/geometry/polygon.js';
import {
  add,
  addScaled,
  cross,
  distance,
  dot,
  scale,
  subtract,
  unit,
  type Vec3,
} from '../../../src/analysis/geometry/vec.js';
import type { Hem, Panel, Sheet, Tub } from '../../../src/analysis/model/tub.js';
import { tubOf } from '../tub-of.js';

/** One flange of a random part: where it grows, how it turns, what form it has. All shares are 0..1. */
export interface Sprout {
  /** Which of the edges that are still free, as a share of their list. */
  readonly on: number;
  /** rad; positive: towards the side from which the root runs counter-clockwise. */
  readonly turn: number;
  readonly length: number;
  /** How far the free edge runs beyond the ends of the bent one, as a share of the length; negative: tapering in. */
  readonly flare: readonly [number, number];
  /** mm kept free at each end of the edge, at most 0.45 of it. */
  readonly trims: readonly [number, number];
  /** mm between this flange and one that may grow from what its trims leave of the edge. */
  readonly gap: number;
}

export interface HemRecipe {
  readonly on: number;
  readonly hem: Hem;
}

export interface PartRecipe {
  readonly thickness: number;
  readonly radius: number;
  /** Of the root: distance of each corner from its middle, at equal angles. */
  readonly reaches: readonly number[];
  readonly sprouts: readonly Sprout[];
  readonly hems: readonly HemRecipe[];
  readonly pose: Pose;
}

/** A turn (Euler angles, rad) and then a shift. */
export interface Pose {
  readonly turns: Vec3;
  readonly shift: Vec3;
}

export const toRad = (degrees: number): number => (degrees * Math.PI) / 180;

/** Evenly spread: `fc.double` mostly gives numbers that no builder would. */
export const real = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 1e6 }).map((share) => min + ((max - min) * share) / 1e6);

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
    trims: fc.oneof(fc.constant([0, 0] as const), fc.tuple(arbitraryTrim, arbitraryTrim)),
    gap: fc.oneof(fc.constant(0), real(0.01, 8)),
  });

/** None, less than a relief takes, or room for another flange. */
const arbitraryTrim = fc.oneof(fc.constant(0), real(0.2, 6), real(20, 90));

const arbitraryHem: fc.Arbitrary<HemRecipe> = fc.record({
  on: real(0, 0.999),
  hem: fc.record({
    kind: fc.constantFrom('closed', 'open'),
    length: real(9, 20),
    gap: real(1, 4),
    turned: fc.constantFrom('dry', 'wet'),
  }),
});

/** A root polygon with flanges on its edges, and flanges on those, in any pose. */
export const arbitraryPart = (most = 7): fc.Arbitrary<PartRecipe> =>
  fc.record({
    thickness: real(0.4, 3),
    radius: real(0.3, 4),
    reaches: fc.array(real(140, 320), { minLength: 3, maxLength: 7 }),
    sprouts: fc.array(arbitrarySprout(), { minLength: 1, maxLength: most }),
    hems: fc.constant([]),
    pose: arbitraryPose,
  });

/** The same with reflex, shallow and straight corners in the root, and hems. */
export const arbitraryWildPart: fc.Arbitrary<PartRecipe> = fc.record({
  thickness: real(0.4, 3),
  radius: fc.oneof(real(0.3, 4), fc.constant(0)),
  reaches: fc.oneof(
    fc.array(real(140, 320), { minLength: 3, maxLength: 7 }),
    fc.array(real(90, 400), { minLength: 6, maxLength: 9 }),
    fc.array(real(300, 302), { minLength: 14, maxLength: 20 }),
  ),
  sprouts: fc.array(arbitrarySprout(165), { minLength: 1, maxLength: 8 }),
  hems: fc.array(arbitraryHem, { maxLength: 3 }),
  pose: arbitraryPose,
});

const turnAbout = (point: Vec3, axis: Vec3, angle: number): Vec3 =>
  add(
    add(scale(point, Math.cos(angle)), scale(cross(axis, point), Math.sin(angle))),
    scale(axis, dot(axis, point) * (1 - Math.cos(angle))),
  );

export const posed = (point: Vec3, { turns, shift }: Pose): Vec3 => {
  const turned = turnAbout(turnAbout(turnAbout(point, [1, 0, 0], turns[0]), [0, 1, 0], turns[1]), [0, 0, 1], turns[2]);
  return add(turned, shift);
};

export const sheetOf = (thickness: number, radius: number, rest: Partial<Sheet> = {}): Sheet => ({
  name: 'skin',
  at: 1,
  material: 'stainless',
  thickness,
  gauge: undefined,
  radius,
  kFactor: undefined,
  coupon: undefined,
  grain: 'any',
  ...rest,
});

interface FreeLength {
  readonly panel: string;
  readonly start: Vec3;
  readonly end: Vec3;
  /** Edge of the panel, when all of it is still free. */
  readonly edge: number | undefined;
}

export interface PartPanels {
  readonly panels: Readonly<Record<string, readonly Vec3[]>>;
  readonly bends: readonly (readonly [string, string])[];
  readonly rims: readonly { readonly panel: string; readonly edge: number; readonly hem: Hem }[];
}

/** The panels of a recipe before any pose: corners to the sharp edges, each counter-clockwise seen from the same side. */
export const panelsOf = (recipe: PartRecipe): PartPanels => {
  const count = recipe.reaches.length;
  const root = recipe.reaches.map((reach, i): Vec3 => [
    reach * Math.cos((2 * Math.PI * i) / count),
    reach * Math.sin((2 * Math.PI * i) / count),
    0,
  ]);
  const panels: Record<string, readonly Vec3[]> = { p0: root };
  const bends: (readonly [string, string])[] = [];
  const free = edgesOf('p0', root);
  recipe.sprouts.forEach((sprout, i) => {
    const [place] = free.splice(Math.floor(sprout.on * free.length), 1);
    const name = `p${i + 1}`;
    const length = distance(place.start, place.end);
    const [before, after] = sprout.trims.map((trim) => Math.min(trim, 0.45 * length));
    const along = unit(subtract(place.end, place.start));
    const [start, end] = [addScaled(place.start, along, before), addScaled(place.end, along, -after)];
    panels[name] = sproutFrom(unit(areaVector(panels[place.panel])), start, end, sprout);
    bends.push([place.panel, name]);
    free.push(...edgesOf(name, panels[name]).slice(1));
    const left = { panel: place.panel, edge: undefined };
    if (before - sprout.gap > 15) free.push({ ...left, start: place.start, end: addScaled(start, along, -sprout.gap) });
    if (after - sprout.gap > 15) free.push({ ...left, start: addScaled(end, along, sprout.gap), end: place.end });
  });
  const rims = recipe.hems.flatMap(({ on, hem }) => {
    const whole = free.filter((place) => place.edge !== undefined);
    const place = whole[Math.floor(on * whole.length)];
    if (!place) return [];
    free.splice(free.indexOf(place), 1);
    return [{ panel: place.panel, edge: place.edge!, hem: hem.kind === 'closed' ? { ...hem, gap: 0 } : hem }];
  });
  return { panels, bends, rims };
};

const edgesOf = (panel: string, corners: readonly Vec3[]): FreeLength[] =>
  corners.map((start, edge) => ({ panel, start, end: corners[(edge + 1) % corners.length], edge }));

const sproutFrom = (normal: Vec3, start: Vec3, end: Vec3, { turn, length, flare }: Sprout): readonly Vec3[] => {
  const along = unit(subtract(end, start));
  const outward = cross(along, normal);
  const direction = add(scale(outward, Math.cos(turn)), scale(normal, Math.sin(turn)));
  const wide = distance(start, end);
  // Tapering in must leave a tip.
  const most = (0.4 * wide) / length;
  const [flareStart, flareEnd] = flare.map((f) => Math.max(f, -most));
  const tipStart = addScaled(addScaled(start, direction, length), along, -flareStart * length);
  const tipEnd = addScaled(addScaled(end, direction, length), along, flareEnd * length);
  // Runs against the parent along the bend: the same side of both is up.
  return [end, start, tipStart, tipEnd];
};

export const tubFrom = (recipe: PartRecipe, rest: Partial<Omit<Tub, 'panels' | 'bends'>> = {}): Tub => {
  const { panels, bends, rims } = panelsOf(recipe);
  const names = Object.keys(panels);
  const moved = Object.fromEntries(
    Object.entries(panels).map(([name, corners]) => [name, corners.map((c) => posed(c, recipe.pose))]),
  );
  return tubOf({
    sheets: [sheetOf(recipe.thickness, recipe.radius)],
    rims: rims.map(({ panel, edge, hem }, i) => ({
      at: 3000 + i,
      edge: { panel: names.indexOf(panel), edge, at: 3000 + i },
      hem,
    })),
    ...rest,
    panels: moved,
    bends,
  });
};

/** The same tub with every point through `map`. */
export const mapTub = (tub: Tub, map: (point: Vec3) => Vec3): Tub => ({
  ...tub,
  panels: tub.panels.map((panel): Panel => ({ ...panel, corners: panel.corners.map(map) })),
});
