import { describe, expect, it } from 'vitest';
import {
  gripRange,
  rivetFor,
  rivetOf,
  RIVETS,
  solidShank,
  EDGE_DIAMETERS,
  PITCH_DIAMETERS,
} from '../../src/analysis/material/rivets.js';
import { screwLength, screwOf } from '../../src/analysis/material/screws.js';
import { fastenerHole, fastenerSize, fastenerThreads } from '../../src/analysis/material/fastener-holes.js';

describe('holes for fasteners', () => {
  // Source: usual European metric body series, from memory; makers differ by up to 0.3 mm.
  it.each([
    [3, 5],
    [4, 6],
    [5, 7],
    [6, 9],
    [8, 11],
    [10, 13],
  ])('a round-body rivet nut M%s sits in a hole of %s mm', (thread, hole) => {
    expect(Math.abs(fastenerHole('rivetnut', thread)! - hole)).toBeLessThanOrEqual(0.3);
  });

  // Source: usual catalogue range of the shortest body, from memory; M3 from a fastener maker's rivet-nut chart (found).
  it.each([
    [3, 0.5, 1.5],
    [4, 0.3, 2],
    [5, 0.5, 3],
    [6, 0.5, 3],
    [8, 0.5, 3],
  ])('the shortest rivet nut M%s grips %s to %s mm', (thread, least, most) => {
    expect(fastenerSize('rivetnut', thread)?.grip).toEqual([least, most]);
  });

  // Source: ISO 273, medium series (H13), as reproduced on a hardware supplier's reference page.
  it.each([
    [3, 3.4],
    [4, 4.5],
    [5, 5.5],
    [6, 6.6],
    [8, 9],
    [10, 11],
    [12, 13.5],
  ])('a screw M%s goes through a hole of %s mm', (thread, hole) => {
    expect(fastenerHole('screw', thread)).toBe(hole);
  });

  // Source: rivet-nut maker's application page: hole in the attached part = 1.1 x screw diameter. ISO 273 is within half a millimetre.
  it.each([3, 4, 5, 6, 8, 10])('the clearance hole of M%s agrees with 1.1 times the screw', (thread) => {
    expect(Math.abs(fastenerHole('screw', thread)! - 1.1 * thread)).toBeLessThanOrEqual(0.5);
  });

  // Source: ISO 7089, as reproduced on the same supplier's pages.
  it.each([
    [3, 7],
    [4, 9],
    [5, 10],
    [6, 12],
    [8, 16],
    [10, 20],
    [12, 24],
  ])('a plain washer for M%s is %s mm wide', (thread, washer) => {
    expect(fastenerSize('screw', thread)?.seat).toBe(washer);
  });

  it('threads that the tables do not hold have no hole', () => {
    expect(fastenerHole('rivetnut', 7)).toBeUndefined();
    expect(fastenerThreads('rivetnut')).toEqual([3, 4, 5, 6, 8, 10]);
  });
});

describe('rivets', () => {
  const inch = 25.4;

  // Source: US Army TM 10-5410-221-14/1, table 4-3, blind rivet selection; of 1/8 in IFI-114 as quoted in a builders' forum.
  it.each([
    ['3/32', 2.4, 0.096, 0.1],
    ['1/8', 3.2, 0.129, 0.133],
    ['5/32', 4, 0.16, 0.164],
    ['1/4', 6.4, 0.257, 0.261],
  ])('the hole of a %s in rivet lies within its limits', (_, diameter, least, most) => {
    const { hole } = rivetOf(diameter)!;
    expect(hole).toBeGreaterThanOrEqual(least * inch - 0.05);
    expect(hole).toBeLessThanOrEqual(most * inch + 0.05);
  });

  // Source: the same table: size code, grip in inches.
  it.each([
    ['32', 2.4, 0.02, 0.125],
    ['34', 2.4, 0.126, 0.25],
    ['41', 3.2, 0.02, 0.062],
    ['42', 3.2, 0.063, 0.125],
    ['46', 3.2, 0.313, 0.375],
    ['48', 3.2, 0.376, 0.5],
    ['52', 4, 0.02, 0.125],
    ['53', 4, 0.126, 0.187],
    ['56', 4, 0.251, 0.375],
    ['86', 6.4, 0.251, 0.375],
  ])('a blind rivet %s grips as the table says', (_, diameter, least, most) => {
    const range = gripRange(rivetOf(diameter)!, ((least + most) / 2) * inch)!;
    expect(range[0]).toBeCloseTo(least * inch, 1);
    expect(range[1]).toBeCloseTo(most * inch, 1);
  });

  // Source: US Navy training course NAVEDTRA 14018 (rule), a 1/8 in rivet through 0.064 and 0.064 in: 0.3155 in.
  it('a solid rivet is its grip and one and a half diameters long', () => {
    expect(solidShank(0.125 * inch, 0.128 * inch)).toBeCloseTo(0.3155 * inch, 3);
  });

  // Source: the same: from one to three thicknesses of the thicker sheet.
  it.each([0.8, 1, 1.2, 1.5, 2, 2.5, 3])(
    'the rivet taken for sheet of %s mm is as thick as the rule asks',
    (thicker) => {
      const { diameter } = rivetFor(thicker);
      expect(diameter).toBeGreaterThanOrEqual(thicker);
      expect(diameter).toBeLessThanOrEqual(3 * thicker);
      expect(RIVETS.some((size) => size.diameter > diameter && size.diameter <= 3 * thicker)).toBe(false);
    },
  );

  // Source: US Army TM 10-5410-229-13&P, rivet replacement: edge 2 D, pitch 3 D at least.
  it('keeps the edge distance and pitch of the manual', () => {
    expect([EDGE_DIAMETERS, PITCH_DIAMETERS]).toEqual([2, 3]);
  });
});

// By hand, sizes from memory: M6 through 2.4 mm: 2.4 + 1.6 + 1.6 + 5.2 + 1 = 11.8, so 12; M4: 2.4 + 0.8 + 0.8 + 3.2 + 0.7 = 7.9, so 8.
describe('screws of a seam', () => {
  it.each([
    [6, 2.4, 'nut', 12],
    [4, 2.4, 'nut', 8],
    [6, 5.4, 'nut', 16],
    [6, 2.4, 'rivetnut', 10],
  ] as const)('M%s through %s mm into a %s is %s mm long', (thread, grip, takenBy, length) => {
    expect(screwLength(screwOf(thread)!, grip, takenBy)).toBe(length);
  });
});
