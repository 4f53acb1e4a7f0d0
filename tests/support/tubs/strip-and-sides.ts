import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { Seam, SeamMember, Tub } from '../../../src/analysis/model/tub.js';
import { tubOf } from '../tub-of.js';

/** (distance from the back, height) of a strip seen from the side: from the rim down, through a zigzag, up to the rim. */
export const zigzag: readonly (readonly [number, number])[] = [
  [0, 200],
  [0, 120],
  [150, 112],
  [210, 60],
  [330, 52],
  [360, 200],
];

export const member = (tub: Tub, name: string, panels: readonly number[]): SeamMember => ({
  name,
  at: tub.at,
  panels,
  edge: undefined,
});

/** Edge on edge, welded, and nothing else. */
export const WELDED: Omit<Seam, 'name' | 'at' | 'members'> = {
  style: { kind: 'corner' },
  weld: 'tig',
  sealant: undefined,
  solder: false,
  tabs: undefined,
  spots: undefined,
  gapAtMost: undefined,
  clampAtMostN: undefined,
};

export const seamOf = (tub: Tub, a: SeamMember, b: SeamMember, rest: Partial<Seam> = {}): Seam => ({
  name: `${a.name} ${b.name}`,
  at: 3000 + tub.seams.length,
  members: [a, b],
  ...WELDED,
  ...rest,
});

/** The legs of a strip along `profile`, `wide` across, by name. */
export const legsAlong = (
  profile: readonly (readonly [number, number])[],
  wide: number,
): Readonly<Record<string, readonly Vec3[]>> =>
  Object.fromEntries(
    profile.slice(1).map(([y2, z2], i): [string, readonly Vec3[]] => {
      const [y1, z1] = profile[i];
      return [
        `leg${i + 1}`,
        [
          [0, y1, z1],
          [wide, y1, z1],
          [wide, y2, z2],
          [0, y2, z2],
        ],
      ];
    }),
  );

/** A strip along `profile`, `wide` across, closed by two flat cheeks; seams `cheek strip` with `rest`. */
export const stripAndSides = (
  profile: readonly (readonly [number, number])[],
  wide: number,
  rest: Partial<Seam> = {},
): Tub => {
  const legs = legsAlong(profile, wide);
  const names = Object.keys(legs);
  const cheek = (x: number): Vec3[] => profile.map(([y, z]): Vec3 => [x, y, z]);
  const tub = tubOf({
    panels: { ...legs, left: cheek(0), right: cheek(wide) },
    bends: names.slice(1).map((name, i): [string, string] => [names[i], name]),
  });
  const strip = member(
    tub,
    'strip',
    names.map((_, i) => i),
  );
  const seams = ['left', 'right'].map((side, i) =>
    seamOf({ ...tub, seams: Array(i).fill(undefined) }, member(tub, side, [names.length + i]), strip, rest),
  );
  return { ...tub, seams };
};

export const looseClips: Partial<Seam> = {
  tabs: { at: 0, on: 'loose', wide: 18, deep: 14, every: 70, inset: 0.8, margin: undefined },
  spots: 1,
};

export const tabsOnStrip: Partial<Seam> = {
  tabs: { at: 0, on: 1, wide: 18, deep: 14, every: 70, inset: 0.8, margin: undefined },
  spots: 1,
};
