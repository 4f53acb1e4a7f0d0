import { beforeAll, describe, expect, it } from 'vitest';
import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import { areaOfContour } from '../../../../src/analysis/geometry/contour.js';
import type { Vec2 } from '../../../../src/analysis/geometry/vec.js';
import { lumpOf } from '../../../../src/analysis/join/mass.js';
import { createStages } from '../../../../src/analysis/stages/stages.js';
import { loadKernel } from '../../../support/oracles/bend-solids.js';
import { flatSolid, foldProfile, stripSolid, type ProfilePoint } from '../../../support/oracles/strip-solid.js';
import { stripAndSides, zigzag } from '../../../support/tubs/strip-and-sides.js';

const WIDE = 300;
const stages = createStages(stripAndSides(zigzag, WIDE, { weld: 'tig' }));
const [strip, left, right] = stages.flats().map((flat) => flat!);

let kernel: ManifoldToplevel;
let solids: { strip: Manifold; left: Manifold; right: Manifold };
let profile: readonly ProfilePoint[];

const DOWN = -Math.PI / 2;

beforeAll(async () => {
  kernel = await loadKernel();
  profile = foldProfile(strip, zigzag[0], DOWN);
  solids = { strip: stripSolid(kernel, profile, WIDE), left: flatSolid(kernel, left), right: flatSolid(kernel, right) };
});

/** Distance from a point to a solid, seen by a grain of a thousandth of a millimetre. */
const distanceTo = (solid: Manifold, x: number, [y, z]: Vec2): number =>
  kernel.Manifold.cube([1e-3, 1e-3, 1e-3], true).translate([x, y, z]).minGap(solid, 20);

describe('flats of a strip and its sides, folded with true radii by other code', () => {
  it('the strip comes back to its last sharp corner', () => {
    const end = profile[profile.length - 1].wet;
    expect(end[0]).toBeCloseTo(360, 6);
    expect(end[1]).toBeCloseTo(200, 6);
  });

  it('both sides meet it along every leg and every bend', () => {
    for (const { wet } of profile) {
      expect(distanceTo(solids.left, 0, wet)).toBeLessThan(0.01);
      expect(distanceTo(solids.right, WIDE, wet)).toBeLessThan(0.01);
    }
  });

  it('no part stands in another', () => {
    expect(solids.strip.intersect(solids.left).volume()).toBeLessThan(0.05);
    expect(solids.strip.intersect(solids.right).volume()).toBeLessThan(0.05);
  });

  it('a sharp corner in the side would leave the hole that its round closes', () => {
    // A ridge of wet radius 2.4 mm: the sharp corner stands 2.4 (1 / cos(a / 2) - 1) off the round.
    const ridge = stages.shape().bends.find((bend) => bend.wet === 'outside')!;
    const hole = 2.4 * (1 / Math.cos(ridge.angle / 2) - 1);
    const nearest = Math.min(...profile.map(({ wet }) => Math.hypot(wet[0] - ridge.start[1], wet[1] - ridge.start[2])));
    expect(nearest).toBeCloseTo(hole, 2);
  });

  it('with one bend off, the far leg stands off the side by what the stack says', () => {
    const joint = stages.joints().seams[0].runs.find(({ run }) => run.sides[1].face === 4)!;
    const datum = joint.gap.datum.sides[1].face;
    const off = (0.4 * Math.PI) / 180;
    // The bend between the last two legs; less bend lets the front fall outward, away from the side.
    const share = joint.gap.stack.shares.find(({ bend }) => stages.shape().bends[bend].name === 'leg4 leg5')!;
    const bent = foldProfile(strip, zigzag[0], DOWN, [0, 0, 0, -off]);
    // Set together at leg 3, which comes before that bend: nothing to move back.
    expect(stages.shape().faces[datum].name).toBe('leg3');
    const tip = bent[bent.length - 1];
    expect(distanceTo(solids.left, 0, tip.wet)).toBeCloseTo(share.perAngle * off, 1);
    const predicted = share.perAngle * off;
    expect(Math.abs(distanceTo(solids.left, 0, tip.wet) - predicted) / predicted).toBeLessThan(0.02);
  });
});

describe('mass', () => {
  it('and centre of the strip are those of the solid folded by other code', () => {
    const lump = lumpOf(stages.folded()[0]!);
    expect(Math.abs(lump.volume / solids.strip.volume() - 1)).toBeLessThan(2e-4);
    // First moments by slicing: the solid is a prism, its section's centroid is the mean over the mesh of the kernel.
    const [cx, cy, cz] = centroidOf(solids.strip);
    expect(lump.centre![0]).toBeCloseTo(cx, 2);
    expect(lump.centre![1]).toBeCloseTo(cy, 2);
    expect(lump.centre![2]).toBeCloseTo(cz, 2);
  });

  it('of a side is its cut area times its thickness', () => {
    expect(lumpOf(stages.folded()[1]!).volume).toBeCloseTo(areaOfContour(left.outline) * 1.2, 6);
    expect(Math.abs(lumpOf(stages.folded()[1]!).volume / solids.left.volume() - 1)).toBeLessThan(1e-5);
  });

  it('adds up: what is cut of 304 at 7930 kg/m3, which the folded solids have but for where K puts the neutral line', () => {
    const cut = stages.flats().reduce((sum, flat) => sum + areaOfContour(flat!.outline) * 1.2, 0);
    expect(stages.mass().empty.mass).toBeCloseTo(cut * 7930e-9, 9);
    const volume = solids.strip.volume() + solids.left.volume() + solids.right.volume();
    expect(Math.abs(cut / volume - 1)).toBeLessThan(2e-3);
  });
});

/** Centroid of a closed triangle mesh, by signed tetrahedra. */
const centroidOf = (solid: Manifold): readonly [number, number, number] => {
  const { vertProperties, triVerts, numProp } = solid.getMesh();
  let volume = 0;
  const sum: [number, number, number] = [0, 0, 0];
  for (let t = 0; t < triVerts.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => [0, 1, 2].map((i) => vertProperties[triVerts[t + k] * numProp + i]));
    const six =
      a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
    volume += six / 6;
    for (let i = 0; i < 3; i++) sum[i] += (six / 24) * (a[i] + b[i] + c[i]);
  }
  return [sum[0] / volume, sum[1] / volume, sum[2] / volume];
};
