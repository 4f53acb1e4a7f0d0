import fc from 'fast-check';
import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { Seam, SeamStyle, Tub } from '../../../src/analysis/model/tub.js';
import { posed, real, sheetOf, toRad, type Pose } from './arbitrary-part.js';
import { tubOf } from '../tub-of.js';
import { WELDED } from '../tubs/strip-and-sides.js';

export interface StripRecipe {
  readonly thickness: number;
  readonly radius: number;
  readonly sideThickness: number;
  /** Length and slope from level, deg, of each leg. */
  readonly legs: readonly (readonly [number, number])[];
  readonly wide: number;
  /** How much the left side leans and turns: x of its plane changes by these per mm back and up. */
  readonly lean: readonly [number, number];
  readonly pose: Pose;
}

/** Legs up and down at odd angles between two sides. No bend turns more than 120 deg. */
export const arbitraryStrip = (most: { readonly lean: number } = { lean: 0 }): fc.Arbitrary<StripRecipe> =>
  fc.record({
    thickness: real(0.5, 2),
    radius: real(0.3, 3),
    sideThickness: real(0.5, 2),
    legs: fc.array(fc.tuple(real(45, 200), real(-59, 59)), { minLength: 2, maxLength: 8 }),
    wide: real(150, 600),
    lean: fc.tuple(real(-most.lean, most.lean), real(-most.lean, most.lean)),
    // Turned about the upright, hardly tilted: the wet side stays the one that looks up.
    pose: fc.record({
      turns: fc.tuple(real(-0.2, 0.2), real(-0.2, 0.2), real(-3.1, 3.1)),
      shift: fc.tuple(real(-2000, 2000), real(-2000, 2000), real(-2000, 2000)),
    }),
  });

/**
 * Legs `leg0` …, then `left` and `right`; the seams `left strip`, `right strip` in the given style, sides first. Sides that
 * stand above the strip hold the liquid with it; with sides below it, the strip is a hump in the liquid.
 */
export const tubFromStrip = (
  recipe: StripRecipe,
  style: SeamStyle = { kind: 'corner' },
  sides: 'above' | 'below' = 'above',
): Tub => {
  const profile: [number, number][] = [[0, 0]];
  for (const [length, rise] of recipe.legs) {
    const [y, z] = profile[profile.length - 1];
    profile.push([y + length * Math.cos(toRad(rise)), z + length * Math.sin(toRad(rise))]);
  }
  const heights = profile.map(([, z]) => z);
  const border = sides === 'above' ? Math.max(...heights) + 60 : Math.min(...heights) - 60;
  const left = ([y, z]: readonly [number, number]): Vec3 => [recipe.lean[0] * y + recipe.lean[1] * z, y, z];
  const right = ([y, z]: readonly [number, number]): Vec3 => [2000 + recipe.wide, y, z];
  const panels: Record<string, readonly Vec3[]> = {};
  recipe.legs.forEach((_, i) => {
    panels[`leg${i}`] = [left(profile[i]), right(profile[i]), right(profile[i + 1]), left(profile[i + 1])];
  });
  const closed: [number, number][] = [...profile, [profile[profile.length - 1][0], border], [0, border]];
  panels.left = closed.map(left);
  panels.right = closed.map(right);
  const moved = Object.fromEntries(
    Object.entries(panels).map(([name, corners]) => [name, corners.map((c) => posed(c, recipe.pose))]),
  );
  const count = recipe.legs.length;
  const tub = tubOf({
    sheets: [sheetOf(recipe.thickness, recipe.radius), sheetOf(recipe.sideThickness, recipe.radius)],
    panels: moved,
    bends: recipe.legs.slice(1).map((_, i) => [`leg${i}`, `leg${i + 1}`] as const),
    seams: [count, count + 1].map((side) => sideSeam(side, count, style)),
  });
  return { ...tub, panels: tub.panels.map((panel, i) => ({ ...panel, sheet: i < count ? 0 : 1 })) };
};

const sideSeam = (side: number, legs: number, style: SeamStyle): Seam => ({
  name: `side${side} strip`,
  at: 5000 + side,
  ...WELDED,
  style,
  members: [
    { name: `side${side}`, at: 5000 + side, panels: [side], edge: undefined },
    { name: 'strip', at: 5000 + side, panels: Array.from({ length: legs }, (_, i) => i), edge: undefined },
  ],
});
