import fc from 'fast-check';
import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { sheet18, tubOf, withOutlet } from '../tub-of.js';

/** A pan with dividers that stand in it, in whole millimetres, and the boxes that their metal fills. */
export interface ChambersCase {
  readonly tub: Tub;
  readonly rim: number;
  readonly posts: readonly {
    readonly from: readonly [number, number];
    readonly to: readonly [number, number];
    readonly top: number;
  }[];
  /** A divider ends short of the next: behind it the floor may make a hollow of its own. */
  readonly isShort: boolean;
  /** Each bay between the dividers, as it fills until it runs over one of them or the rim. */
  readonly bays: readonly { readonly level: number; readonly volume: number; readonly drains: boolean }[];
}

/** mm. A multiple of the raster's cell. */
const THICK = 3;
const RIM = 130;

interface Draw {
  readonly size: readonly [number, number];
  readonly fall: readonly [number, number];
  /** Dividers from front to back: room before it, top, metal to the right. */
  readonly across: readonly (readonly [number, number, boolean])[];
  /** One along the pan in the bay before the first of them, which may end short of it. */
  readonly along: { readonly top: number; readonly short: number; readonly back: boolean } | undefined;
  readonly drain: readonly [number, number];
}

type Wall = readonly Vec3[];

export const chambersOf = ({ size: [, deep], fall, across, along, drain }: Draw): ChambersCase => {
  const starts: number[] = [];
  let x = 0;
  for (const [room] of across) {
    starts.push(x + room);
    x += room + THICK;
  }
  const wide = x + 40;
  const floorAt = (px: number, py: number): number => 40 + fall[0] * px + fall[1] * py;
  const at = (px: number, py: number): Vec3 => [px, py, floorAt(px, py)];
  const upright = (a: readonly [number, number], b: readonly [number, number], top: number): Wall => [
    at(...a),
    at(...b),
    [b[0], b[1], top],
    [a[0], a[1], top],
  ];
  const plan: readonly (readonly [number, number])[] = [
    [0, 0],
    [wide, 0],
    [wide, deep],
    [0, deep],
  ];
  const panels: Record<string, Wall> = { floor: plan.map(([px, py]) => at(px, py)) };
  plan.forEach((corner, i) => (panels[`wall${i}`] = upright(corner, plan[(i + 1) % 4], RIM)));
  const facing: Record<string, Vec3> = {};
  const posts: ChambersCase['posts'][number][] = [];
  across.forEach(([, top, toRight], i) => {
    const front = starts[i] + (toRight ? 0 : THICK);
    panels[`across${i}`] = upright([front, 0], [front, deep], top);
    facing[`across${i}`] = [toRight ? -1 : 1, 0, 0];
    posts.push({ from: [starts[i], 0], to: [starts[i] + THICK, deep], top });
  });
  if (along) {
    const y = Math.round(deep / 2);
    const end = Math.max(10, (starts[0] ?? wide) - along.short);
    const top = along.short === 0 && across.length > 0 ? Math.min(along.top, across[0][1]) : along.top;
    panels.along = upright([0, y], [end, y], top);
    facing.along = [0, along.back ? -1 : 1, 0];
    posts.push({ from: [0, along.back ? y : y - THICK], to: [end, along.back ? y + THICK : y], top });
  }
  const bare = tubOf({ panels, sheets: [{ ...sheet18, thickness: THICK }] });
  const tub = {
    ...bare,
    panels: bare.panels.map((panel) =>
      facing[panel.name] ? { ...panel, facing: facing[panel.name], isMetalStated: true } : panel,
    ),
  };
  const bay = Math.min(across.length, Math.floor(drain[0] * (across.length + 1)));
  const left = bay === 0 ? 0 : starts[bay - 1] + THICK;
  const right = starts[bay] ?? wide;
  const place = at((left + right) / 2, Math.round(deep * (drain[1] < 0.5 ? 0.25 : 0.75)));
  const bays = baysOf(starts, wide, deep, { across, along }).map(({ from, to, level }) => {
    const middle = floorAt((from[0] + to[0]) / 2, (from[1] + to[1]) / 2);
    const drains = place[0] > from[0] && place[0] < to[0] && place[1] > from[1] && place[1] < to[1];
    const volume = (to[0] - from[0]) * (to[1] - from[1]) * (level - middle);
    return { level, volume, drains };
  });
  return { tub: withOutlet(tub, 0, place, 8), rim: RIM, posts, bays, isShort: (along?.short ?? 0) > 0 };
};

interface Bay {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly level: number;
}

/** The rooms between dividers that reach from wall to wall; each runs over the lowest thing around it. Floors lie below all tops. */
const baysOf = (
  starts: readonly number[],
  wide: number,
  deep: number,
  { across, along }: Pick<Draw, 'across' | 'along'>,
): readonly Bay[] => {
  const lefts = [0, ...starts.map((start) => start + THICK)];
  const rights = [...starts, wide];
  const around = lefts.map((_, i) => Math.min(RIM, across[i - 1]?.[1] ?? RIM, across[i]?.[1] ?? RIM));
  const whole = lefts.map((left, i): Bay => ({ from: [left, 0], to: [rights[i], deep], level: around[i] }));
  if (along?.short !== 0) return whole;
  const y = Math.round(deep / 2);
  const level = Math.min(around[0], along.top);
  const front: Bay = { from: [0, 0], to: [rights[0], along.back ? y : y - THICK], level };
  const back: Bay = { from: [0, along.back ? y + THICK : y], to: [rights[0], deep], level };
  // Two that are as high as the divider beside them count as one place to run over.
  return [front, back, ...whole.slice(1)];
};

const whole = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max });
const share = fc.double({ min: 0, max: 0.999, noNaN: true });
const fallOf = whole(-200, 200).map((share) => share / 1000);

/** One to four chambers and an outlet of 8 mm in one of them. */
export const arbitraryChambers: fc.Arbitrary<ChambersCase> = fc
  .record({
    size: fc.tuple(whole(60, 120), whole(60, 120)),
    fall: fc.tuple(fallOf, fallOf),
    across: fc.array(fc.tuple(whole(18, 50), whole(75, RIM), fc.boolean()), { maxLength: 3 }),
    along: fc.option(fc.record({ top: whole(75, RIM), short: fc.constantFrom(0, 0, 8, 15), back: fc.boolean() }), {
      nil: undefined,
    }),
    drain: fc.tuple(share, share),
  })
  .map(chambersOf);
