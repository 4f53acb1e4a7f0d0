/** What is laid into a seam: length and volume of weld filler, solder or sealant. */
import type { SeamStyle } from '../../model/tub.js';
import type { Closing } from './method.js';

export interface Bead {
  readonly closing: Closing;
  readonly length: number;
  /** mm3. */
  readonly volume: number;
  /** Width over which the bead or the overlap stands on metal. */
  readonly width: number;
}

export interface BeadSite {
  readonly closing: Closing;
  readonly length: number;
  /** Thinner sheet. */
  readonly thickness: number;
  /** Angle between the wet faces, through the liquid. */
  readonly corner: number;
  readonly style: SeamStyle;
  /** Expected gap, filled through the thickness. */
  readonly gap: number;
  /** Width of the sealant bead. */
  readonly sealant: number;
}

/** Solder film in a lap, mm: the clearance it is fitted to. */
const SOLDER_FILM = 0.15;

/**
 * Bead of one straight stretch.
 *
 * Weld: a fillet with legs of the sheet's thickness in the corner, and the gap filled through the thickness. Sealant: in
 * a corner a fillet with legs of the stated width, over a lap a round bead of that width before it is pressed flat.
 * Solder: the film over the lap, or a fillet as a weld has. Fillet area = w^2 / 2 sin(corner). Derived; starting and
 * stopping waste is not in it.
 */
export const beadOf = (site: BeadSite): Bead => {
  const { closing, length, thickness, style, gap } = site;
  if (closing === 'none') return { closing, length, volume: 0, width: 0 };
  if (closing === 'sealant') {
    const area = style.kind === 'corner' ? fillet(site.sealant, site.corner) : (Math.PI / 4) * site.sealant ** 2;
    return { closing, length, volume: area * length, width: site.sealant };
  }
  if (closing === 'solder' && style.kind === 'lap') {
    return { closing, length, volume: style.by * SOLDER_FILM * length, width: style.by };
  }
  return { closing, length, volume: (fillet(thickness, site.corner) + gap * thickness) * length, width: thickness };
};

const fillet = (leg: number, corner: number): number => (leg ** 2 / 2) * Math.abs(Math.sin(corner));
