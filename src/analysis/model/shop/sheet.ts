/** The metal: sheets, and the test bends they were measured by. */
import type { SourceId } from '../place.js';

export type Material = 'steel' | 'galvanized' | 'stainless' | 'aluminium' | 'copper' | 'brass';

/** What sheet is made of. */
export interface Metal {
  readonly material: Material;
  /** As it is traded, `6061-T6`; the one that is sold for tubs where the builder names none. */
  readonly grade?: string | undefined;
  /** Tensile strength that the builder states, MPa. */
  readonly tensileMPa?: number | undefined;
  /** As it was found by bending it, one for each die at most. */
  readonly springbacks?: readonly StatedSpringback[] | undefined;
}

/** How far bends of the sheet open when they are let go. */
export interface StatedSpringback {
  /** rad. */
  readonly angle: number;
  /** mm, opening of the die that it was found in; undefined: wherever nothing else is stated. */
  readonly die: number | undefined;
  /** ± rad. */
  readonly within: number | undefined;
  /** Of how many bends; undefined where it is not said. */
  readonly count: number | undefined;
}

/** What a stated K is worth, where that is said. */
export interface KWorth {
  readonly within: number | undefined;
  readonly count: number | undefined;
}

export interface Sheet extends Metal {
  readonly name: string;
  readonly at: SourceId;
  readonly thickness: number;
  /** The gauge number as written, when the thickness came from the table. */
  readonly gauge: number | undefined;
  /** Inside radius of every bend that states none. */
  readonly radius: number;
  /** K as the builder states it: neutral axis at K x thickness from the inside. */
  readonly kFactor: number | undefined;
  readonly kWorth?: KWorth | undefined;
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
