/** Strips that came out otherwise than drawn: sides that are cut to what was read meet them, in a mesh kernel that shares no code. */
import fc from 'fast-check';
import type { ManifoldToplevel } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Vec2 } from '../../src/analysis/geometry/vec.js';
import {
  DEFAULT_OPTIONS,
  isFile,
  type ExportFile,
  type MakeFiles,
  type Progress,
} from '../../src/analysis/export/exporter.js';
import { dxfFiles, svgFiles } from '../../src/analysis/export/flat/flat-files.js';
import { glbFiles, stepFiles, stlFiles } from '../../src/analysis/export/solid/solid-files.js';
import type { View } from '../../src/analysis/scene/scene-items.js';
import { sceneOf } from '../../src/analysis/scene/scene.js';
import type { Stages } from '../../src/analysis/stages/stages.js';
import { reportOf, type Report } from '../../src/analysis/report/report.js';
import { analyseText } from '../support/analyse-text.js';
import { loadKernel } from '../support/oracles/bend-solids.js';
import { casesOf } from '../support/cases.js';
import {
  drawnTurns,
  foldLegs,
  ontoLine,
  placedBy,
  wetAndDry,
  type CutStrip,
  type Read,
} from '../support/oracles/fold-as-read.js';
import { flatSolid } from '../support/oracles/strip-solid.js';

const DEG = Math.PI / 180;
const real = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true }).map((value) => Number(value.toFixed(4)));

interface Recipe {
  readonly thickness: number;
  readonly radius: number;
  readonly wide: number;
  readonly legs: readonly (readonly [length: number, slope: number])[];
  readonly last: number;
  /** deg. */
  readonly off: readonly number[];
  readonly datum: number;
  readonly taped: readonly { readonly leg: number; readonly by: number; readonly over: 'outside' | 'inside' }[];
}

const recipe: fc.Arbitrary<Recipe> = fc.record({
  thickness: real(0.5, 2),
  radius: real(0.5, 3),
  wide: real(100, 500),
  legs: fc.array(fc.tuple(real(60, 200), real(-50, 50)), { minLength: 1, maxLength: 5 }),
  last: real(65, 89),
  off: fc.array(real(-1.5, 1.5), { minLength: 6, maxLength: 6 }),
  datum: fc.integer({ min: -1, max: 6 }),
  taped: fc.uniqueArray(
    fc.record({ leg: fc.integer({ min: 1, max: 4 }), by: real(-1, 1), over: fc.constantFrom('outside', 'inside') }),
    { maxLength: 2, selector: ({ leg }) => leg },
  ),
});

/** (distance to the front, height): down the back, along the legs, up the front. */
const drawnPoints = ({ legs, last }: Recipe): Vec2[] => {
  const points: Vec2[] = [
    [0, 400],
    [0, 340],
  ];
  for (const [length, slope] of [...legs, [150, last] as const]) {
    const [x, z] = points[points.length - 1];
    points.push([x + length * Math.cos(slope * DEG), z + length * Math.sin(slope * DEG)]);
  }
  return points;
};

const K = 0.4;

const textOf = (of: Recipe, made: string): string => {
  const legs = [[60, -90] as const, ...of.legs, [150, of.last] as const];
  const lines = legs.map(
    ([length, slope], i) =>
      `    panel leg${i + 1} ${length} ${slope < 0 ? 'falling' : 'rising'} ${Math.abs(slope)} deg`,
  );
  return `units mm
sheet skin = stainless thickness ${of.thickness} radius ${of.radius} k ${K}
strip floor of skin from (0, 0, 400) heading back across right ${of.wide} {
${lines.join('\n')}
}
side left of skin closes floor.left up to 900
side right of skin closes floor.right up to 900
seam left floor { weld tig }
seam right floor { weld tig }
${made}`;
};

const stripOf = (of: Recipe): CutStrip => ({
  points: drawnPoints(of),
  thickness: of.thickness,
  radius: of.radius,
  kFactor: K,
});

