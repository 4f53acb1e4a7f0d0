/** The plan for filling the finished tub and looking for drops. */
import type { Joints } from '../join/joints.js';
import type { OutletIndex, Tub } from '../model/tub.js';
import { contentAt } from '../water/capacity.js';
import type { Water } from '../water/water.js';
import { contentOf, heldWater, type HeldWater, type Holding } from './held-water.js';
import { lowEnd } from '../shape/account/edge-account.js';
import type { Leak } from './leak.js';
import { orificeFlow } from '../water/outlet/outlet-head.js';
import { loadsOn, type Load } from '../water/load.js';
import { together, type MassPoint, type TubMass } from './tub-mass.js';
import { waterBody } from './water-body.js';
import type { Watertight } from './watertight.js';

export interface FillTest {
  /** Outlets to plug, by index: those of all chambers. */
  readonly plugs: readonly OutletIndex[];
  /** Level to which the main basin holds: the lowest leak as drawn that its water reaches, or sill of a notch, else where it runs over. */
  readonly holdsTo: number;
  /** mm3: all waters. */
  readonly holds: number;
  readonly limitedBy: Leak | undefined;
  /** Level to fill the main basin to: a little under `holdsTo`, so that nothing runs over and hides a leak. */
  readonly level: number;
  /** mm3: all waters, each filled to a little under where it runs over or out. */
  readonly volume: number;
  /** kg of the liquid, and of all that the stand carries: tub, what lies in it and comes out again, and liquid. */
  readonly liquid: number;
  readonly full: MassPoint;
  /** Everything that is filled, the main basin first. */
  readonly waters: readonly FilledWater[];
  /** s. */
  readonly watch: number;
  readonly seams: readonly WatchedSeam[];
  /** Where there are several: one after the other, each while those after it are empty. */
  readonly chambers: readonly ChamberFill[];
}

/** One water of the full tub; beside it others stand at levels of their own. */
export interface FilledWater extends HeldWater {
  /** Level to fill to, mm, and what that is, mm3. */
  readonly fillTo: number;
  readonly volume: number;
  readonly holds: number;
  /** Indices into `Water.chambers` of those that are under it. */
  readonly chambers: readonly number[];
}

/** One chamber filled by itself. */
export interface ChamberFill {
  /** Index into `Water.chambers`. */
  readonly chamber: number;
  readonly level: number;
  /** mm3. */
  readonly volume: number;
  /** On the dividers that it stands against, the other side dry. */
  readonly loads: readonly Load[];
  /** Chambers on the other side of these that are still empty: nothing may come into them. */
  readonly empty: readonly number[];
}

/** A seam under the test's level. */
export interface WatchedSeam {
  readonly seam: number;
  readonly lowest: number;
  /** Depth of its lowest point, mm. */
  readonly head: number;
}

/** mm. Kept free below the level at which it runs over. Common practice, no source. */
const BELOW_BRIM = 3;

/** s. Least time to watch. Common practice, no source. */
const LEAST_WATCH = 30 * 60;

/** The smallest leak worth finding: a pinhole of 0.1 mm that shows once a millilitre has come out. Common practice, no source. */
const PINHOLE = 0.1;
const SHOWS = 1000;

/** Discharge coefficient of a sharp-edged orifice. Source: hydraulics handbooks, 0.61 to 0.63. */
const DISCHARGE = 0.61;

export interface FillInput {
  readonly tub: Tub;
  readonly water: Water;
  readonly watertight: Watertight;
  readonly joints: Joints;
  readonly mass: TubMass;
}

