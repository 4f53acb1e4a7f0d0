/**
 * What the preview draws, as plain JSON: a list of items, each with a key that stays the same over edits that keep
 * the names, so that only what changed has to be sent and repainted.
 *
 * Lengths mm, angles rad unless the name says otherwise, rounded for drawing only (0.001 mm, 1e-6 of a unit vector).
 * What an analysis cannot tell stands in a `note`; nothing is drawn in its place.
 */
import type { Vec2, Vec3 } from '../geometry/vec.js';
import type { SourceId } from '../model/tub.js';
import type { NestCourse } from '../nest/nest.js';
import type { Told, ToldItem } from './told-item.js';
import type { HoursLineItem, HoursMarkItem, ChoiceAxesItem, ChoiceItem } from './plot-items.js';

export type View = 'flat' | 'folded' | 'water' | 'hours' | 'bends' | 'nest' | 'choices';

/** Of the numbers that a builder reads: those of his text. */
export type ScreenUnits = 'mm' | 'in';

export interface SceneEntry {
  readonly key: string;
  /** The place in the text that it shows; undefined: none. */
  readonly at: SourceId | undefined;
  readonly item: SceneItem;
}

export type SceneItem =
  | NoteItem
  | FlatPartItem
  | FlatPanelItem
  | FlatBendItem
  | PlateItem
  | RollItem
  | ThingItem
  | SpanItem
  | WayItem
  | WaterFaceItem
  | WaterPoolItem
  | WaterLevelItem
  | WaterFlowItem
  | WaterFillItem
  | WaterSpotItem
  | BendOrderItem
  | BendStepItem
  | BendRowItem
  | NestStateItem
  | NestSheetItem
  | NestPieceItem
  | HoursLineItem
  | HoursMarkItem
  | ChoiceAxesItem
  | ChoiceItem;

/** `[x, y, bulge]` per vertex, closed, first vertex not repeated. */
export type DrawnContour = readonly (readonly [number, number, number])[];

export interface DrawnFrame {
  readonly origin: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly normal: Vec3;
}

/** Something to say instead of, or beside, a picture. */
export interface NoteItem {
  readonly kind: 'note';
  readonly text: string;
}

/** What is cut as one piece, in the flat's own coordinates, the side up that `told` names. */
export interface FlatPartItem extends ToldItem {
  readonly kind: 'flat-part';
  readonly order: number;
  readonly name: string;
  /** Which side lies up. */
  readonly side: 'dry' | 'wet';
  readonly sheet: string;
  readonly quantity: number;
  readonly outline: DrawnContour;
  readonly holes: readonly DrawnContour[];
  readonly marks: readonly {
    readonly kind: 'place' | 'level' | 'note';
    readonly points: readonly Vec2[];
    readonly closed: boolean;
    readonly text: string | undefined;
  }[];
  /** Of the outline: [left, bottom, right, top]. */
  readonly box: readonly [number, number, number, number];
  /** How its box lies on the stock that the shop has, in words; undefined: no stock is named for this sheet. */
  readonly stock: string | undefined;
}

export interface FlatPanelItem extends ToldItem {
  readonly kind: 'flat-panel';
  /** Key of the part that it belongs to. */
  readonly part: string;
  readonly name: string;
  readonly region: DrawnContour;
}

export interface FlatBendItem extends ToldItem {
  readonly kind: 'flat-bend';
  readonly part: string;
  readonly name: string;
  readonly start: Vec2;
  readonly end: Vec2;
  readonly tangents: readonly [readonly [Vec2, Vec2], readonly [Vec2, Vec2]];
  readonly direction: 'up' | 'down';
  readonly angle_deg: number;
  readonly length_mm: number;
}

/** What a piece is for, where it is not of the tub, and the name of its group. */
export interface Purpose {
  readonly role: 'existing' | 'support' | 'removable';
  readonly group: string;
}

/** Flat piece of a folded part: see `Plate`. */
export interface PlateItem extends ToldItem {
  readonly kind: 'plate';
  readonly part: string;
  readonly name: string;
  readonly purpose?: Purpose;
  readonly thickness: number;
  readonly frame: DrawnFrame;
  /** Outer ring, then holes; arcs as chords that stray at most 0.05 mm. */
  readonly rings: readonly (readonly Vec2[])[];
}

/** A thing of another file that stands there already. */
export interface ThingItem extends ToldItem {
  readonly kind: 'thing';
  readonly part: string;
  readonly name: string;
  readonly purpose: Purpose;
  readonly positions: readonly Vec3[];
  readonly triangles: readonly (readonly [number, number, number])[];
  /** Where its surface turns or ends. */
  readonly creases: readonly (readonly [Vec3, Vec3])[];
}

/** A line between two places, lettered in its middle: the room between two things. */
export interface SpanItem extends ToldItem {
  readonly kind: 'span';
  readonly name: string;
  readonly from: Vec3;
  readonly to: Vec3;
  readonly text: string;
}

/** The way that a thing takes out of its place: an arrow through these points. */
export interface WayItem extends ToldItem {
  readonly kind: 'way';
  readonly name: string;
  readonly points: readonly Vec3[];
  readonly text: string;
}

/** Bent piece of a folded part: see `Roll`. */
export interface RollItem extends ToldItem {
  readonly kind: 'roll';
  readonly part: string;
  readonly name: string;
  readonly purpose?: Purpose;
  readonly axis: DrawnFrame;
  readonly sweep: number;
  readonly innerRadius: number;
  readonly outerRadius: number;
  readonly wet: 'inside' | 'outside';
  /** How far the two ends reach along the axis, at even steps of the turn; straight in between. */
  readonly near: readonly number[];
  readonly far: readonly number[];
}

