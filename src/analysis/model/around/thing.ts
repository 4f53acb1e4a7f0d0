/** What stands there already, as another file has it. */
import type { Vec3 } from '../../geometry/vec.js';
import type { GroupIndex } from './group.js';
import type { SourceId } from '../place.js';

export interface Thing {
  readonly name: string;
  readonly at: SourceId;
  readonly group: GroupIndex;
  readonly mesh: ThingMesh;
}

/** Triangles in the tub's frame, mm, turned outwards. */
export interface ThingMesh {
  readonly positions: readonly Vec3[];
  readonly triangles: readonly (readonly [number, number, number])[];
  /** Without a gap: every edge is shared by two triangles. One that is not has no inside. */
  readonly isClosed: boolean;
}
