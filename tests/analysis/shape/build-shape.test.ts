import { describe, expect, it } from 'vitest';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { add, dot, lerp, scale, subtract, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import { member, seamOf } from '../../support/tubs/strip-and-sides.js';
import { tubOf } from '../../support/tub-of.js';

const box: Record<string, Vec3[]> = {
  bottom: [
    [0, 0, 0],
    [300, 0, 0],
    [300, 200, 0],
    [0, 200, 0],
  ],
  front: [
    [0, 0, 0],
    [300, 0, 0],
    [300, 0, 80],
    [0, 0, 80],
  ],
  back: [
    [0, 200, 0],
    [300, 200, 0],
    [300, 200, 80],
    [0, 200, 80],
  ],
  left: [
    [0, 0, 0],
    [0, 200, 0],
    [0, 200, 80],
    [0, 0, 80],
  ],
  right: [
    [300, 0, 0],
    [300, 200, 0],
    [300, 200, 80],
    [300, 0, 80],
  ],
};
const bends = [
  ['bottom', 'front'],
  ['bottom', 'back'],
  ['bottom', 'left'],
  ['bottom', 'right'],
] as const;

describe('a tub as oriented faces', () => {
  it('turns every wet side of an open box inward, whichever way its corners run', () => {
    for (const flip of ['', 'front', 'bottom', 'left']) {
      const panels = Object.fromEntries(Object.entries(box).map(([n, c]) => [n, n === flip ? [...c].reverse() : c]));
      const shape = buildShape(tubOf({ panels, bends }));
      expect(shape.faults).toEqual([]);
      const middle: Vec3 = [150, 100, 40];
      for (const face of shape.faces) {
        expect(dot(face.frame.normal, subtract(middle, face.corners[0])), face.name).toBeGreaterThan(0);
      }
    }
  });

  it('has an upward-projected wet area equal to the plan of its opening', () => {
    const shape = buildShape(tubOf({ panels: box, bends }));
    const upward = shape.faces.reduce((sum, face) => sum + face.area * face.frame.normal[2], 0);
    expect(upward).toBeCloseTo(300 * 200, 6);
  });

  it('calls the bends of a box valleys of 90 deg and puts them on the shared edges', () => {
    const shape = buildShape(tubOf({ panels: box, bends }));
    expect(shape.bends).toHaveLength(4);
    for (const bend of shape.bends) {
      expect(bend.angle).toBeCloseTo(Math.PI / 2, 12);
      expect(bend.wet).toBe('inside');
      const [a, b] = bend.faces.map((f, i) => shape.faces[f].stretches[bend.edges[i]][bend.stretches[i]]);
      expect(a.bend).toBe(bend.index);
      expect(b.bend).toBe(bend.index);
      expect(lerp(a.start, a.end, 0.5)).toEqual(lerp(b.start, b.end, 0.5));
    }
  });

  it('cuts an edge where its neighbour changes', () => {
    const panels: Record<string, Vec3[]> = {
      floor: [
        [0, 0, 0],
        [300, 0, 0],
        [300, 200, 0],
        [0, 200, 0],
      ],
      half: [
        [0, 0, 0],
        [120, 0, 0],
        [120, 0, 50],
        [0, 0, 50],
      ],
      other: [
        [120, 0, 0],
        [260, 0, 0],
        [260, 0, 50],
        [120, 0, 50],
      ],
    };
    const { faces } = buildShape(tubOf({ panels }));
    const cuts = faces[0].stretches[faces[0].panelEdge.indexOf(0)];
    const ends = cuts.map((s) => [s.start[0], s.end[0]].sort((p, q) => p - q));
    expect(ends.sort((p, q) => p[0] - q[0])).toEqual([
      [0, 120],
      [120, 260],
      [260, 300],
    ]);
    expect(
      cuts
        .map((s) => s.mates.map((m) => m.face))
        .flat()
        .sort(),
    ).toEqual([1, 2]);
    for (const stretch of cuts) {
      for (const mate of stretch.mates) {
        const back = faces[mate.face].stretches[mate.edge][mate.stretch];
        expect(back.mates).toEqual([{ face: 0, edge: stretch.edge, stretch: cuts.indexOf(stretch) }]);
        expect(add(back.start, back.end)).toEqual(add(stretch.start, stretch.end));
      }
    }
  });

  it('names the corner that is out of plane, and by how much', () => {
    const panels: Record<string, Vec3[]> = {
      p: [
        [0, 0, 0],
        [100, 0, 0],
        [100, 50, 0],
        [100, 100, 4],
        [0, 100, 0],
      ],
    };
    const { faults, faces } = buildShape(tubOf({ panels }));
    expect(faults).toEqual([{ kind: 'not-flat', panel: 0, corner: 3, off: expect.closeTo(4, 9) }]);
    expect(faces[0].usable).toBe(false);
  });

  it('reports a ring of bends at the bend that closes it, with the whole ring', () => {
    const ring = [...bends, ['front', 'left']] as const;
    const { faults } = buildShape(tubOf({ panels: box, bends: ring }));
    expect(faults).toEqual([{ kind: 'bend-loop', bend: 4, loop: [1, 0, 3] }]);
  });

  it('reports a crossing outline, repeated corners, no area and too few corners', () => {
    const p = (...corners: Vec3[]) => buildShape(tubOf({ panels: { p: corners } })).faults.map((f) => f.kind);
    expect(p([0, 0, 0], [100, 0, 0], [0, 100, 0], [100, 100, 0])).toEqual(['self-crossing']);
    expect(p([0, 0, 0], [100, 0, 0], [100, 0, 0], [0, 100, 0])).toEqual(['repeated-corner']);
    expect(p([0, 0, 0], [100, 0, 0], [200, 0, 0])).toEqual(['no-area']);
    expect(p([0, 0, 0], [100, 0, 0])).toEqual(['too-few-corners']);
  });

  it('tells how far apart two panels are that a bend wants to join', () => {
    const panels = { a: box.bottom, b: box.front.map((c) => add(c, scale([0, -1, 0], 3))) };
    const { faults } = buildShape(tubOf({ panels, bends: [['a', 'b']] }));
    expect(faults).toEqual([{ kind: 'no-shared-edge', bend: 0, nearest: 3 }]);
  });

  it('lets a baffle be welded along a bend, and refuses two statements for the same two panels', () => {
    const panels: Record<string, Vec3[]> = {
      near: [
        [0, 0, 0],
        [300, 0, 0],
        [300, 100, -10],
        [0, 100, -10],
      ],
      far: [
        [0, 100, -10],
        [300, 100, -10],
        [300, 200, 0],
        [0, 200, 0],
      ],
      baffle: [
        [0, 100, -10],
        [300, 100, -10],
        [300, 100, 60],
        [0, 100, 60],
      ],
    };
    const bare = tubOf({ panels, bends: [['near', 'far']] });
    const weld = (a: number, b: number) => seamOf(bare, member(bare, 'a', [a]), member(bare, 'b', [b]));
    const welded = buildShape({ ...bare, seams: [weld(2, 0)] });
    expect(welded.faults).toEqual([]);
    const [stretch] = welded.faces[0].stretches[welded.bends[0].edges[0]];
    expect([stretch.bend, stretch.seams, stretch.mates.map((mate) => mate.face)]).toEqual([0, [0], [1, 2]]);
    const twice = buildShape({ ...bare, seams: [weld(0, 1)] });
    expect(twice.faults.map((fault) => fault.kind)).toEqual(['edge-used-twice']);
  });
});
