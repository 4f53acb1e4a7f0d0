/** What the plots of hours and of choices are drawn from. */
import type { Vec2 } from '../../geometry/vec.js';
import type { ToldItem } from './told-item.js';

/** How a level, a strainer or a tank goes over the hours of a week of work. */
export interface HoursLineItem extends ToldItem {
  readonly kind: 'hours-line';
  readonly order: number;
  readonly name: string;
  readonly unit: string;
  /** Hour of work, value. */
  readonly points: readonly Vec2[];
  readonly limit: number | undefined;
  /** Hours of work in the week. */
  readonly total: number;
}

/** An hour at which something goes wrong. */
export interface HoursMarkItem extends ToldItem {
  readonly kind: 'hours-mark';
  readonly hour: number;
}

/** What lies along the two axes of the choices. */
export interface ChoiceAxesItem {
  readonly kind: 'choice-axes';
  readonly across: ChoiceAxis;
  readonly up: ChoiceAxis;
  readonly told: undefined;
}

export interface ChoiceAxis {
  /** As the builder wrote it. */
  readonly wish: string;
  readonly unit: string;
}

/** One of the best choices between two goals, in the units of its axes. */
export interface ChoiceItem extends ToldItem {
  readonly kind: 'choice';
  readonly order: number;
  readonly across: number;
  readonly up: number;
  /** The best one when the first goal counts more. */
  readonly isChosen: boolean;
}
