/**
 * What the preview draws, as plain JSON: a list of items, each with a key that stays the same over edits that keep
 * the names, so that only what changed has to be sent and repainted.
 *
 * Lengths mm, angles rad unless the name says otherwise, rounded for drawing only (0.001 mm, 1e-6 of a unit vector).
 * What an analysis cannot tell stands in a `note`; nothing is drawn in its place.
 */
import type { TextUnits } from '../model/in-inches.js';
import type { SourceId } from '../model/tub.js';
import type { FlatPartItem, FlatPanelItem, FlatBendItem } from './items/flat-items.js';
import type {
  BoxItem,
  OpeningItem,
  PlateItem,
  RollItem,
  SeamItem,
  SpanItem,
  ThingItem,
  WayItem,
} from './items/folded-items.js';
import type {
  WaterFaceItem,
  WaterPoolItem,
  WaterLevelItem,
  WaterFillItem,
  WaterFlowItem,
  WaterSplashItem,
  WaterSpotItem,
} from './items/water-items.js';
import type { BendOrderItem, BendStepItem, BendRowItem } from './items/bend-items.js';
import type { NestStateItem, NestSheetItem, NestPieceItem } from './items/nest-items.js';
import type { MadeBendItem, MadeProfileItem, MadeSeamItem } from './items/made-items.js';
import type { HoursLineItem, HoursMarkItem, ChoiceAxesItem, ChoiceItem } from './items/plot-items.js';

export type * from './items/drawn-shapes.js';
export type * from './items/flat-items.js';
export type * from './items/folded-items.js';
export type * from './items/water-items.js';
export type * from './items/bend-items.js';
export type * from './items/nest-items.js';
export type * from './items/plot-items.js';
export type * from './items/made-items.js';
export type * from './items/told-item.js';

export type View = 'flat' | 'folded' | 'water' | 'hours' | 'bends' | 'nest' | 'choices' | 'made';

/** Of the numbers that a builder reads: those of his text. */
export type ScreenUnits = TextUnits;

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
  | MadeProfileItem
  | MadeBendItem
  | MadeSeamItem
  | PlateItem
  | RollItem
  | ThingItem
  | SpanItem
  | WayItem
  | SeamItem
  | OpeningItem
  | BoxItem
  | WaterFaceItem
  | WaterPoolItem
  | WaterLevelItem
  | WaterFlowItem
  | WaterFillItem
  | WaterSpotItem
  | WaterSplashItem
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

/** Something to say instead of, or beside, a picture. */
export interface NoteItem {
  readonly kind: 'note';
  readonly text: string;
}
