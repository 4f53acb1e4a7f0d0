import type { PanelIndex, SourceId } from './place.js';

/** A piece that stays where it is on the nest. */
export interface Pin {
  readonly at: SourceId;
  /** Any panel of the piece. */
  readonly panel: PanelIndex;
  /** Of the stock that it is cut from, as stated. */
  readonly stock: readonly [number, number];
  /** Which of the blanks of that stock, from 1. */
  readonly sheet: number;
  /** Lower left corner of the turned piece's box from the corner of the blank: along and across its longer side. */
  readonly corner: readonly [number, number];
  /** rad, counter-clockwise, from how the flat is drawn. */
  readonly turn: number;
}
