/** What strips as made are drawn from, in the plane of each: along its heading, and up. */
import type { Vec2 } from '../../geometry/vec.js';
import type { ToldItem } from './told-item.js';

/** A strip from the side, as planned and as made: corners on the wet face in order of travel. */
export interface MadeProfileItem extends ToldItem {
  readonly kind: 'made-profile';
  readonly order: number;
  readonly name: string;
  readonly planned: readonly Vec2[];
  readonly made: readonly Vec2[];
}

/** A bend of it, at a corner. */
export interface MadeBendItem extends ToldItem {
  readonly kind: 'made-bend';
  /** Key of the profile. */
  readonly profile: string;
  readonly corner: number;
  readonly state: 'read' | 'open';
  /** Made less planned; of an open bend what closes best. */
  readonly off_deg: number;
}

/** A length of a leg along which a part that is cut stands off, moved to where it fits best. */
export interface MadeSeamItem extends ToldItem {
  readonly kind: 'made-seam';
  readonly profile: string;
  readonly leg: number;
  /** Shares of the leg. */
  readonly from: number;
  readonly to: number;
  /** Positive: open, to the left of travel; negative: too much metal. */
  readonly start_mm: number;
  readonly end_mm: number;
}
