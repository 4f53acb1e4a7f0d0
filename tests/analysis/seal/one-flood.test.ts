import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fillSection } from '../../../src/analysis/export/traveller/sections/fill-test.js';
import type { Job } from '../../../src/analysis/export/traveller/job.js';
import { unitsOf } from '../../../src/analysis/export/traveller/layout/units.js';
import { reportJoints } from '../../../src/analysis/report/joining/joints.js';
import { reportWater } from '../../../src/analysis/report/water/water.js';
import { rules } from '../../../src/analysis/rules/registry.js';
import { waterScene } from '../../../src/analysis/scene/water/water-scene.js';
import type { Analysis } from '../../../src/language/analyse.js';
import { analyseText } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';

const units = unitsOf('metric');

const sealRules = rules.filter(({ code }) => code.startsWith('seal/') || code === 'drain/no-outlet');

/** What each of those who tell of the flood says: level, litres, lowest leak. */
const told = ({ stages, findings, tub }: Analysis) => {
  const report = reportWater(stages);
  const { leaks, leak_level_mm, fill_test } = reportJoints(stages);
  const scene = waterScene(stages).map(({ item }) => item);
  const level = scene.find((item) => item.kind === 'water-level');
  const leakSpot = scene.find((item) => item.kind === 'water-spot' && item.spot === 'leak');
  const paper = JSON.stringify(fillSection({ stages, tub, units: units } as Job));
  return { report, leaks, leak_level_mm, fill_test, level, leakSpot, paper, findings };
};

const heightsOf = (findings: Analysis['findings']): number[] =>
  findings.flatMap(({ values = {} }) =>
    values.under_water === true && values.as_drawn === true ? [Number(values.height_mm)] : [],
  );

const expectOneAnswer = (analysis: Analysis): void => {
  const { report, leaks, leak_level_mm, fill_test, level, leakSpot, paper, findings } = told(analysis);
  expect(report.leak_level_mm).toBe(leak_level_mm);
  const heights = heightsOf(findings);
  if (leak_level_mm === null) expect(heights).toEqual([]);
  else expect(Math.min(...heights)).toBeCloseTo(leak_level_mm, 2);
  expect(leakSpot?.kind === 'water-spot' ? leakSpot.text : null).toBe(
    leak_level_mm === null ? null : `leaks at ${Number(leak_level_mm.toFixed(1))} mm`,
  );
  const { overflow, capacity_L } = report;
  if (!overflow || capacity_L === null) {
    expect(level).toBeUndefined();
    return;
  }
  if (level?.kind !== 'water-level') throw new Error('the scene shows no level');
  expect(level.level_mm).toBeCloseTo(overflow.level_mm, 2);
  expect(Math.abs(level.volume_L - capacity_L)).toBeLessThan(0.001);
  const main = new Set(report.basins[0].panels);
  const inMain = leaks.filter(({ between, kind }) => kind !== 'opening' && between.every((panel) => main.has(panel)));
  for (const leak of inMain) expect(leak.flood_level_mm).toBeCloseTo(overflow.level_mm, 2);
  const holdsTo = Math.min(overflow.level_mm, leak_level_mm ?? Infinity);
  expect(fill_test?.holds_to_mm).toBeCloseTo(holdsTo, 2);
  if (holdsTo === overflow.level_mm) expect(fill_test?.holds_L).toBeCloseTo(capacity_L, 2);
  if ((fill_test?.fill_L ?? 0) > 0.1)
    expect(paper).toContain(`${units.lengthOf(fill_test?.fill_to_mm ?? NaN)} in the tub`);
};

interface Case {
  readonly wide: number;
  readonly base: number;
  readonly back: number;
  readonly front: number | undefined;
  readonly hem: number | undefined;
  readonly fall: number;
  readonly seam: 'weld tig' | '';
  readonly raised: number | undefined;
  readonly cutAt: number | undefined;
}

const textOf = ({ wide, base, back, front, hem, fall, seam, raised, cutAt }: Case): string => `units mm
tub "tray"
sheet skin = stainless 18 ga radius 1.2
strip floor of skin from (0, ${base}, ${back}) heading front across right ${wide} {
    panel back ${back} falling 90 deg
    panel base ${base} falling ${fall} deg
${front === undefined ? '' : `    panel front ${front} rising 90 deg\n`}}
side left of skin closes floor.left up to ${back}
side right of skin closes floor.right up to ${back}
seam left floor { ${seam} }
seam right floor { ${seam} }
${hem === undefined ? '' : `rim floor.end hem open 12 gap ${hem} turned wet\n`}${
  raised === undefined ? '' : `outlet drain in base at center(base) diameter 30 { raised ${raised} }\n`
}${
  cutAt === undefined
    ? ''
    : `cutout over in back from (20, ${base}, ${cutAt}) to (50, ${base}, ${cutAt + 0.1 * back})\n`
}`;

const between = (min: number, max: number) => fc.integer({ min, max });
const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });

const arbitraryCase: fc.Arbitrary<Case> = fc
  .record({
    wide: between(80, 300),
    base: between(80, 300),
    back: between(30, 120),
    front: maybe(between(10, 100)),
    hem: maybe(between(2, 8)),
    fall: between(0, 6),
    seam: fc.constantFrom('weld tig' as const, '' as const),
    raised: maybe(between(2, 20)),
    cut: maybe(between(2, 8)),
  })
  .map(({ cut, ...rest }) => ({ ...rest, cutAt: cut === undefined ? undefined : (cut / 10) * rest.back }));