const isFoldable = (of: Recipe): boolean => drawnTurns(stripOf(of)).every((turn) => Math.abs(turn) > 4 * DEG);

const readOf = (of: Recipe): Read => {
  const strip = stripOf(of);
  const turns = drawnTurns(strip).map((turn, i) => turn + Math.sign(turn) * of.off[i % of.off.length] * DEG);
  const taped = of.taped
    .filter(({ leg }) => leg < strip.points.length - 2)
    .map(({ leg, by, over }) => {
      const [a, b] = [strip.points[leg], strip.points[leg + 1]];
      return [leg, { length: Math.hypot(b[0] - a[0], b[1] - a[1]) + by, over }] as const;
    });
  return { turns, taped: new Map(taped) };
};

const madeOf = (of: Recipe, { turns, taped = new Map() }: Read): string => {
  const legs = turns.length + 1;
  const stand = of.datum >= 0 && of.datum < legs ? ` standing on floor.leg${of.datum + 1}` : '';
  const bends = turns.map((turn, i) =>
    i % 2 === 0
      ? `    bend floor.leg${i + 1} floor.leg${i + 2} reads ${Math.abs(turn) / DEG} deg`
      : `    bend floor.leg${i + 2} floor.leg${i + 1} opens ${180 - Math.abs(turn) / DEG} deg`,
  );
  const tapes = [...taped].map(
    ([leg, { length, over }]) => `    panel floor.leg${leg + 1} measures ${length} over ${over}`,
  );
  return `made floor${stand} {\n${[...bends, ...tapes].join('\n')}\n}\n`;
};

/** Where the strip as read comes to lie: by the panel that it stands on, or by its ends. */
const placedWet = (of: Recipe, read: Read): { wet: Vec2; dry: Vec2 }[] => {
  const strip = stripOf(of);
  const legs = foldLegs(strip, read);
  const line = (points: readonly Vec2[]): readonly [Vec2, Vec2] => [points[0], points[points.length - 1]];
  const isHeld = of.datum >= 0 && of.datum < legs.length;
  const motion = isHeld
    ? ontoLine(legs[of.datum].sharp, [strip.points[of.datum], strip.points[of.datum + 1]])
    : ontoLine([legs[0].sharp[0], legs[legs.length - 1].sharp[1]], line(strip.points));
  return wetAndDry(strip, read, legs).map(({ wet, dry }) => ({
    wet: placedBy(motion, wet),
    dry: placedBy(motion, dry),
  }));
};

/** Of what is cut already there is no drawing to cut by; bodies are of the whole. */
const EXPORTS: readonly (readonly [MakeFiles, number])[] = [
  [svgFiles, 1],
  [dxfFiles, 1],
  [stepFiles, 0],
  [stlFiles, 0],
  [glbFiles, 0],
];
const filesOf = (makes: MakeFiles, stages: Stages): (readonly [string, string | Uint8Array])[] =>
  [...(makes(stages, DEFAULT_OPTIONS) as Iterable<ExportFile | Progress>)]
    .filter(isFile)
    .map(({ name, content }) => [name, content]);

/** What is drawn; what is told of a seam goes by the gauge where bends were read. */
const paintedIn = (stages: Stages, view: View): string =>
  JSON.stringify(
    sceneOf(view, stages).map(({ item }) => item),
    (key, value: unknown) => (key === 'told' ? undefined : value),
  );

/** All but what is still to be done. */
const asShaped = ({ making: _, parts, bends, seams, ...rest }: Omit<Report, 'made' | 'work'>): object => ({
  ...rest,
  // Of bends that were read the gauge tells how true they are.
  seams: seams.map(({ gap: __, ...seam }) => seam),
  parts: parts.map(({ is_cut: ___, ...part }) => part),
  bends: bends.map(({ name, angle_deg, k, allowance_mm, deduction_mm, length_mm, wet_edge_mm }) => [
    [name, angle_deg, k, allowance_mm],
    [deduction_mm, length_mm, wet_edge_mm],
  ]),
});

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

