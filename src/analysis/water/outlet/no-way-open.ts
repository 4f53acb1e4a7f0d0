import type { Tub } from '../../model/tub.js';
import type { Basin } from '../capacity.js';
import type { Water } from '../water.js';

/** The water that gathers in a tub of which no outlet is open in use; undefined where one is, or none gathers. */
export const basinWithoutOutlet = (tub: Tub, water: Water): Basin | undefined => {
  const isShut = tub.inflows.length > 0 && tub.outlets.every(({ shut }) => shut);
  if (tub.outlets.length > 0 && !isShut) return undefined;
  const basin = water.basins().at(0);
  return basin && basin.volume > 0 ? basin : undefined;
};
