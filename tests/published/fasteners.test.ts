import { describe, expect, it } from 'vitest';
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
