/** What was read of parts that are made: bends by a gauge, lengths by a tape, slopes by a level. */
import type { PanelIndex, SourceId } from './place.js';

/** A part that is cut. Of its bends those that are read are made; the others are open. */
export interface MadePart {
  readonly at: SourceId;
  /** As the text calls the part. */
  readonly name: string;
  /** Any panel of the part. */
  readonly panel: PanelIndex;
  /** The panel that is where it was drawn; undefined: its ends are fitted to where they were drawn. */
  readonly standingOn: PanelIndex | undefined;
  readonly bends: readonly BendReading[];
  readonly lengths: readonly LengthReading[];
  readonly slopes: readonly SlopeReading[];
  /** Bends that are made may be opened or closed again. */
  readonly mayCorrect: boolean;
  /** K that its flat was made with; undefined: the one of its sheet. */
  readonly cutK?: number | undefined;
  /** ± rad that the gauge is off at most; undefined: the documented default. */
  readonly gaugeWithin: number | undefined;
  /** ± mm of the tape. */
  readonly tapeWithin: number | undefined;
}

export interface BendReading {
  readonly at: SourceId;
  readonly panels: readonly [PanelIndex, PanelIndex];
  /** Deviation from flat, 0..pi. */
  readonly turn: number;
  /** Where the angle between the panels was read instead. */
  readonly isOpening: boolean;
  /** What the brake was set to, deviation from flat under load. */
  readonly bentTo: number | undefined;
  /** mm, opening of the die that it was bent in, where that is said. */
  readonly die?: number | undefined;
  /** Not read: it follows from the slopes of panels at both ends. */
  readonly isBySlopes?: boolean | undefined;
}

export interface LengthReading {
  readonly at: SourceId;
  readonly panel: PanelIndex;
  readonly length: number;
  /** Of the metal at each end: to the corner outside of the bend or inside of it. */
  readonly over: 'outside' | 'inside';
}

export interface SlopeReading {
  readonly at: SourceId;
  readonly panel: PanelIndex;
  /** rad to level, 0..pi/2; the panel leans the way it was drawn. */
  readonly slope: number;
}