describe('sides that are cut to a strip as it was read', () => {
  it('meet it within 0.01 mm all along, and stand in it nowhere', () => {
    fc.assert(
      fc.property(recipe.filter(isFoldable), (of) => {
        const read = readOf(of);
        const { stages } = analyseText(textOf(of, madeOf(of, read)), { rules: [] });
        const [left, right] = ['left', 'right'].map((name) => stages.flats().find((flat) => flat?.name === name)!);
        const profile = placedWet(of, read);
        const ring = [...profile.map(({ wet }) => wet), ...[...profile].reverse().map(({ dry }) => dry)];
        const strip = new kernel.CrossSection([ring.map(([a, b]): [number, number] => [a, b])], 'NonZero')
          .extrude(of.wide)
          .transform([0, 1, 0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0, 1]);
        for (const [flat, x] of [
          [left, 0],
          [right, of.wide],
        ] as const) {
          const side = flatSolid(kernel, flat);
          expect(strip.intersect(side).volume()).toBeLessThan(0.01 * of.thickness * 1500);
          for (const { wet } of profile) {
            const grain = kernel.Manifold.cube([1e-3, 1e-3, 1e-3], true).translate([x, wet[0], wet[1]]);
            expect(grain.minGap(side, 20)).toBeLessThan(0.01);
          }
        }
      }),
      { numRuns: casesOf(4), seed: 1511 },
    );
  }, 600_000);

  it('are the same bytes as before where every bend reads what was planned', () => {
    fc.assert(
      fc.property(recipe.filter(isFoldable), (of) => {
        const strip = stripOf(of);
        const drawn = analyseText(textOf(of, ''), { rules: [] }).stages;
        const made = analyseText(textOf(of, madeOf(of, { turns: drawnTurns(strip) })), { rules: [] }).stages;
        for (const [makes, lacks] of EXPORTS) {
          const files = new Map(filesOf(makes, drawn));
          const after = filesOf(makes, made);
          expect(after).toHaveLength(files.size - lacks);
          for (const [name, content] of after) expect(content).toEqual(files.get(name));
        }
        for (const view of ['folded', 'water'] as const) expect(paintedIn(made, view)).toBe(paintedIn(drawn, view));
        const { made: madeRows, work: _, ...report } = reportOf(made);
        const { made: none, work: __, ...before } = reportOf(drawn);
        expect(asShaped(report)).toEqual(asShaped(before));
        expect(none).toBeNull();
        expect(madeRows?.cut).toEqual(['floor']);
      }),
      { numRuns: casesOf(3, 0.1), seed: 1512 },
    );
  });
});

describe('a strip whose end came out above the top of its sides', () => {
  const box = (front: number): string => `units mm
sheet skin = stainless 18 ga radius 1.6
strip floor of skin from (0, 0, 100) heading back across right 200 {
    panel back   80 falling 90 deg
    panel base  300 falling 3 deg
    panel front 95 rising 80 deg
}
side left of skin closes floor.left up to 100
side right of skin closes floor.right up to 100
seam left floor { weld tig }
seam right floor { weld tig }
outlet drain in base at center(base) diameter 40
made floor standing on base {
    bend back base reads 87 deg
    bend base front reads 83 deg
    panel front measures ${front} over inside
}
`;
  it.each([95, 97.5, 99.5, 101, 105, 110])('keeps its sides level at the top, the front %d long', (front) => {
    const { stages, findings } = analyseText(box(front));
    expect(findings.filter(({ severity }) => severity === 'error').map(({ message }) => message)).toEqual([]);
    expect(stages.shape().faults).toEqual([]);
    for (const panel of stages.tub.panels.filter(({ kind }) => kind.kind === 'side'))
      expect(Math.max(...panel.corners.map(([, , z]) => z))).toBeCloseTo(100, 6);
    expect(stages.flats().every((flat) => flat !== undefined)).toBe(true);
  });
});
