/**
 * The vocabulary of the project: one tub as its builder states it, evaluated to plain numbers.
 *
 * Lengths are mm, angles rad, points are in the tub's frame (x right, y back, z up); any other unit is in the name.
 * The value is immutable JSON. It may be faulty in every way a builder can be wrong: analysis reports, never throws.
 */
import type { Vec3 } from '../geometry/vec.js';

/** A place in the builder's text. Opaque here: the language layer keeps the table from id to text. */
export type SourceId = number;

/** Index into `Tub.sheets`, `Tub.panels`, … : names are for people, indices for the model. */
export type SheetIndex = number;
export type PanelIndex = number;
export type StripIndex = number;
export type OutletIndex = number;

export interface Tub {
  readonly name: string;
  readonly at: SourceId;
  readonly parameters: readonly Parameter[];
  readonly sheets: readonly Sheet[];
  readonly panels: readonly Panel[];
  readonly strips: readonly Strip[];
  readonly bends: readonly StatedBend[];
  readonly seams: readonly Seam[];
  readonly rims: readonly Rim[];
  readonly outlets: readonly Outlet[];
  readonly openings: readonly Opening[];
  readonly level: Level | undefined;
  readonly liquid: Liquid | undefined;
  readonly inflows: readonly Inflow[];
  readonly paths: readonly DrainPath[];
  readonly tanks: readonly Tank[];
  readonly dryZones: readonly Zone[];
  readonly keepouts: readonly Zone[];
  readonly accepts: readonly Accept[];
  /** Undefined when no shop is named: the documented default shop is meant. */
  readonly shop: Shop | undefined;
  /** What free values are worked out for. */
  readonly aim: Aim | undefined;
}

export type Dimension =
  'number' | 'length' | 'angle' | 'volume' | 'flow' | 'force' | 'mass' | 'viscosity' | 'density' | 'point';

/** A `let`: for hovers and for fixes that solve for a value. A point value is three lengths. */
export interface Parameter {
  readonly name: string;
  readonly at: SourceId;
  readonly dimension: Dimension;
  readonly value: number | Vec3;
}

export type Material = 'steel' | 'galvanized' | 'stainless' | 'aluminium' | 'copper' | 'brass';

export interface Sheet {
  readonly name: string;
  readonly at: SourceId;
  readonly material: Material;
  readonly thickness: number;
  /** The gauge number as written, when the thickness came from the table. */
  readonly gauge: number | undefined;
  /** Inside radius of every bend that states none. */
  readonly radius: number;
  /** K as the builder states it: neutral axis at K x thickness from the inside. */
  readonly kFactor: number | undefined;
  readonly coupon: Coupon | undefined;
  /** How the rolling direction shall lie to the bends; decides turning on the nest and the smallest radius. */
  readonly grain: 'any' | 'across bends' | 'along bends';
}

/** A test bend: a flat of known length, bent once, both legs measured over the outside. */
export interface Coupon {
  readonly at: SourceId;
  readonly flat: number;
  readonly legs: readonly [number, number];
  /** Deviation from flat. */
  readonly angle: number;
}

/** One flat face of sheet: a polygon on the wet face, to the sharp corners. */
export interface Panel {
  /** As one would refer to it from anywhere: `apron`, `floor.chute`. */
  readonly name: string;
  readonly at: SourceId;
  readonly sheet: SheetIndex;
  readonly corners: readonly Vec3[];
  /** Name of each corner where it is a named point, else undefined. */
  readonly cornerNames: readonly (string | undefined)[];
  /** Where each corner stands in the text; the statement itself when the corner is computed. */
  readonly cornerAts: readonly SourceId[];
  /** Edge `i` runs from corner `i` to the next; `start`, `end`, `left`, `right`, `top` name some of them. */
  readonly edgeNames: Readonly<Partial<Record<EdgeName, number>>>;
  readonly kind: PanelKind;
  /**
   * The wet side as the statement itself implies it (a leg: up at the start; a side: towards the strip; a flange:
   * as its parent): unit normal, or undefined for a panel by points.
   */
  readonly facing: Vec3 | undefined;
  /** Of a panel laid flat by `flattened`: how far each corner was moved for it, mm. */
  readonly movedBy?: readonly number[] | undefined;
}

export type EdgeName = 'start' | 'end' | 'left' | 'right' | 'top';

export type PanelKind =
  | { readonly kind: 'points' }
  | { readonly kind: 'leg'; readonly strip: StripIndex; readonly leg: number }
  | { readonly kind: 'side'; readonly strip: StripIndex; readonly end: 'left' | 'right' }
  | { readonly kind: 'flange'; readonly parent: EdgeRef };

export interface Strip {
  readonly name: string;
  readonly at: SourceId;
  readonly sheet: SheetIndex;
  /** In order of travel. */
  readonly panels: readonly PanelIndex[];
  readonly heading: Vec3;
  readonly across: Vec3;
  readonly width: number;
}

