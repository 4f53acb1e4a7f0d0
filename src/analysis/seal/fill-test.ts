/** The plan for filling the finished tub and looking for drops. */
import type { Joints } from '../join/joints.js';
import type { OutletIndex, Tub } from '../model/tub.js';
import { contentAt, type Basin } from '../water/capacity.js';
import type { Water } from '../water/water.js';
import { lowEnd } from '../shape/edge-account.js';
import type { Leak } from './leak.js';
import { orificeFlow } from '../water/outlet/outlet-head.js';
import { mouthOf } from '../water/outlet/outlets.js';
import { loadsOn, type Load } from '../water/load.js';
import { together, type MassPoint, type TubMass } from './tub-mass.js';
import { waterBody } from './water-body.js';
import type { Watertight } from './watertight.js';

export interface FillTest {
  /** Outlets to plug, by index. */
  readonly plugs: readonly OutletIndex[];
  /** Level to which the tub holds: the lowest leak as drawn that the water reaches, or sill of a notch, else where it runs over. */
  readonly holdsTo: number;
  readonly holds: number;
  readonly limitedBy: Leak | undefined;
  /** Level to fill to: a little under `holdsTo`, so that nothing runs over and hides a leak. */
  readonly level: number;
  /** mm3. */
  readonly volume: number;
  /** kg of the liquid, and of all that the stand carries: tub, what lies in it and comes out again, and liquid. */
  readonly liquid: number;
  readonly full: MassPoint;
  /** s. */
  readonly watch: number;
  readonly seams: readonly WatchedSeam[];
  /** Where there are several: one after the other, each while those after it are empty. */
  readonly chambers: readonly ChamberFill[];
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

/** Plan for the main basin; undefined where nothing holds water. */
export const fillTestOf = (input: FillInput): FillTest | undefined => {
  const { tub, water, watertight, joints, mass } = input;
  const basin = water.basins().at(0);
  if (!basin || !Number.isFinite(basin.level)) return undefined;
  const limitedBy = lowestIn(basin, watertight);
  const holdsTo = Math.min(basin.level, limitedBy?.height ?? Infinity, lowestSill(tub, water, basin.outlets));
  const level = Math.max(basin.lowest[2], holdsTo - BELOW_BRIM);
  const surface = water.surface();
  const { points } = basin.pool;
  const lowest = points.reduce((low, p) => (surface.points[p][2] < surface.points[low][2] ? p : low));
  const content = contentAt(surface, basin.pool, lowest, level);
  const body = waterBody(surface, [...content.points], level);
  const liquid = (Math.max(0, body.volume) * water.liquid.densityKgM3) / 1e9;
  return {
    plugs: basin.outlets.filter((outlet) => !tub.outlets[outlet].weir),
    holdsTo,
    holds: contentAt(surface, basin.pool, lowest, holdsTo).volume,
    limitedBy,
    level,
    volume: content.volume,
    liquid,
    full: together([mass.empty, mass.removable, { mass: liquid, centre: body.centre }]),
    watch: watchTime(level - basin.lowest[2]),
    seams: tub.seams.flatMap((_, seam) => watched(joints, seam, level)),
    chambers: chamberFills(tub, water),
  };
};

/** N. A baffle with water on both sides is only lifted a little. Common practice, no source. */
const LEAST_LOAD = 1;

/** Height of the lowest sill that is open to the edge above it, which no plug shuts; Infinity: there is none. */
const lowestSill = (tub: Tub, water: Water, outlets: readonly OutletIndex[]): number =>
  Math.min(
    ...outlets
      .filter((outlet) => tub.outlets[outlet].weir)
      .flatMap((outlet) => mouthOf({ tub, surface: water.surface(), liquid: water.liquid }, outlet)?.lip ?? []),
  );

const chamberFills = (tub: Tub, water: Water): readonly ChamberFill[] => {
  const chambers = water.chambers();
  if (chambers.length < 2) return [];
  const surface = water.surface();
  return chambers.map(({ level: brim, lowest, outlets }, chamber) => {
    const level = Math.max(lowest[2], Math.min(brim, lowestSill(tub, water, outlets)) - BELOW_BRIM);
    const from = surface.points.indexOf(lowest);
    const { volume, points } = contentAt(surface, undefined, from, level);
    const loads = loadsOn(surface, [...points], level, water.liquid.densityKgM3).filter(
      ({ force }) => force >= LEAST_LOAD,
    );
    const against = new Set(loads.map(({ face }) => face));
    const isBeside = (other: number): boolean =>
      other > chamber && chambers[other].faces.some((face) => against.has(face));
    return { chamber, level, volume, loads, empty: chambers.map((_, other) => other).filter(isBeside) };
  });
};

const lowestIn = (basin: Basin, { leaks }: Watertight): Leak | undefined => {
  const faces = new Set(basin.faces);
  return leaks.find(
    (leak) => leak.isUnderWater && leak.isAsDrawn && !leak.isInside && leak.faces.some((face) => faces.has(face)),
  );
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

const watched = (joints: Joints, seam: number, level: number): readonly WatchedSeam[] => {
  const lowest = Math.min(...joints.seams[seam].runs.map(({ run }) => lowEnd(run)[2]), Infinity);
  return lowest < level ? [{ seam, lowest, head: level - lowest }] : [];
};
