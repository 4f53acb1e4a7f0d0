import { describe, expect, it } from 'vitest';
import { findOverlap } from '../../../src/analysis/fold/overlap.js';

type Point = readonly [number, number];

/** An outline whose edges belong to the faces given, in order. */
const outline = (points: readonly Point[], faces: readonly number[] = points.map((_, i) => i)) =>
  points.map(([x, y], i) => ({ x, y, bulge: 0, face: faces[i] }));

describe('a flat that lies over itself', () => {
  /** A ribbon 100 wide that runs once around a hole of 100 x 100 and ends `off` beside the square where it began. */
  const ring = (off: number): readonly Point[] => [
    [0, 0],
    [300, 0],
    [300, 300],
    [off, 300],
    [off, 0],
    [100 + off, 0],
    [100 + off, 100],
    [100 + off, 200],
    [200, 200],
    [200, 100],
    [100, 100],
    [0, 100],
  ];

  it('is told when both ends lie exactly on one another and no edges cross', () => {
    expect(findOverlap(outline(ring(0)))).toBeDefined();
  });

  it('is told when they lie beside one another by less than a kerf, and by more', () => {
    for (const off of [0.004, 0.05, 10, 90]) expect(findOverlap(outline(ring(off))), `${off}`).toBeDefined();
  });

  it('is not told of ends that lie side by side', () => {
    // The second end turned away: the ribbon only touches its own beginning along the line x = 0.
    const beside: readonly Point[] = [
      [0, 0],
      [300, 0],
      [300, 300],
      [-100, 300],
      [-100, 0],
      [0, 0],
      [0, 200],
      [200, 200],
      [200, 100],
      [0, 100],
    ];
    expect(findOverlap(outline(beside))).toBeUndefined();
  });

  it('is not told of a slit, nor of a crossing of a hundredth of a millimetre', () => {
    const slit: readonly Point[] = [
      [0, 0],
      [100, 0],
      [100, 50],
      [20, 50],
      [20, 50],
      [100, 50],
      [100, 100],
      [0, 100],
    ];
    expect(findOverlap(outline(slit))).toBeUndefined();
    const touching: readonly Point[] = [
      [0, 0],
      [100, 0],
      [100, 49],
      [30, 50.01],
      [100, 50.99],
      [100, 100],
      [0, 100],
    ];
    expect(findOverlap(outline(touching))).toBeUndefined();
  });
});