/** Edge of a panel, by the panel's own corner order. */
export interface EdgeRef {
  readonly panel: PanelIndex;
  readonly edge: number;
  readonly at: SourceId;
}

/** A bend the text asks for: between two legs of a strip, at a flange, or by a `bend` statement. */
export interface StatedBend {
  readonly name: string;
  readonly at: SourceId;
  readonly panels: readonly [PanelIndex, PanelIndex];
  readonly radius: number | undefined;
  readonly kFactor: number | undefined;
  readonly origin: 'strip' | 'flange' | 'statement';
}

/** The panels (or the single edge) that one side of a seam means. */
export interface SeamMember {
  readonly name: string;
  readonly at: SourceId;
  readonly panels: readonly PanelIndex[];
  readonly edge: EdgeRef | undefined;
}

export interface Seam {
  readonly name: string;
  readonly at: SourceId;
  readonly members: readonly [SeamMember, SeamMember];
  readonly style: SeamStyle;
  readonly weld: 'tig' | 'mig' | undefined;
  /** Width of the sealant bead in the joint, mm. */
  readonly sealant: number | undefined;
  readonly solder: boolean;
  /** Pitch of rivets through a lap, mm. */
  readonly rivets: number | undefined;
  readonly tabs: Tabs | undefined;
  /** Spot welds on each tab leg, or per row of a lap. */
  readonly spots: number | undefined;
  /** Liquid may pass below an edge that stands on a face: a stitched or tabbed foot of a divider. */
  readonly passage?: boolean;
  /** Largest gap the builder allows, mm. */
  readonly gapAtMost: number | undefined;
}

/** `over`: the first member runs on by the other's thickness to cover its edge. `lap`: it runs on by `by`. */
export type SeamStyle =
  { readonly kind: 'corner' } | { readonly kind: 'over' } | { readonly kind: 'lap'; readonly by: number };

export interface Tabs {
  readonly at: SourceId;
  /** Loose clips, or tabs of one piece with the seam's member of that index. */
  readonly on: 'loose' | 0 | 1;
  readonly wide: number;
  readonly deep: number;
  readonly every: number;
  /** The clip's bend is set in by this much, so that it pulls the panels together. */
  readonly inset: number;
  /** Kept free at each end of a stretch; undefined: the documented default. */
  readonly margin: number | undefined;
}

/** What becomes of a free edge. */
export interface Rim {
  readonly at: SourceId;
  readonly edge: EdgeRef;
  readonly hem: Hem | undefined;
}

export interface Hem {
  readonly kind: 'closed' | 'open';
  /** Length of the turned-back lip. */
  readonly length: number;
  /** Inner gap of an open hem; 0 for a closed one. */
  readonly gap: number;
  /** Towards the dry side unless stated. */
  readonly turned: 'dry' | 'wet';
}

export interface Outlet {
  readonly name: string;
  readonly at: SourceId;
  readonly panel: PanelIndex;
  readonly center: Vec3;
  readonly diameter: number;
  /** Length of a turned-down spout below the dry face; 0: a bare hole. */
  readonly lip: number;
  /** Height of an edge that stands up above the wet face; 0: flush. */
  readonly raised: number;
  readonly strainer: Strainer | undefined;
  /** Index into `Tub.openings` of the hole itself. */
  readonly opening: number;
}

export interface Strainer {
  readonly at: SourceId;
  /** Wires per inch; undefined when the aperture is stated. */
  readonly meshPerInch: number | undefined;
  readonly wire: number | undefined;
  readonly aperture: number | undefined;
  readonly size: readonly [number, number];
  /** Share of the open area that is taken as blocked, 0..1. */
  readonly blocked: number;
  /** Smallest passage downstream that the strainer protects. */
  readonly passage: number | undefined;
  /** Screws and nuts of a frame that is bolted in, when stated. */
  readonly bolted: Fastener | undefined;
}

export interface Opening {
  readonly name: string;
  readonly at: SourceId;
  readonly panel: PanelIndex;
  readonly use: 'outlet' | 'hole' | 'cutout' | 'slot';
  readonly shape: OpeningShape;
  readonly fastener: Fastener | undefined;
}

/** On the panel's wet face; a centre that lies off the plane is reported and then put onto it. */
export type OpeningShape =
  | { readonly kind: 'round'; readonly center: Vec3; readonly diameter: number }
  | {
      readonly kind: 'slot';
      readonly center: Vec3;
      readonly along: 'upright' | 'level';
      readonly length: number;
      readonly width: number;
    }
  | { readonly kind: 'window'; readonly from: Vec3; readonly to: Vec3 };

export interface Fastener {
  readonly kind: 'rivetnut' | 'screw';
  /** Metric thread size: 6 for M6. */
  readonly thread: number;
  readonly sealed: boolean;
}

