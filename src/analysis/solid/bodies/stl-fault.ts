import { limits } from '../../model/limits.js';

/** Why a file gives no mesh, to go after its name; and what it needs, where that is more than to be written anew. */
export interface MeshFault {
  readonly fault: string;
  readonly needs?: string;
}

export const tooMany = (count: string): MeshFault => ({
  fault: `holds ${count} triangles`,
  needs: `at most ${limits.triangles.atMost}, the limit of ${limits.triangles.name}: write it coarser`,
});
