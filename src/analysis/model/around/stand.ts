/** A tub that is built square and set up leaning. */
import type { Lean } from '../../geometry/lean.js';
import type { SourceId } from '../place.js';

export interface Stand extends Lean {
  readonly at: SourceId;
  /** As the text says it. */
  readonly side: 'right' | 'left' | 'back' | 'front';
}
