import { describe, expect, it } from 'vitest';
import { areaOfContour } from '../../../src/analysis/geometry/contour.js';
import { distance, distance2, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import { beadOf } from '../../../src/analysis/join/seam/bead.js';
import { allowedGap, methodOf } from '../../../src/analysis/join/seam/method.js';
import { pointOnRun } from '../../../src/analysis/join/seam/seam-runs.js';
import { weldPlanOf } from '../../../src/analysis/join/weld-order.js';
import type { Strainer, Tub } from '../../../src/analysis/model/tub.js';
import { reportJoints } from '../../../src/analysis/report/joining/joints.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { pan } from '../../support/random/arbitrary-tub.js';
import { sealed } from '../../support/tubs/sealed.js';
import { looseClips, member, seamOf, stripAndSides, zigzag } from '../../support/tubs/strip-and-sides.js';
import { tubOf, withOutlet } from '../../support/tub-of.js';

const tub = stripAndSides(zigzag, 300);
const seam = (rest: Parameters<typeof seamOf>[3]) => seamOf(tub, member(tub, 'a', [0]), member(tub, 'b', [1]), rest);

describe('what closes a seam', () => {
  // ISO 5817 no. 617, level D, 0.5 to 3 mm: h <= 0.5 + 0.1 a, from memory; a = 0.7 t. By hand for t = 1.2: 0.584.
  it.each([
    ['tig', seam({ weld: 'tig' }), 0.584],
    ['mig', seam({ weld: 'mig' }), 1.2],
    ['solder', seam({ weld: undefined, solder: true }), 0.15],
    ['sealant', seam({ weld: undefined, sealant: 3 }), 1.5],
    ['none', seam({ weld: undefined, spots: 2 }), 0],
  ])('%s bridges its gap on sheet of 1.2 mm', (closing, given, closes) => {
    const method = methodOf(given, 1.2);
    expect(method.closing).toBe(closing);
    expect(method.closes).toBeCloseTo(closes, 9);
  });

  it('a stated gap lowers what is allowed, and never raises it', () => {
    const method = methodOf(seam({}), 1.2);
    expect(allowedGap(seam({ gapAtMost: 0.3 }), method)).toBe(0.3);
    expect(allowedGap(seam({ gapAtMost: 3 }), method)).toBe(method.closes);
  });

  it('tells all that holds it', () => {
    expect(methodOf(seam({ ...looseClips, weld: undefined, sealant: 3 }), 1.2).name).toBe(
      'clips and spot welds and sealant',
    );
  });
});

describe('beads', () => {
  const site = {
    closing: 'tig',
    length: 100,
    thickness: 1.2,
    corner: Math.PI / 2,
    style: { kind: 'corner' },
    gap: 0,
    sealant: 0,
  } as const;

  // By hand: a right fillet of 1.2 mm legs is 0.72 mm2.
  it('a weld is a fillet of the sheet\u2019s thickness, and the gap besides', () => {
    expect(beadOf(site).volume).toBeCloseTo(72, 9);
    expect(beadOf({ ...site, gap: 0.5 }).volume).toBeCloseTo(72 + 60, 9);
  });

  // By hand: 3 x 3 / 2 = 4.5 mm2 in a corner; pi / 4 9 = 7.069 mm2 over a lap.
  it('sealant fills a corner, or lies round on a lap', () => {
    expect(beadOf({ ...site, closing: 'sealant', sealant: 3 }).volume).toBeCloseTo(450, 9);
    expect(
      beadOf({ ...site, closing: 'sealant', sealant: 3, style: { kind: 'lap', by: 15, lapping: 0 } }).volume,
    ).toBeCloseTo(706.858, 3);
  });

  it('solder is a film over the lap', () => {
    expect(beadOf({ ...site, closing: 'solder', style: { kind: 'lap', by: 15, lapping: 0 } }).volume).toBeCloseTo(
      15 * 0.15 * 100,
      9,
    );
  });

  it('add up seam by seam in the report', () => {
    const { seams } = reportJoints(createStages(tub));
    expect(seams[1].running_total.length_mm).toBeCloseTo(seams[0].length_mm + seams[1].length_mm, 3);
  });
});

describe('the order of welding', () => {
  const plan = weldPlanOf(createStages(tub).joints())!;

  it('takes every piece once and covers every seam', () => {
    const length = plan.pieces.reduce((sum, piece) => sum + piece.to - piece.from, 0);
    expect(length).toBeCloseTo(
      createStages(tub)
        .joints()
        .seams.reduce((sum, each) => sum + each.length, 0),
      6,
    );
    expect(new Set(plan.pieces.map(({ run, from }) => pointOnRun(run, from).join(' '))).size).toBe(plan.pieces.length);
  });

  it('never goes on where it has just stopped', () => {
    for (let i = 1; i < plan.pieces.length; i++) {
      const [a, b] = [plan.pieces[i - 1], plan.pieces[i]];
      const ends = (piece: typeof a): Vec3[] => [pointOnRun(piece.run, piece.from), pointOnRun(piece.run, piece.to)];
      for (const p of ends(a)) for (const q of ends(b)) expect(distance(p, q)).toBeGreaterThan(1);
    }
  });

  it('is none where nothing is welded', () => {
    expect(
      weldPlanOf(createStages(stripAndSides(zigzag, 300, { weld: undefined, sealant: 3 })).joints()),
    ).toBeUndefined();
  });
});

describe('a strainer frame that is bolted in', () => {
  const strainer: Strainer = {
    at: 0,
    meshPerInch: 60,
    wire: undefined,
    aperture: undefined,
    size: [80, 60],
    blocked: 0,
    passage: undefined,
    bolted: { kind: 'rivetnut', thread: 5, sealed: true },
  };
  const withFrame = (sealedBolts: boolean): Tub =>
    sealed(
      withOutlet(pan({ wide: 300, deep: 200, rim: 80 }).tub, 0, [150, 100, 0], 40, {
        strainer: { ...strainer, bolted: { ...strainer.bolted!, sealed: sealedBolts } },
      }),
    );
  const stages = createStages(withFrame(true));
  const [frame] = stages.joints().frames;

  it('has the same holes in frame and panel, a size wider in the panel for rivet nuts', () => {
    const piece = stages.loosePieces().find((flat) => flat.name === frame.name)!;
    const own = piece.holes.flatMap((hole) => hole.circle ?? []);
    const panel = stages
      .flats()[0]!
      .holes.filter((hole) => hole.opening === undefined)
      .flatMap((hole) => hole.circle ?? []);
    expect(own.length).toBe(frame.bolts.length);
    expect(panel.length).toBe(own.length);
    // Rivet nut M5: 7 mm (from memory); screw M5: 5.5 mm (ISO 273 medium).
    expect(own.every(({ radius }) => radius === 2.75)).toBe(true);
    expect(panel.every(({ radius }) => radius === 3.5)).toBe(true);
    const apart = (circles: typeof own): number[] =>
      circles.flatMap((a, i) => circles.slice(i + 1).map((b) => distance2(a.center, b.center))).sort((p, q) => p - q);
    apart(own).forEach((each, i) => expect(apart(panel)[i]).toBeCloseTo(each, 9));
  });

  // By hand: 80 + 2 x 4 x 5 = 120 by 100; bolts 10 mm in from the outside, at most 50 apart: 2 x (2 + 2) = 8.
  it('is as large as cloth and border, held down every ten diameters, and made under size', () => {
    expect(frame.outer).toEqual([120, 100]);
    expect(frame.bolts).toHaveLength(8);
    frame.bolts.forEach((bolt, i) => expect(distance2(bolt, frame.bolts[(i + 1) % 8])).toBeLessThanOrEqual(50));
    // ISO 2768-1 class m: 120 mm +- 0.3, turned wholly under.
    expect(frame.under).toBeCloseTo(0.6, 12);
    expect(stages.loosePieces()[0].holes).toHaveLength(9);
  });

  it('leaks at its bolts unless they are sealed', () => {
    expect(stages.watertight().leaks).toEqual([]);
    expect(
      createStages(withFrame(false))
        .watertight()
        .leaks.map((leak) => leak.kind),
    ).toEqual(['fastener']);
  });

  it('is weighed with the tub', () => {
    const piece = stages.loosePieces()[0];
    const area =
      Math.abs(areaOfContour(piece.outline)) -
      piece.holes.reduce((sum, hole) => sum + Math.abs(areaOfContour(hole.contour)), 0);
    expect(stages.mass().loose.mass).toBeCloseTo(area * 1.2 * 7930e-9, 9);
  });
});

describe('panels that lap', () => {
  const flatTub = tubOf({
    panels: {
      base: [
        [0, 0, 0],
        [200, 0, 0],
        [200, 150, 0],
        [0, 150, 0],
      ],
      wall: [
        [0, 0, 0],
        [200, 0, 0],
        [200, -80, 60],
        [0, -80, 60],
      ],
    },
  });
  const lapped: Tub = {
    ...flatTub,
    seams: [
      seamOf(flatTub, member(flatTub, 'base', [0]), member(flatTub, 'wall', [1]), {
        style: { kind: 'lap', by: 15, lapping: 0 },
        spots: 5,
        weld: undefined,
        sealant: 3,
      }),
    ],
  };

  // By hand: of 200 mm a notch of 1.5 (the kerf) and 1 mm stay free at both ends; five spots share 195, 39 apart. The leg is 15 deep
  // from the corner of its inner faces, at 1.2 / 0.6 x 0.8 = 1.6 within the wall's wet edge: it ends at 16.6, and lies flat from
  // 1.6 + 1.2 tan(36.87 / 2) = 2 on: 14.6, so 7.3 to either edge, the middle at 9.3.
  it('are spotted along the middle of the lap', () => {
    const { spots } = createStages(lapped).joints().seams[0].runs[0];
    const along = spots.map(({ point }) => point[0]).sort((a, b) => a - b);
    expect(along.map((x) => Number(x.toFixed(9)))).toEqual([22, 61, 100, 139, 178]);
    const line = spots.map(({ point }) => Math.hypot(point[1], point[2]));
    for (const off of line) expect(off).toBeCloseTo(9.3, 9);
    for (const { edge } of spots) expect(edge).toBeCloseTo(7.3, 9);
  });
});
