/** What the bending order is drawn from. */
import type { Vec2, Vec3 } from '../../geometry/vec.js';
import type { DrawnMove } from './drawn-shapes.js';
import type { ToldItem } from './told-item.js';

/** The bending order of one part as a whole, or what is in the way of one. */
export interface BendOrderItem extends ToldItem {
  readonly kind: 'bend-order';
  readonly order: number;
  readonly part: string;
  readonly name: string;
}

/** A tool in section. */
export interface DrawnTool {
  readonly name: string;
  readonly outline: readonly Vec2[];
  /** Where it is in each state; undefined: it stands still. */
  readonly moves: readonly DrawnMove[] | undefined;
}

/** The metal on one side of the bend line. */
export interface DrawnSide {
  /** In x, after its move. */
  readonly mirrored: boolean;
  readonly outlines: readonly (readonly Vec2[])[];
  /** Where it is in each state. */
  readonly moves: readonly DrawnMove[];
}

/** One step of the bending order, seen along the bend line: (distance from the line, height). */
export interface BendStepItem extends ToldItem {
  readonly kind: 'bend-step';
  readonly order: number;
  readonly part: string;
  /** Names of the bends made in this stroke. */
  readonly bends: readonly string[];
  /** Angle of the bend in each state of the stroke, from flat to the angle under load; empty when it cannot be drawn. */
  readonly states_deg: readonly number[];
  readonly tools: readonly DrawnTool[];
  readonly sides: readonly DrawnSide[];
  /** The zone of the bend in each state, in pieces. */
  readonly bend: readonly (readonly (readonly Vec2[])[])[];
  /** How the part lies before the stroke; undefined: it has no place in an order. */
  readonly lies: BendPose | undefined;
  /** What the stop is set to, in words, and how far it stands behind the line; undefined: nothing straight lies at it. */
  readonly stop: { readonly distance: number; readonly text: string } | undefined;
  /** What to do with part and machine before the stroke, in words; empty: nothing. */
  readonly before: { readonly text: string };
  /** Tool that the metal runs into at the end: the stroke cannot be made. */
  readonly hit: string | undefined;
  /** What of it to look at: [left, bottom, right, top]. */
  readonly box: readonly [number, number, number, number];
}

/** A part at the brake, seen by its operator: x along the bend line to the right, y away from the operator, z up; mm. */
export interface BendPose {
  readonly up: 'dry' | 'wet';
  /** Direction on the flat, seen dry side up, from the line away from the operator, rad. */
  readonly heading: number;
  /** Its panels, bent as far as they are before the stroke, in convex pieces. */
  readonly pieces: readonly (readonly Vec3[])[];
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
