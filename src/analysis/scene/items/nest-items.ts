/** What a nest is drawn from. */
import type { Vec2 } from '../../geometry/vec.js';
import type { NestCourse } from '../../nest/nest.js';
import type { DrawnContour } from './drawn-shapes.js';
import type { ToldItem } from './told-item.js';

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