/** Plan for all that holds water; undefined where nothing does. */
export const fillTestOf = (input: FillInput): FillTest | undefined => {
  const { tub, water, watertight, joints, mass } = input;
  const basins = water.basins();
  if (basins.length === 0 || !Number.isFinite(basins[0].level)) return undefined;
  const holding = heldWater(tub, water, watertight);
  const filled = holding.waters.map((held) => filledWater(water, held));
  const [main] = filled;
  const liquid = together(filled.map((each) => liquidIn(water, each)));
  const deepest = Math.max(...filled.map(({ lowest, fillTo }) => fillTo - heightOf(water, lowest)));
  return {
    plugs: [...new Set(basins.flatMap(({ outlets }) => outlets))]
      .filter((outlet) => !tub.outlets[outlet].weir)
      .sort((p, q) => p - q),
    holdsTo: main.level,
    holds: filled.reduce((sum, { holds }) => sum + holds, 0),
    limitedBy: main.leak,
    level: main.fillTo,
    volume: filled.reduce((sum, { volume }) => sum + volume, 0),
    liquid: liquid.mass,
    full: together([mass.empty, mass.removable, liquid]),
    waters: filled,
    watch: watchTime(deepest),
    seams: tub.seams.flatMap((_, seam) => watched(joints, seam, filled)),
    chambers: chamberFills(water, holding),
  };
};

const heightOf = (water: Water, point: number): number => water.surface().points[point][2];

const filledWater = (water: Water, held: HeldWater): FilledWater => {
  const surface = water.surface();
  const fillTo = Math.max(heightOf(water, held.lowest), held.level - BELOW_BRIM);
  const { volume } = contentOf(water, held, fillTo);
  const { volume: holds, points } = contentOf(water, held);
  const chambers = water.chambers().flatMap(({ lowest }, i) => (points.has(surface.points.indexOf(lowest)) ? [i] : []));
  return { ...held, fillTo, volume, holds, chambers };
};

const liquidIn = (water: Water, held: FilledWater): MassPoint => {
  const { points } = contentOf(water, held, held.fillTo);
  const body = waterBody(water.surface(), [...points], held.fillTo);
  return { mass: (Math.max(0, body.volume) * water.liquid.densityKgM3) / 1e9, centre: body.centre };
};

/** N. A baffle with water on both sides is only lifted a little. Common practice, no source. */
const LEAST_LOAD = 1;

const chamberFills = (water: Water, { levelAt }: Holding): readonly ChamberFill[] => {
  const chambers = water.chambers();
  if (chambers.length < 2) return [];
  const surface = water.surface();
  return chambers.map(({ level: brim, lowest }, chamber) => {
    const from = surface.points.indexOf(lowest);
    const level = Math.max(lowest[2], Math.min(brim, levelAt(from)) - BELOW_BRIM);
    const { volume, points } = contentAt(surface, from, level);
    const loads = loadsOn(surface, [...points], level, water.liquid.densityKgM3).filter(
      ({ force }) => force >= LEAST_LOAD,
    );
    const against = new Set(loads.map(({ face }) => face));
    const isBeside = (other: number): boolean =>
      other > chamber && chambers[other].faces.some((face) => against.has(face));
    return { chamber, level, volume, loads, empty: chambers.map((_, other) => other).filter(isBeside) };
  });
};

/**
 * Time for a millilitre to come through a 0.1 mm pinhole under a tenth of the depth (most of the seams lie deeper), at
 * least half an hour, in whole 5 minutes. Orifice: Q = Cd A sqrt(2 g h).
 */
const watchTime = (depth: number): number => {
  const head = Math.max(depth / 10, 1);
  const flow = orificeFlow((Math.PI / 4) * PINHOLE ** 2, head, DISCHARGE);
  const step = 5 * 60;
  return Math.max(LEAST_WATCH, Math.ceil(SHOWS / flow / step) * step);
};

/** Under the highest of the waters that stand against it. */
const watched = (joints: Joints, seam: number, filled: readonly FilledWater[]): readonly WatchedSeam[] => {
  const { runs } = joints.seams[seam];
  const lowest = Math.min(...runs.map(({ run }) => lowEnd(run)[2]), Infinity);
  const faces = new Set(runs.flatMap(({ run }) => run.sides.map(({ face }) => face)));
  const level = Math.max(
    -Infinity,
    ...filled.filter((each) => each.faces.some((face) => faces.has(face))).map(({ fillTo }) => fillTo),
  );
  return lowest < level ? [{ seam, lowest, head: level - lowest }] : [];
};
