/** Rivets and screws of seams: one hole in every sheet they pass, all in line, and bodies that take no room of any sheet. */
import { describe, expect, it } from 'vitest';
import { areaOfContour } from '../../../../src/analysis/geometry/contour.js';
import { toSpace } from '../../../../src/analysis/geometry/frame.js';
import { cross, distance, dot, lengthOf, subtract, type Vec3 } from '../../../../src/analysis/geometry/vec.js';
import type { FoldedPart } from '../../../../src/analysis/fold/flat-pattern.js';
import { reportHardware } from '../../../../src/analysis/report/joining/hardware.js';
import { createStages, type Stages } from '../../../../src/analysis/stages/stages.js';
import { meshOf } from '../../../../src/analysis/solid/boundary/mesh.js';
import { analyseText } from '../../../support/analyse-text.js';

const SHEETS = `units mm
sheet skin = stainless thickness 1.2 radius 1.2
panel base of skin = (0, 0, 0) (200, 0, 0) (200, 150, 0) (0, 150, 0)
panel more of skin = (0, 0, 0) (200, 0, 0) (200, -150, 0) (0, -150, 0)
panel wall of skin = (0, 150, 0) (200, 150, 0) (200, 150, 80) (0, 150, 80)
`;
const stagesOf = (seam: string): Stages => createStages(analyseText(SHEETS + seam, { rules: [] }).tub);

/** Middles of all round holes of the folded parts, on their dry faces. */
const holesOf = (parts: readonly (FoldedPart | undefined)[]): Vec3[] =>
  parts.flatMap((part) =>
    (part?.plates ?? []).flatMap(({ frame, holes }) =>
      holes.map((hole) => toSpace(frame, [(hole[0].x + hole[1].x) / 2, (hole[0].y + hole[1].y) / 2])),
    ),
  );

describe('rivets of a lap', () => {
  const stages = stagesOf('seam base more { lap 16 rivets every 20 sealant 3 }');

  // By hand: down by 1.2 with R 1.2 over 15 deg: the bends take 3.6 (1 - cos 15) = 0.1227, the slope 1.0773 / sin 15 = 4.1625 of
  // length; the step is 3.6 sin 15 + 4.1625 cos 15 = 4.9524 long. The flat: 150 - 4.9524 + 2 allowances + 4.1625 + 16.
  it('sets the first sheet down by a step, so that its lap lies on the dry side of the second', () => {
    const [base, more] = stages.folded();
    const lap = base!.plates.at(-1)!;
    const wet = (part: FoldedPart, plate: FoldedPart['plates'][number]): number =>
      dot(plate.frame.origin, plate.frame.normal) - part.thickness;
    const dryOfMore = dot(more!.plates[0].frame.origin, more!.plates[0].frame.normal);
    expect(lap.frame.normal[2]).toBeCloseTo(more!.plates[0].frame.normal[2], 9);
    expect(wet(base!, lap)).toBeCloseTo(dryOfMore, 6);
    const [flat] = stages.flats();
    const allowance = flat!.bends[0].allowance;
    const ys = flat!.outline.map(({ y }) => y);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(150 - 4.9524 + 2 * allowance + 4.1625 + 16, 3);
    expect(flat!.bends.map(({ pressed }) => pressed)).toEqual([true, true]);
  });

  it('takes no room of the other sheet, and no stroke of a brake', () => {
    expect(stages.sharedRoom()).toEqual([]);
    expect(stages.plans()[0]).toMatchObject({ steps: [] });
    expect(stages.making().pieces.flatMap(({ bends }) => bends)).toEqual([]);
  });

  it('go through both sheets in the same places', () => {
    const [base, more] = stages.folded().map((part) => holesOf([part]));
    expect(base).toHaveLength(10);
    // In line, a thickness apart.
    for (const hole of base) expect(Math.min(...more.map((other) => distance(hole, other)))).toBeCloseTo(1.2, 6);
  });

  // By hand: of 200 mm 2.5 stay free at both ends, a notch of the kerf, 1.5, and 1 mm: ten shares of 19.5, 8 from the edge of the lap.
  it('stand a pitch apart in the middle of the lap', () => {
    const places = holesOf(stages.folded().slice(1, 2)).sort((a, b) => a[0] - b[0]);
    expect(places.map(([x, y]) => [Math.round(x), Math.round(y)])).toEqual(
      Array.from({ length: 10 }, (_, i) => [Math.round(12.25 + 19.5 * i), -8]),
    );
  });

  it('are bought by diameter and grip', () => {
    expect(reportHardware(stages).find(({ kind }) => kind === 'rivet')).toMatchObject({
      count: 10,
      diameter_mm: 3.2,
      grip_mm: 2.4,
      shank_mm: 7.2,
    });
  });

  // By hand: shank pi/4 3.2^2 2.4, two heads of pi/4 4.8^2 1.6 each, density 7930.
  it('are weighed', () => {
    const volume = (Math.PI / 4) * (3.2 ** 2 * 2.4 + 2 * 4.8 ** 2 * 1.6);
    expect(stages.mass().fasteners.mass).toBeCloseTo((10 * volume * 7930) / 1e9, 6);
  });
});

