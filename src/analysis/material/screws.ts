/** Hexagon screws with washers and nuts, and rivet nuts: the bodies they are, and the length to buy. All mm. */

export interface ScrewSize {
  /** Metric thread size: 6 for M6. */
  readonly thread: number;
  readonly pitch: number;
  /** Across the flats of head and nut. */
  readonly flats: number;
  readonly head: number;
  readonly nut: number;
  readonly washer: { readonly outer: number; readonly high: number };
  /** Of a rivet nut: what stands on the sheet, and how far the set body reaches behind it; undefined: none is made. */
  readonly rivetNut: { readonly flange: number; readonly body: number; readonly behind: number } | undefined;
}

/**
 * Head ISO 4017, nut ISO 4032, washer ISO 7089 (outside as in the table of holes), coarse thread ISO 261: from memory. Rivet nuts:
 * flange and length of the usual series, from memory; the data sheet of the part in hand governs.
 */
export const SCREWS: readonly ScrewSize[] = [
  { thread: 3, pitch: 0.5, flats: 5.5, head: 2, nut: 2.4, washer: { outer: 7, high: 0.5 }, rivetNut: { flange: 0.8, body: 5, behind: 6 } },
  { thread: 4, pitch: 0.7, flats: 7, head: 2.8, nut: 3.2, washer: { outer: 9, high: 0.8 }, rivetNut: { flange: 0.8, body: 6, behind: 7 } },
  { thread: 5, pitch: 0.8, flats: 8, head: 3.5, nut: 4.7, washer: { outer: 10, high: 1 }, rivetNut: { flange: 1, body: 7, behind: 8.5 } },
  { thread: 6, pitch: 1, flats: 10, head: 4, nut: 5.2, washer: { outer: 12, high: 1.6 }, rivetNut: { flange: 1.5, body: 9, behind: 10.5 } },
  { thread: 8, pitch: 1.25, flats: 13, head: 5.3, nut: 6.8, washer: { outer: 16, high: 1.6 }, rivetNut: { flange: 1.5, body: 11, behind: 12 } },
  { thread: 10, pitch: 1.5, flats: 16, head: 6.4, nut: 8.4, washer: { outer: 20, high: 2 }, rivetNut: { flange: 2, body: 13, behind: 14 } },
  { thread: 12, pitch: 1.75, flats: 18, head: 7.5, nut: 10.8, washer: { outer: 24, high: 2.5 }, rivetNut: undefined },
]; // prettier-ignore

export const screwOf = (thread: number): ScrewSize | undefined => SCREWS.find((size) => size.thread === thread);

/** mm. Lengths that screws are sold in: ISO 888, from memory. */
const LENGTHS: readonly number[] = [6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100];

/** Turns of thread that stand out of a nut: at least one, common practice. */
const TURNS_OUT = 1;

/**
 * The shortest screw to buy for a grip of sheet (and gasket): a washer under the head, and under the nut where there is one; a
 * rivet nut is filled for one thread size. Undefined: longer than any that is sold here.
 */
export const screwLength = (size: ScrewSize, grip: number, takenBy: 'nut' | 'rivetnut'): number | undefined => {
  const { washer, nut, pitch, thread } = size;
  const needs = takenBy === 'nut' ? grip + 2 * washer.high + nut + TURNS_OUT * pitch : grip + washer.high + thread;
  return LENGTHS.find((length) => length >= needs);
};
