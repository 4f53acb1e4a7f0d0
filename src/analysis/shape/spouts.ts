import type { OutletIndex, Tub } from '../model/tub.js';
import type { Face, Stretch } from './shape.js';

/** The outlet that leaves over the edge of a stretch; -1: none does. */
export const spoutOver = (
  tub: Tub,
  faces: readonly Face[],
  { face, edge }: Pick<Stretch, 'face' | 'edge'>,
): OutletIndex | -1 =>
  tub.outlets.findIndex(
    ({ panel, spout }) => spout !== undefined && panel === face && faces[face].panelEdge[edge] === spout.edge,
  );
