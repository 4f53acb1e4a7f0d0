import type { Fastener } from '../model/tub.js';

/** What a fastener of one thread asks of the sheet it sits in. All mm. */
export interface FastenerSize {
  /** Metric thread size: 6 for M6. */
  readonly thread: number;
  /** Hole to cut. */
  readonly hole: number;
  /** Flange of the rivet nut, or head of the screw with its sealing washer: covers the hole and seats on the sheet. */
  readonly seat: number;
  /** Thinnest and thickest sheet the shortest body grips; undefined for screws. */
  readonly grip: readonly [number, number] | undefined;
}

/**
 * Rivet nuts. Hole: the usual metric body series (from memory; hole +0.1/0), of a hexagonal body the same from side to side (from
 * memory). Bodies differ by maker and
 * style, and no neutral standard was found: the data sheet of the part in hand governs.
 * Seat: large flange of the same series, from memory. Grip: usual catalogue range of the shortest body, from memory;
 * M3 from a fastener maker's rivet-nut chart (grip 0.5 to 1.5), M10 left at the M8 range (from memory).
 */
const rivetNuts: readonly FastenerSize[] = [
  { thread: 3, hole: 5, seat: 8, grip: [0.5, 1.5] },
  { thread: 4, hole: 6, seat: 9, grip: [0.3, 2] },
  { thread: 5, hole: 7, seat: 10, grip: [0.5, 3] },
  { thread: 6, hole: 9, seat: 13, grip: [0.5, 3] },
  { thread: 8, hole: 11, seat: 16, grip: [0.5, 3] },
  { thread: 10, hole: 13, seat: 19, grip: [0.5, 3] },
];

/**
 * Screws. Hole: clearance hole, medium series (H13) of ISO 273, as reproduced on a hardware supplier's reference page.
 * Seat: outside diameter of the plain washer of ISO 7089, as reproduced on the same supplier's pages.
 */
const screws: readonly FastenerSize[] = [
  { thread: 3, hole: 3.4, seat: 7, grip: undefined },
  { thread: 4, hole: 4.5, seat: 9, grip: undefined },
  { thread: 5, hole: 5.5, seat: 10, grip: undefined },
  { thread: 6, hole: 6.6, seat: 12, grip: undefined },
  { thread: 8, hole: 9, seat: 16, grip: undefined },
  { thread: 10, hole: 11, seat: 20, grip: undefined },
  { thread: 12, hole: 13.5, seat: 24, grip: undefined },
];

/** The table row of a fastener, or undefined for a thread that the table does not hold. */
export const fastenerSize = (kind: Fastener['kind'], thread: number): FastenerSize | undefined =>
  (kind === 'rivetnut' ? rivetNuts : screws).find((row) => row.thread === thread);

/** Diameter of the hole to cut for a fastener, mm; undefined for a thread that the table does not hold. */
export const fastenerHole = (kind: Fastener['kind'], thread: number): number | undefined =>
  fastenerSize(kind, thread)?.hole;

/** Metric thread sizes the table holds for that kind, ascending. */
export const fastenerThreads = (kind: Fastener['kind']): readonly number[] =>
  (kind === 'rivetnut' ? rivetNuts : screws).map((row) => row.thread);
