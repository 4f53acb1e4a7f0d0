/** What the tub is used for: its stand, its liquid, where that comes from and goes, and what stands around. */
import type { Vec3 } from '../geometry/vec.js';
import type { OutletIndex, PanelIndex, SourceId } from './place.js';

export interface Level {
  readonly at: SourceId;
  readonly within: number;
}

export interface Liquid {
  readonly name: string;
  readonly at: SourceId;
  readonly viscosityCst: number;
  readonly densityKgM3: number;
  /** As stated; undefined: as of the liquid of that name. */
  readonly surfaceTensionMNM: number | undefined;
  readonly contactAngleDeg: number | undefined;
}

export interface Inflow {
  readonly name: string;
  readonly at: SourceId;
  readonly panel: PanelIndex;
  /** Where it lands; undefined: spread evenly over the panel. */
  readonly point: Vec3 | undefined;
  /** How far it falls freely before it lands; undefined: not stated, and nothing is said of what splashes. */
  readonly fall?: number | undefined;
  /** Of a pumped one what its curve and hose give with the tank filled to its working volume; at work it brings less (`InflowFlow`). */
  readonly rateMm3S: number;
  readonly pump?: Pump | undefined;
  readonly solids: { readonly kind: 'chips' | 'sludge' | 'scraps'; readonly rateMm3S: number } | undefined;
}

/** A pump in a tank, and the hose to where its liquid comes in. */
export interface Pump {
  readonly at: SourceId;
  /** Index into `Tub.tanks`. */
  readonly tank: number;
  readonly inlet: Vec3;
  /** Where the hose lets go. */
  readonly outlet: Vec3;
  /** How high it lifts how much: flows rising, heads falling. */
  readonly curve: readonly CurvePoint[];
  readonly hose: { readonly bore: number; readonly length: number; readonly bends: number };
  /** Depth of liquid over the inlet that it needs, as stated. */
  readonly covered: number | undefined;
}

export interface CurvePoint {
  readonly rateMm3S: number;
  readonly head: number;
}

/** How the tub is used over a week. Rates that are not stated are not counted. */
export interface Air {
  /** Of the air, and of the water. */
  readonly celsius: number;
  /** Share of what it can hold. */
  readonly humidity: number;
  readonly windMmS: number;
}

export interface Week {
  readonly at: SourceId;
  readonly hoursPerDay: number;
  readonly days: number;
  /** All strainers are cleaned, and the tanks filled up again, each so many days; undefined: not within the week. */
  readonly cleanedEvery: number | undefined;
  readonly toppedUpEvery: number | undefined;
  /** While it runs, and all the time. */
  readonly splashMm3S: number | undefined;
  readonly evaporatesMm3S: number | undefined;
  /** Of the place where it stands, from which the rate follows; undefined: not stated. */
  readonly air: Air | undefined;
  /** Kept free below where the tub runs over, mm. */
  readonly margin: number;
}

export interface DrainPath {
  readonly at: SourceId;
  readonly stops: readonly PathStop[];
  /** Least inclination along it; undefined: the documented default. */
  readonly atLeast: number | undefined;
}

export type PathStop = { readonly at: SourceId; readonly name: string } & (
  { readonly kind: 'panel'; readonly panel: PanelIndex } | { readonly kind: 'outlet'; readonly outlet: OutletIndex }
);

export interface Tank {
  readonly name: string;
  readonly at: SourceId;
  readonly capacityMm3: number;
  readonly workingMm3: number;
  readonly under: readonly OutletIndex[];
  /** Its inside, when stated: gives the levels. */
  readonly box: Box | undefined;
}

export interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

export interface Zone {
  readonly name: string;
  readonly at: SourceId;
  readonly box: Box;
}
