import { beforeAll, describe, expect, test } from 'vitest';
import { reportOf, reportText } from '../../../src/analysis/report/report.js';
import { reportParts } from '../../../src/analysis/report/making/parts.js';
import { createStages, type Stages } from '../../../src/analysis/stages/stages.js';
import { analyseText, codesOf } from '../../support/analyse-text.js';
import { solidKernel } from '../../support/oracles/solid-kernel.js';

const TUB = `units mm
sheet skin = stainless thickness 1.2  radius 1.6
strip box of skin from (0, 400, 200) heading front across right 300 {
    panel back  to z 20  falling 90 deg
    panel bed   360      falling 3 deg
    panel front to z 200 rising 90 deg
}
side left  of skin closes box.left  up to 200
side right of skin closes box.right up to 200
seam left  box { weld tig }
seam right box { weld tig }
outlet drain in bed at (150, 70, 2.7) diameter 40 { lip 12 }
inflow 5 L/min on bed
path bed drain
`;

/** Things all about the tub, some of them edge on edge with it. */
const AROUND = `existing cabinet {
    sheet plate = steel thickness 2
    panel deck of plate metal up = (-60, -40, 200) (620, -40, 200) (620, 520, 200) (-60, 520, 200)
    cutout mouth in deck from (0, 40, 200) to (300, 400, 200)
}
support stand {
    panel plate of skin = (40, 100, -40) (260, 100, -40) (260, 300, -40) (40, 300, -40)
    panel rail of skin = (0, 400, 200) (300, 400, 200) (300, 460, 200) (0, 460, 200)
    flange lip on plate[P Q] turned down 90 deg by 30
}
point P = (40, 100, -40)  point Q = (260, 100, -40)
removable tray {
    strip hoop of skin from (20, 380, 150) heading front across right 260 {
        panel a 30 falling 90 deg
        panel b 300 level
        panel c 30 rising 90 deg
    }
}
`;

const stagesOf = (text: string): Stages => createStages(analyseText(text, { rules: [] }).tub);

describe('things beside the tub', () => {
  const [alone, among] = [stagesOf(TUB), stagesOf(TUB + AROUND)];

  test('are not weighed with the empty tub; what comes out again is on the stand, and what it stands on is not', () => {
    // From memory: stainless of about 7930 kg/m3. The tray is a strip of 260 by about 360 mm, the support a plate, a rail and a lip.
    const { empty, removable, support, made } = among.mass();
    expect(empty).toEqual(alone.mass().empty);
    expect(removable.mass).toBeCloseTo(260 * 360 * 1.2 * 7930e-9, 1);
    expect(support.mass).toBeCloseTo((220 * 200 + 300 * 60 + 220 * 30) * 1.2 * 7930e-9, 1);
    expect(made.mass).toBeCloseTo(empty.mass + removable.mass + support.mass, 9);
    const [dry, laden] = [alone.fillTest()!, among.fillTest()!];
    expect(laden.full.mass).toBeCloseTo(dry.full.mass + removable.mass, 9);
    expect(reportText(reportOf(among))).toContain(
      `The empty tub weighs ${empty.mass.toFixed(2)} kg, what comes out again ${removable.mass.toFixed(2)} kg, what it stands on ${support.mass.toFixed(2)} kg.`,
    );
    expect(reportText(reportOf(alone))).toContain(`The empty tub weighs ${empty.mass.toFixed(2)} kg.\n`);
  });

  test('change nothing of its water, its leaks and its seams', () => {
    expect(
      among
        .water()
        .basins()
        .map(({ level, volume }) => [level, volume]),
    ).toEqual(
      alone
        .water()
        .basins()
        .map(({ level, volume }) => [level, volume]),
    );
    const leaks = (stages: Stages): readonly unknown[] =>
      stages.watertight().leaks.map(({ kind, point, gap }) => [kind, point, gap]);
    expect(leaks(among)).toEqual(leaks(alone));
    expect(among.joints().seams.map(({ name, length }) => [name, length])).toEqual(
      alone.joints().seams.map(({ name, length }) => [name, length]),
    );
    expect(among.water().paths().flat()).toHaveLength(alone.water().paths().flat().length);
  });

  test('are cut, bent and weighed if they are made, and not if they stand there', () => {
    expect(among.parts().map(({ name }) => name)).toEqual([
      'box',
      'left',
      'right',
      'stand.plate',
      'stand.rail',
      'tray.hoop',
    ]);
    const [all, own] = [among, alone].map((stages) =>
      reportParts(stages).reduce((sum, { flat }) => sum + flat!.mass_kg, 0),
    );
    // By hand: 300 x 60 mm of rail, 1.2 mm of stainless steel at 7.93 kg/dm3, is 0.171 kg; the stand and the tray come to it.
    expect(reportParts(among)[4].flat!.mass_kg).toBeCloseTo(0.3 * 0.06 * 0.0012 * 7930, 2);
    expect(all - own).toBeCloseTo(
      reportParts(among)
        .slice(3)
        .reduce((sum, { flat }) => sum + flat!.mass_kg, 0),
      6,
    );
    expect(reportParts(among).map(({ role }) => role)).toEqual([
      'tub',
      'tub',
      'tub',
      'support',
      'support',
      'removable',
    ]);
  });

  test('have names of their own, and short ones where those are clear', () => {
    const codes = codesOf(
      analyseText(`${TUB}${AROUND}rim stand.rail[R S]\nrim tray.hoop.a.start\nrim c.end
point R = (300, 460, 200)  point S = (0, 460, 200)\n`),
    );
    expect(codes.filter((code) => code.startsWith('text/'))).toEqual([]);
  });
});

describe('existing panels as slabs', () => {
  let kernel: Awaited<ReturnType<typeof solidKernel>>;
  beforeAll(async () => {
    kernel = await solidKernel();
  });

  test.each([
    ['up', 200, 202],
    ['down', 198, 200],
  ] as const)(
    'metal %s: from z %d to %d, with their openings, as an independent modeller builds them',
    (side, low, high) => {
      const slab = kernel.solidOf(stagesOf(TUB + AROUND.replace('metal up', `metal ${side}`)).existing()[0]);
      const { min, max } = slab.boundingBox();
      expect([min[2], max[2]].map((z) => Math.round(z * 1e6) / 1e6)).toEqual([low, high]);
      // 680 x 560 less the mouth of 300 x 360, 2 mm thick.
      expect(slab.volume()).toBeCloseTo((680 * 560 - 300 * 360) * 2, 3);
      expect(min[0]).toBeCloseTo(-60, 6);
    },
  );
});