export interface Level {
  readonly at: SourceId;
  readonly within: number;
}

export interface Liquid {
  readonly name: string;
  readonly at: SourceId;
  readonly viscosityCst: number;
  readonly densityKgM3: number;
}

export interface Inflow {
  readonly name: string;
  readonly at: SourceId;
  readonly panel: PanelIndex;
  /** Where it lands; undefined: spread evenly over the panel. */
  readonly point: Vec3 | undefined;
  readonly rateMm3S: number;
  readonly solids: { readonly kind: 'chips' | 'sludge' | 'scraps'; readonly rateMm3S: number } | undefined;
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

/** A limit of what is accepted, in the unit of a finding's measure (mm, deg, L, L/min, kN, or none), and as written. */
export interface AcceptedMost {
  readonly value: number;
  readonly text: string;
}

/** A finding taken on purpose. */
export interface Accept {
  readonly at: SourceId;
  readonly code: string;
  /** The name as a finding's `about` gives it, or of the strip that it is a leg of; undefined: all of that code. */
  readonly on: string | undefined;
  /** The worst that is taken; undefined: anything. */
  readonly most: AcceptedMost | undefined;
  /** Of a used file: the ids of that file, in which alone it holds. */
  readonly within: readonly [SourceId, SourceId] | undefined;
  readonly because: string;
}

export interface Aim {
  readonly at: SourceId;
  /** In the order of the text: of two goals the first counts more. */
  readonly wishes: readonly Wish[];
}

/** `text`: as the builder wrote it. */
export type Wish = { readonly at: SourceId; readonly text: string } & (
  | { readonly kind: 'goal'; readonly way: 'least' | 'most'; readonly of: Aspect }
  /** `limit` in mm, rad, kg, mm2, mm3 or a count. */
  | { readonly kind: 'bound'; readonly way: 'least' | 'most'; readonly of: Aspect; readonly limit: number }
  | { readonly kind: 'stock' }
  | { readonly kind: 'findings'; readonly none: 'errors' | 'warnings' }
);

/** What can be measured of a tub. */
export type Aspect =
  | { readonly kind: 'capacity' | 'mass' | 'sheet' | 'bends' }
  | { readonly kind: 'slope'; readonly panel: PanelIndex }
  | { readonly kind: 'value'; readonly name: string; readonly dimension: Dimension; readonly value: number };

export interface Shop {
  readonly name: string;
  readonly at: SourceId;
  readonly pressBrakes: readonly PressBrake[];
  readonly foldingBrakes: readonly FoldingBrake[];
  readonly cutters: readonly Cutter[];
  readonly spotWelders: readonly SpotWelder[];
  /** How true a bend is held, ± rad. */
  readonly bendsWithin: number | undefined;
  /** How true a mark is placed, ± mm. */
  readonly marksWithin: number | undefined;
  readonly stock: readonly Stock[];
}

/** Outline of a tool in the plane across the bend line: (distance from the line, height), mm; closed polygon. */
export type ToolProfile = readonly (readonly [number, number])[];

export interface PressBrake {
  readonly name: string;
  readonly at: SourceId;
  readonly forceN: number;
  readonly bed: number;
  /** V openings. */
  readonly dies: readonly number[];
  readonly punchRadius: number;
  /** Half angle of the punch's nose to its middle plane is `nose / 2`. */
  readonly nose: number;
  /** Widths of the punch segments; empty: one of full length. */
  readonly fingers: readonly number[];
  /** Height of the punch below the beam. */
  readonly depth: number;
  /** Daylight between die and punch. */
  readonly opening: number;
  readonly punchProfile: ToolProfile | undefined;
  readonly dieProfile: ToolProfile | undefined;
}

export interface FoldingBrake {
  readonly name: string;
  readonly at: SourceId;
  readonly width: number;
  /** Thickest mild steel over the full width. */
  readonly capacity: number;
  /** Room behind the nose for what is folded already. */
  readonly depth: number;
  readonly nose: number;
  readonly angleAtMost: number;
  readonly fingers: readonly number[];
  readonly clampProfile: ToolProfile | undefined;
  readonly leafProfile: ToolProfile | undefined;
}

export interface Cutter {
  readonly name: string;
  readonly at: SourceId;
  readonly bed: readonly [number, number];
  readonly kerf: number;
  readonly smallestHole: number;
  readonly penOffset: readonly [number, number];
}

export interface SpotWelder {
  readonly name: string;
  readonly at: SourceId;
  readonly throat: number;
  readonly opening: number;
  /** Thickest pair of sheets. */
  readonly sheetsAtMost: readonly [number, number];
}

export interface Stock {
  readonly at: SourceId;
  readonly material: Material;
  readonly thickness: number;
  /** The longer side is the rolling direction. */
  readonly size: readonly [number, number];
  readonly count: number | undefined;
}
