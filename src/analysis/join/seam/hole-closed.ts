import type { Closing } from './method.js';

/**
 * Width of a single hole (at a corner, a relief, a notch) that a joint running up to it closes, mm.
 *
 * A welder fills a hole of two thicknesses with the rod; solder bridges half a millimetre; sealant a hole as wide as its
 * bead. Common practice, no source.
 */
export const holeClosed = (closing: Closing, thickness: number, sealant: number | undefined): number => {
  if (closing === 'tig' || closing === 'mig') return 2 * thickness;
  if (closing === 'solder') return 0.5;
  return closing === 'sealant' ? (sealant ?? 0) : 0;
};
