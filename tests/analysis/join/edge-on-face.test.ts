import { beforeAll, describe, expect, test } from 'vitest';
import { heightOver } from '../../../src/analysis/geometry/frame.js';
import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import { createStages, type Stages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';
import { distanceToBorder, onSkin, rollEnd } from '../../support/oracles/meeting.js';
import { solidKernel } from '../../support/oracles/solid-kernel.js';

const stagesOf = (text: string): Stages => createStages(analyseText(text, { rules: [] }).tub);

const box = (slope: string, rest: string): string => `units mm
sheet skin = stainless thickness 1.2  radius 1.6
strip box of skin from (0, 700, 220) heading front across right 300 {
    panel back  to z 20  falling 90 deg
    panel bed   660      ${slope}
    panel front to z 220 rising 90 deg
}
side left  of skin closes box.left  up to 220
side right of skin closes box.right up to 220
seam left  box { weld tig }
seam right box { weld tig }
${rest}`;

const zigzag = (rest: string): string => `units mm
sheet skin = stainless thickness 1.2 radius 1.6
strip ramp of skin from (0, 400, 300) heading front across right 240 {
    panel back  50  falling 90 deg
    panel s1   120  falling 6 deg
    panel d1    60  falling 62 deg
    panel s2   120  falling 6 deg
    panel lip   60  falling 62 deg
}
${rest}`;

const weir = (slope = 'falling 5 deg', metal = 'front'): Stages =>
  stagesOf(
    box(
      slope,
      `panel weir of skin stands on box.bed at 400 metal ${metal} up to 150
seam weir box.bed { weld tig  tabs on weir 18 wide 14 deep every 70 }
seam weir left { weld tig }\nseam weir right { weld tig }\n`,
    ),
  );

const partNamed = (stages: Stages, name: string): number => stages.parts().findIndex((part) => part.name === name);

describe('an edge that stands on a face', () => {
  test('leans to its dry side and is cut back by T tan(lean), as worked by hand', () => {
    // Metal to the front of an upright panel on a bed that falls to the front by 5 deg: the bed is lower there, the wet edge
    // stands. Metal to the back: the bed is higher there by 1.2 tan 5 deg = 0.105 mm.
    const [front, back] = (['front', 'back'] as const).map(
      (metal) => weir('falling 5 deg', metal).joints().seams[2].runs[0].run,
    );
    expect(front.sides[0].runOn).toBeCloseTo(0, 9);
    expect(back.sides[0].runOn).toBeCloseTo(-1.2 * Math.tan((5 * Math.PI) / 180), 9);
    expect(front.footing).toBe(1);
  });

  test('has one run over its whole foot and two up the sides, each without a gap as drawn', () => {
    const seams = weir().joints().seams.slice(2);
    expect(seams.map(({ runs }) => runs.length)).toEqual([1, 1, 1]);
    expect(seams[0].length).toBeCloseTo(300, 6);
    for (const { runs } of seams) expect(runs[0].gap.nominal).toBeLessThan(1e-3);
  });

  test('has tabs that lie on the face, in the places that are marked on it', () => {
    const stages = weir();
    const part = partNamed(stages, 'weir');
    const folded = stages.folded()[part]!;
    const tabs = folded.plates.filter(({ face }) => face === undefined);
    const bed = stages.shape().faces[1];
    expect(tabs).toHaveLength(5);
    for (const plate of tabs) {
      for (const { x, y } of plate.contour) {
        expect(Math.abs(heightOver(bed.frame, onSkin(folded, plate, [x, y], 'wet')))).toBeLessThan(1e-6);
      }
    }
    const marks = stages
      .flats()
      [partNamed(stages, 'box')]!.marks.filter(({ text, isFoot }) => text?.includes('weir') && !isFoot);
    expect(marks).toHaveLength(5);
    expect(new Set(marks.map(({ side }) => side))).toEqual(new Set(['wet']));
    // 14 deep less the bend's outside setback (1.6 + 1.2) tan(c / 2), c = 85 deg on the dry side, front of the weir.
    const [a, b] = marks[0].points;
    expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeCloseTo(14 - 2.8 * Math.tan((85 * Math.PI) / 360), 6);
  });

  test('may be named first or second', () => {
    const turned = stagesOf(
      box('falling 5 deg', 'panel weir of skin stands on box.bed at 400 up to 150\nseam box.bed weir { weld tig }\n'),
    );
    const [{ run }] = turned.joints().seams[2].runs;
    expect(run.footing).toBe(0);
    expect(run.length).toBeCloseTo(300, 6);
    expect(run.corner).toBeCloseTo((85 * Math.PI) / 180, 9);
  });

  test('stands on the dry skin of a panel from below', () => {
    const { runs } = stagesOf(`units mm\nsheet skin = stainless thickness 1.2 radius 1.6
panel top of skin = (0, 0, 100) (200, 0, 100) (200, 100, 100) (0, 100, 100)
panel leg of skin = (50, 50, 98.8) (150, 50, 98.8) (150, 50, 20) (50, 50, 20)
seam leg top { weld tig }\n`).joints().seams[0];
    expect(runs).toHaveLength(1);
    expect(runs[0].run.sides[1].normal[2]).toBeCloseTo(-1, 9);
    expect(runs[0].gap.nominal).toBeLessThan(1e-9);
  });
});

describe('a divider that follows a strip', () => {
  const divided = (): Stages =>
    stagesOf(
      zigzag(`side baffle of skin crosses ramp at 100 from left up to 290
seam baffle ramp { weld tig  tabs on baffle 18 wide 14 deep every 70 }\n`),
    );

  test('meets the strip all along every bend, folded from its flat', () => {
    const stages = divided();
    const [ramp, baffle] = ['ramp', 'baffle'].map((name) => stages.folded()[partNamed(stages, name)]!);
    const plate = baffle.plates.find(({ face }) => face !== undefined)!;
    for (const roll of ramp.rolls) {
      const moved = rollEnd(roll, 0, 'wet').map(([, y, z]): Vec3 => [100, y, z]);
      for (const point of moved) {
        if (point[2] > 290) continue;
        expect(distanceToBorder(baffle, plate, point)).toBeLessThan(0.02);
      }
    }
  });

  test('leaves the clear width that is stated, with its metal beyond', () => {
    const { shape, tub } = divided();
    const face = shape().faces.find(({ name }) => name === 'baffle')!;
    expect(face.frame.normal[0]).toBeCloseTo(-1, 9);
    expect(new Set(tub.panels[face.panel].corners.map(([x]) => x))).toEqual(new Set([100]));
  });

  test('keeps its tabs off the bends that it crosses', () => {
    const stages = divided();
    for (const { run, row } of stages.joints().seams[0].runs) {
      for (const centre of row!.centres) {
        for (const bend of stages.shape().bends) {
          for (const [end, at] of [
            [run.start, centre],
            [run.end, run.length - centre],
          ] as const) {
            if (Math.abs(end[1] - bend.start[1]) < 1e-6) expect(at - 9).toBeGreaterThanOrEqual(bend.setback - 1e-9);
          }
        }
      }
    }
  });
});

describe('standing panels against an independent solid modeller', () => {
  let kernel: Awaited<ReturnType<typeof solidKernel>>;
  beforeAll(async () => {
    kernel = await solidKernel();
  });

  test.each([
    ['a weir on a falling bed', weir()],
    ['with its metal uphill', weir('falling 5 deg', 'back')],
    [
      'a divider over a zigzag',
      stagesOf(
        zigzag(
          'side baffle of skin crosses ramp at 100 up to 290\nseam baffle ramp { weld tig  tabs on baffle 18 wide 14 deep every 70 }\n',
        ),
      ),
    ],
  ])('%s shares no room with what it stands on', (_, stages) => {
    const solids = stages.folded().map((folded) => kernel.solidOf(folded!));
    for (let i = 0; i < solids.length; i++) {
      for (let j = 0; j < i; j++) {
        const shared = solids[i].intersect(solids[j]).volume();
        // Facets of arcs, and what the corner of the box itself has: no more than a hair along 300 mm.
        expect(shared, `${i} ${j}`).toBeLessThan(1.5);
      }
    }
  });
});