describe('rivets through tabs and clips', () => {
  it.each([
    ['tabs', 'tabs on base 18 wide 14 deep every 60', 1],
    ['clips', 'tabs loose 18 wide 14 deep every 60', 2],
  ])('cut a hole in every one of the %s and in what it lies on', (_, tabs, perTab) => {
    const stages = stagesOf(`seam base wall { ${tabs} rivets every 40 sealant 3 }`);
    const count = stages.joints().seams[0].runs[0].row!.centres.length;
    const inParts = stages.flats().reduce((sum, flat) => sum + (flat?.holes.length ?? 0), 0);
    const inClips = stages.loosePieces().reduce((sum, flat) => sum + flat.quantity * flat.holes.length, 0);
    expect(inParts + inClips).toBe(2 * perTab * count);
    expect(reportHardware(stages).find(({ kind }) => kind === 'rivet')?.count).toBe(perTab * count);
  });

  it('of one piece fold onto the holes of the panel', () => {
    const stages = stagesOf('seam base wall { tabs on base 18 wide 14 deep every 60 rivets every 9 sealant 3 }');
    const [base, , wall] = stages.folded().map((part) => holesOf([part]));
    expect(base.length).toBeGreaterThan(0);
    // The tab lies on the wall's dry face, so the axes are in line and a thickness apart.
    for (const hole of base) {
      const nearest = wall.reduce((best, each) => (distance(each, hole) < distance(best, hole) ? each : best));
      expect(lengthOf(cross(subtract(nearest, hole), [0, 1, 0]))).toBeLessThan(1e-6);
      expect(Math.abs(dot(subtract(nearest, hole), [0, 1, 0]))).toBeCloseTo(1.2, 6);
    }
  });

  it('drilled on assembly leave a cross on the tab and no hole', () => {
    const stages = stagesOf(
      'seam base wall { tabs on base 18 wide 14 deep every 60 rivets every 40 drilled on assembly sealant 3 }',
    );
    const [base, , wall] = stages.flats();
    const count = stages.joints().seams[0].runs[0].row!.centres.length;
    expect([base!.holes.length, wall!.holes.length]).toEqual([0, 0]);
    expect(base!.marks.filter(({ points }) => points.length === 2)).toHaveLength(2 * count);
  });
});

// By hand, sizes from memory: 2.4 and two washers of 1, a nut of 4.7 and a turn of 0.8: 9.9, so 10 mm.
describe('bodies of screws', () => {
  const stages = stagesOf('seam base wall { tabs loose 24 wide 24 deep every 90 bolted M5 every 60 sealant 3 }');

  it('are closed, and as large as their measures say', () => {
    const bodies = stages.fasteners();
    const sites = stages.joints().seams[0].runs.flatMap(({ fasteners }) => fasteners);
    expect(bodies).toHaveLength(5 * sites.length);
    for (const body of bodies) {
      const { positions, triangles } = meshOf(body, 0.01);
      const volume = triangles.reduce(
        (sum, [a, b, c]) => sum + dot(positions[a], cross(positions[b], positions[c])) / 6,
        0,
      );
      const [plate] = body.plates;
      const area = areaOfContour(plate.contour) + plate.holes.reduce((sum, hole) => sum + areaOfContour(hole), 0);
      expect(volume).toBeCloseTo(area * body.thickness, -1);
    }
  });

  it('take no room of the sheets that they hold', () => {
    expect(stages.sharedRoom().filter(({ takers }) => takers.some(({ kind }) => kind === 'fasteners'))).toEqual([]);
  });

  it('list screws, washers and nuts', () => {
    const count = stages.joints().seams[0].runs[0].fasteners.length;
    const items = reportHardware(stages).filter(({ kind }) => kind === 'fastener');
    expect(items.map(({ item, count: many }) => [item, many])).toEqual([
      ['Hexagon screw M5 x 10', count],
      ['Washer M5', 2 * count],
      ['Nut M5', count],
    ]);
  });
});

describe('a lap at an angle', () => {
  const stages = stagesOf('seam wall base { lap 20 rivets every 25 sealant 3 }');

  // By hand: the bend begins where the wet faces meet (1.2 for the base's thickness less 1.2 tan 45 deg), and the leg is 20 from
  // the corner of its inner faces: 80 + pi/2 (1.2 + K 1.2) + 18.8.
  it('is a leg of the first panel, bent to lie on the other', () => {
    const [bend] = stages.flats()[2]!.bends;
    expect(bend.angle).toBeCloseTo(Math.PI / 2, 9);
    const ys = stages.flats()[2]!.outline.map(({ y }) => y);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(80 + (Math.PI / 2) * (1.2 + bend.kFactor * 1.2) + 18.8, 6);
  });

  it('takes no room of what it lies on, and its rivets go through both', () => {
    expect(stages.sharedRoom()).toEqual([]);
    const [base, , wall] = stages.folded().map((part) => holesOf([part]));
    expect(base).toHaveLength(8);
    for (const hole of wall) {
      const nearest = base.reduce((best, each) => (distance(each, hole) < distance(best, hole) ? each : best));
      expect(lengthOf(cross(subtract(nearest, hole), [0, 0, 1]))).toBeLessThan(1e-6);
    }
  });

  it('lies under the one that is named after on', () => {
    const other = stagesOf('seam wall base { lap 20 on wall rivets every 25 sealant 3 }');
    expect(other.flats().map((flat) => flat?.bends.length)).toEqual([1, 0, 0]);
    expect(
      stagesOf('seam wall base { lap 20 on base sealant 3 }')
        .flats()
        .map((flat) => flat?.bends.length),
    ).toEqual([0, 0, 1]);
  });
});