/** A panel's wet face, to the sharp corners, with the way the water takes on it. */
export interface WaterFaceItem extends ToldItem {
  readonly kind: 'water-face';
  readonly name: string;
  readonly corners: readonly Vec3[];
  readonly holes: readonly (readonly Vec3[])[];
  readonly normal: Vec3;
  /** Inclination to level, 0..90. */
  readonly slope_deg: number;
  /** Horizontal-most direction downhill along the face; zero when the face is level. */
  readonly downhill: Vec3;
}

/** Liquid that stays when the outlets are open. */
export interface WaterPoolItem extends ToldItem {
  readonly kind: 'water-pool';
  /** Of the panel that holds most of it. */
  readonly name: string;
  readonly deepest: Vec3;
  readonly surface: readonly (readonly Vec3[])[];
  /** Where its surface meets the sheet. */
  readonly shore: readonly (readonly [Vec3, Vec3])[];
  readonly depth_mm: number;
}

/** The liquid's surface with every outlet plugged. */
export interface WaterLevelItem extends ToldItem {
  readonly kind: 'water-level';
  readonly surface: readonly (readonly Vec3[])[];
  readonly shore: readonly (readonly [Vec3, Vec3])[];
  readonly level_mm: number;
  readonly volume_L: number;
}

/** The plugged tub filled a part of the way. */
export interface FillStep {
  readonly level_mm: number;
  readonly volume_L: number;
  readonly surface: readonly (readonly Vec3[])[];
  readonly shore: readonly (readonly [Vec3, Vec3])[];
}

/** How the plugged tub fills, from below. */
export interface WaterFillItem {
  readonly kind: 'water-fill';
  readonly steps: readonly FillStep[];
  readonly told: undefined;
}

/** A line that the water takes. */
export interface WaterFlowItem {
  readonly kind: 'water-flow';
  readonly name: string;
  readonly points: readonly Vec3[];
  /** What runs along it. */
  readonly rate_L_min: number;
  /** Undefined: it is told with the first line of its inflow. */
  readonly told: Told | undefined;
}

/** A place that matters: an outlet, the point of first overflow, the lowest open seam, the edge over which a chamber runs. */
export interface WaterSpotItem extends ToldItem {
  readonly kind: 'water-spot';
  readonly spot: 'outlet' | 'overflow' | 'leak' | 'crest';
  readonly name: string;
  readonly point: Vec3;
  readonly text: string;
}

/** The bending order of one part as a whole, or what is in the way of one. */
export interface BendOrderItem extends ToldItem {
  readonly kind: 'bend-order';
  readonly order: number;
  readonly part: string;
  readonly name: string;
}

/** `[cos, sin, x, y]`: a turn, then a shift, mm. */
export type DrawnMove = readonly [number, number, number, number];

/** One step of the bending order, seen along the bend line: (distance from the line, height). */
export interface BendStepItem extends ToldItem {
  readonly kind: 'bend-step';
  readonly order: number;
  readonly part: string;
  /** Names of the bends made in this stroke. */
  readonly bends: readonly string[];
  /** Angle of the bend in each state of the stroke, from flat to the angle under load; empty when it cannot be drawn. */
  readonly states_deg: readonly number[];
  /** `moves`: where it is in each state; undefined: it stands still. */
  readonly tools: readonly {
    readonly name: string;
    readonly outline: readonly Vec2[];
    readonly moves: readonly DrawnMove[] | undefined;
  }[];
  /** The metal on both sides of the line; one side is mirrored in x after its move. */
  readonly sides: readonly {
    readonly mirrored: boolean;
    readonly outlines: readonly (readonly Vec2[])[];
    readonly moves: readonly DrawnMove[];
  }[];
  /** The zone of the bend in each state, in pieces. */
  readonly bend: readonly (readonly (readonly Vec2[])[])[];
  /** Tool that the metal runs into at the end: the stroke cannot be made. */
  readonly hit: string | undefined;
  /** What of it to look at: [left, bottom, right, top]. */
  readonly box: readonly [number, number, number, number];
}

/** A bend of a part that has no bending order. */
export interface BendRowItem extends ToldItem {
  readonly kind: 'bend-row';
  readonly order: number;
  readonly part: string;
  readonly name: string;
  readonly direction: 'up' | 'down';
  readonly angle_deg: number;
  readonly radius_mm: number;
}

/** How far a nest has come. */
export interface NestStateItem {
  readonly kind: 'nest-state';
  readonly state: NestCourse['state'];
  /** Share of the work, 0..1. */
  readonly done: number;
  readonly text: string;
  /** Sheet taken by the first layout and now, in words. */
  readonly saving: string;
  readonly told: undefined;
}

/** A blank, its corner at the origin, the rolling direction along x. `first`: as the pieces were laid before any was moved. */
export interface NestSheetItem extends ToldItem {
  readonly kind: 'nest-sheet';
  readonly layout: 'now' | 'first';
  /** What stands under it, short. */
  readonly title: string;
  readonly number: number;
  readonly size: Vec2;
  /** Along x, from the edge. */
  readonly usedLength: number;
  /** What is worth keeping of it: [left, bottom, right, top]; undefined: nothing. */
  readonly leftWhole: readonly [number, number, number, number] | undefined;
}

/** A piece where it lies on its sheet. */
export interface NestPieceItem extends ToldItem {
  readonly kind: 'nest-piece';
  readonly layout: 'now' | 'first';
  /** Key of the sheet. */
  readonly sheet: string;
  readonly name: string;
  readonly isPinned: boolean;
  readonly outline: DrawnContour;
  readonly holes: readonly DrawnContour[];
}
