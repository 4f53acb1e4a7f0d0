import type { GroupIndex } from './group.js';
import type { SourceId } from '../place.js';

/** Room that must stay between two bodies: the tub, or one group each. */
export interface Clear {
  readonly at: SourceId;
  readonly bodies: readonly [GroupIndex | -1, GroupIndex | -1];
  /** mm. */
  readonly least: number;
}