describe('check, report, scene and traveller', () => {
  it('see the same water behind a hem turned to the wet side, and the seams under it', () => {
    const analysis = analyseText(
      textOf({
        wide: 200,
        base: 300,
        back: 40,
        front: undefined,
        hem: 6,
        fall: 0,
        seam: '',
        raised: undefined,
        cutAt: undefined,
      }),
      { rules: sealRules },
    );
    const { report, leak_level_mm, findings } = told(analysis);
    // The hem's gap and its own thickness stand in the way.
    expect(report.overflow?.level_mm).toBeCloseTo(6 + 1.27, 2);
    expect(leak_level_mm).toBe(0);
    const seams = findings.filter(({ code }) => code === 'seal/open-seam');
    expect(seams.map(({ severity }) => severity)).toEqual(['error', 'error']);
    expectOneAnswer(analysis);
  });

  it('give one level, one volume and one leak for trays with hems, raised outlets and cut-outs', () => {
    let leaking = 0;
    fc.assert(
      fc.property(arbitraryCase, (tray) => {
        const analysis = analyseText(textOf(tray), { rules: sealRules });
        if (analysis.stages.watertight().lowest) leaking++;
        expectOneAnswer(analysis);
      }),
      { seed: 11, numRuns: casesOf(12) },
    );
    expect(leaking).toBeGreaterThan(3);
  });
});

interface Box {
  readonly dividers: readonly { readonly at: number; readonly top: number; readonly hole: boolean }[];
  readonly drain: number;
  readonly raised: number | undefined;
  readonly hem: string | undefined;
  readonly rates: readonly number[];
}

const floorAt = (y: number): number => 12 - (600 - y) * Math.tan((1.1 * Math.PI) / 180);

/** A box 600 deep and 200 high whose floor falls a little to the front, upright dividers across it, two inflows at its back. */
const boxOf = ({ dividers, drain, raised, hem, rates }: Box): string => `units mm
tub "box"
sheet skin = stainless 18 ga radius 1.2
strip floor of skin from (0, 600, 200) heading front across right 240 {
    panel back to z 12 falling 90 deg
    panel base to y 0 falling 1.1 deg
    panel front to z 200 rising 85 deg
}
side left of skin closes floor.left up to 200
side right of skin closes floor.right up to 200
seam left floor { weld tig }
seam right floor { weld tig }
${dividers
  .map(
    (
      { at, top, hole },
      i,
    ) => `panel wall${i} of skin = (0, ${at}, ${floorAt(at)}) (240, ${at}, ${floorAt(at)}) (240, ${at}, ${top}) (0, ${at}, ${top})
seam wall${i} floor { weld tig }  seam wall${i} left { weld tig }  seam wall${i} right { weld tig }
${hole ? `hole gap${i} in wall${i} at (120, ${at}, ${top - 25}) diameter 24` : ''}`,
  )
  .join('\n')}
outlet drain in floor.base at (120, 50, ${floorAt(50)}) diameter ${drain}${
  raised === undefined ? '' : ` { raised ${raised} }`
}
${hem === undefined ? '' : `rim floor.end hem ${hem}`}
${rates.map((rate, i) => `inflow tap${i} ${rate} L/min on floor.${i === 0 ? 'back' : 'base'}`).join('\n')}
`;

const arbitraryBox: fc.Arbitrary<Box> = fc.record({
  dividers: fc
    .uniqueArray(between(1, 4), { maxLength: 3 })
    .chain((places) =>
      fc.tuple(
        ...places.map((place) =>
          fc.record({ at: fc.constant(100 + 110 * place), top: between(60, 150), hole: fc.boolean() }),
        ),
      ),
    ),
  drain: between(20, 45),
  raised: maybe(between(3, 25)),
  hem: fc.option(fc.constantFrom('closed 12', 'open 12 gap 4', 'open 12 gap 4 turned wet'), { nil: undefined }),
  rates: fc.array(between(1, 30), { minLength: 1, maxLength: 2 }),
});

describe('check and report', () => {
  it('let the same water through each outlet, and lose none of it', () => {
    const flowRules = rules.filter(({ code }) => /^drain\/(inflow-lost|outlet-overwhelmed)$/.test(code));
    let chambers = 0;
    fc.assert(
      fc.property(arbitraryBox, (box) => {
        const { stages, findings } = analyseText(boxOf(box), { rules: flowRules });
        const { flows, outlets, chambers: rows } = reportWater(stages);
        chambers = Math.max(chambers, rows.length);
        const ends = flows.flatMap((flow) => flow.ends);
        for (const { rate_L_min, ends: own } of flows) {
          expect(own.reduce((sum, end) => sum + end.rate_L_min, 0)).toBeCloseTo(rate_L_min, 1);
          expect(own.reduce((sum, end) => sum + end.share_percent, 0)).toBeCloseTo(100, 1);
        }
        for (const { name, inflow_L_min } of outlets) {
          const into = ends.filter((end) => end.kind === 'outlet' && end.name === name);
          expect(inflow_L_min).toBeCloseTo(
            into.reduce((sum, end) => sum + end.rate_L_min, 0),
            1,
          );
        }
        const over = ends.reduce((sum, end) => sum + (end.kind === 'rim' ? end.rate_L_min : 0), 0);
        const told = findings.filter(({ severity }) => severity === 'error').length;
        if (over > 0.1) expect(told).toBeGreaterThan(0);
        else expect(findings.filter(({ code }) => code === 'drain/inflow-lost')).toEqual([]);
      }),
      { seed: 5, numRuns: casesOf(8) },
    );
    expect(chambers).toBeGreaterThan(2);
  });
});
