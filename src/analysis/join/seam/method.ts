/** How a seam is closed, and the widest gap that way of closing it still bridges. */
import type { Seam, Tub } from '../../model/tub.js';

export type Closing = 'tig' | 'mig' | 'solder' | 'sealant' | 'none';

export interface SeamMethod {
  readonly closing: Closing;
  /** `spot welds and sealant`, for people. */
  readonly name: string;
  /** Widest running gap it closes, mm; 0 when nothing closes it. */
  readonly closes: number;
  readonly source: string;
}

/** TIG on thin sheet: root gap h <= 0.5 mm + 0.1 a, throat a = 0.7 t. Source: ISO 5817, no. 617, quality level D, 0.5 to 3 mm (from memory). */
const tigGap = (thickness: number): number => 0.5 + 0.1 * 0.7 * thickness;

/** MIG bridges about the thinner sheet's thickness, 1.5 mm at most. Common practice, no source. */
const migGap = (thickness: number): number => Math.min(thickness, 1.5);

/** Clearance that solder still fills. Source: radiator trade's soldering page (joint fit up, 0.15 mm suits most work). */
const SOLDER_GAP = 0.15;

/** A bead of sealant bridges half its width: the other half must stand on metal. Common practice, no source. */
const sealantGap = (width: number): number => width / 2;

/**
 * The way a seam is closed and the gap it closes on sheets whose thinner one is `thickness`.
 *
 * A weld or solder goes before sealant, as it stands in the way of the water first. Spots, rivets and tabs hold a seam
 * together but do not close it: spot seams are not liquid tight (common practice).
 */
export const methodOf = (seam: Seam, thickness: number): SeamMethod => {
  const holding = holdingOf(seam);
  const named = (closer: string): string => [...holding, closer].join(' and ');
  if (seam.weld === 'tig') {
    return {
      closing: 'tig',
      name: named('TIG weld'),
      closes: tigGap(thickness),
      source: 'ISO 5817 no. 617, level D (from memory)',
    };
  }
  if (seam.weld === 'mig') {
    return { closing: 'mig', name: named('MIG weld'), closes: migGap(thickness), source: 'common practice, no source' };
  }
  if (seam.solder)
    return {
      closing: 'solder',
      name: named('solder'),
      closes: SOLDER_GAP,
      source: 'soldering fit-up of the radiator trade',
    };
  if (seam.sealant !== undefined && seam.sealant > 0) {
    return {
      closing: 'sealant',
      name: named('sealant'),
      closes: sealantGap(seam.sealant),
      source: 'common practice, no source',
    };
  }
  return {
    closing: 'none',
    name: holding.length > 0 ? `${holding.join(' and ')} only` : 'nothing',
    closes: 0,
    source: '',
  };
};

const holdingOf = (seam: Seam): string[] => {
  const holding: string[] = [];
  if (seam.tabs) holding.push(seam.tabs.on === 'loose' ? 'clips' : 'tabs');
  if (seam.spots !== undefined && seam.spots > 0) holding.push('spot welds');
  if (seam.fasteners) holding.push(`${seam.fasteners.kind}s`);
  return holding;
};

/** Widest gap allowed on the seam, mm: what the method closes, or less where the builder says so. */
export const allowedGap = (seam: Seam, method: SeamMethod): number =>
  seam.gapAtMost === undefined ? method.closes : Math.min(seam.gapAtMost, method.closes);

/** N. What one screw clamp or locking pliers holds without bending thin sheet. Common practice, no source. */
const CLAMP_AT_MOST = 50;

/** Most that a clamp may need to pull the seam shut, N: as the seam states, else the shop, else the documented default. */
export const clampAtMostOf = ({ shop }: Tub, seam: Seam): number =>
  seam.clampAtMostN ?? shop?.clampAtMostN ?? CLAMP_AT_MOST;
