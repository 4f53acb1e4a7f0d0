import type { PanelIndex, SourceId } from './place.js';

export type SheetSide = 'dry' | 'wet';

/** On which side the pen marks, as stated: that side lies up when a piece is cut. */
export interface Marked {
  readonly at: SourceId;
  readonly side: SheetSide;
  /** Any panel of each piece meant; none: all pieces that no other statement names. */
  readonly panels: readonly PanelIndex[];
}
