import type { Curve } from '../../analysis/solve/curve.js';

/** What came of working out the free values of a text. Plain data: it is printed, sent to the editor and drawn. */

/** A number with its unit as the shop says it: '' for a count. */
export interface Told {
  readonly value: number;
  readonly unit: string;
}

export interface Outcome {
  /** All wishes are met with these values, in every variant. */
  readonly isMet: boolean;
  /** Tubs that were worked out. */
  readonly tried: number;
  /** What could be had: the best where all is met, else what misses least. */
  readonly values: readonly FoundValue[];
  readonly wishes: readonly FoundWish[];
  /** Where not all wishes can be met: sets that no values were found to meet together, the smallest first. */
  readonly conflicts: readonly (readonly Yields[])[];
  readonly curve: Curve | undefined;
  /** Variants that miss wishes with these values, though the tub itself meets all. */
  readonly variants: readonly MissingVariant[];
}

export interface MissingVariant {
  readonly name: string;
  readonly missed: readonly string[];
}

export interface FoundValue {
  readonly name: string;
  readonly unit: string;
  readonly before: number;
  readonly after: number;
  readonly low: number;
  readonly high: number;
  /** As it is written in the text, without its unit. */
  readonly text: string;
  /** What a step further down and up would do. */
  readonly beside: readonly BesideValue[];
}

export interface BesideValue {
  readonly way: 'down' | 'up';
  /** Undefined where its limit is reached. */
  readonly value: number | undefined;
  /** Wishes that are missed there. */
  readonly missed: readonly string[];
  /** What is found against them. */
  readonly found: readonly string[];
  /** How much more or less there is of what is to be least or most. */
  readonly change: readonly { readonly wish: string; readonly by: Told }[];
}

export interface FoundWish {
  readonly text: string;
  readonly kind: 'goal' | 'limit' | 'stock' | 'machine' | 'findings';
  readonly isMet: boolean;
  /** Measured on the tub with the values found; undefined where nothing can be measured. */
  readonly has: Told | undefined;
  readonly before: Told | undefined;
  readonly needs: Told | undefined;
  /** What is found against it. */
  readonly found: readonly string[];
}

export interface Yields {
  readonly wish: string;
  /** What is left of it when the others of the conflict are met; undefined where it cannot be measured. */
  readonly has: Told | undefined;
  readonly needs: Told | undefined;
  readonly found: readonly string[];
}
