import { isSideKnown } from '../../fold/existing-slabs.js';
import { heightOver } from '../../geometry/frame.js';
import { isMade } from '../../model/around/roles.js';
import { OFF_PLANE } from '../../model/tolerance.js';
import type { Tub } from '../../model/tub.js';
import type { Shape } from '../../shape/shape.js';
import type { Overlap } from './overlap.js';
import type { Metal } from './room-takers.js';

/** A screw through a plate that is stated as a panel, where a thing of a file has the same plate: its hole is on the template. */
export const isItsOwnHole = (
  { tub, shape }: { readonly tub: Tub; readonly shape: Shape },
  [a, b]: readonly [Metal, Metal],
  { places }: Overlap,
): boolean => {
  const screw = [a, b].find(({ taker }) => taker.kind === 'fasteners');
  if (!screw || ![a, b].some(({ taker }) => taker.kind === 'thing')) return false;
  return screw.faces.some((face) => {
    if (isMade(tub, face) || !isSideKnown(tub.panels[face])) return false;
    const { thickness } = tub.sheets[tub.panels[face].sheet];
    return places.every(({ exact }) => {
      const height = heightOver(shape.faces[face].frame, exact());
      return height <= OFF_PLANE && height >= -thickness - OFF_PLANE;
    });
  });
};
