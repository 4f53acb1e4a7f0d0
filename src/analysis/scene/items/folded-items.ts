/** What the folded tub, and what stands around it, is drawn from. */
import type { Vec2, Vec3 } from '../../geometry/vec.js';
import type { DrawnFrame } from './drawn-shapes.js';
import type { ToldItem } from './told-item.js';

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

/** A seam: the lines on the wet side along which it closes. */
export interface SeamItem extends ToldItem {
  readonly kind: 'seam';
  readonly name: string;
  /** What closes it, as the report says it. */
  readonly closedBy: string;
  /** Does anything close it all along? */
  readonly isClosed: boolean;
  /** Of the sheets that meet there, the thicker one. */
  readonly thickness: number;
  readonly runs: readonly (readonly [Vec3, Vec3])[];
}

/** What goes through a panel, on its wet face. */
export interface OpeningItem extends ToldItem {
  readonly kind: 'opening';
  readonly part: string;
  readonly name: string;
  readonly ring: readonly Vec3[];
  readonly normal: Vec3;
}

/** Room that is taken by a tank, is to stay dry, or is to be kept clear. */
export interface BoxItem extends ToldItem {
  readonly kind: 'box';
  readonly name: string;
  readonly room: 'tank' | 'dry' | 'clear';
  readonly min: Vec3;
  readonly max: Vec3;
}
