import type { LiquidData } from '../flow/liquids.js';
import type { Tub } from '../../model/tub.js';
import type { LeakPlace } from '../standing/flood.js';
import type { Surface } from '../surface/surface.js';
import { mouthOf } from './outlets.js';

/** Sills that are open to the edge above them, which no plug shuts, as ways out of the plugged tub. */
export const sillsOf = (tub: Tub, surface: Surface, liquid: LiquidData): readonly LeakPlace[] =>
  tub.outlets.flatMap(({ weir }, outlet): readonly LeakPlace[] => {
    const mouth = weir && mouthOf({ tub, surface, liquid }, outlet);
    return mouth ? [{ height: mouth.lip, around: [mouth.low] }] : [];
  });
