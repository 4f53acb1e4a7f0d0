/** `node scripts/bench.mjs join`: how joining and sealing grow with the number of panels. */
import { findParts } from '../src/analysis/fold/find-parts.js';
import { foldFlat } from '../src/analysis/fold/fold.js';
import { unfoldPart } from '../src/analysis/fold/unfold.js';
import type { Vec3 } from '../src/analysis/geometry/vec.js';
import { assemblyOf } from '../src/analysis/join/assembly.js';
import { inOneGo } from '../src/analysis/cache/memo-steps.js';
import { jointsOf, withAdditions, type Joints } from '../src/analysis/join/joints.js';
import type { Seam, Tub } from '../src/analysis/model/tub.js';
import { textTable } from '../src/analysis/report/text-table.js';
import { waterOf } from '../src/analysis/water/water.js';
import { watertightOf } from '../src/analysis/seal/watertight.js';
import { buildShape } from '../src/analysis/shape/build-shape.js';
import { looseClips, member, seamOf, stripAndSides } from '../tests/support/tubs/strip-and-sides.js';
import { SIZES } from './bench.js';

/** Seen from the side: down from the rim, a zigzag of so many legs, up to the rim. */
const profileOf = (legs: number): readonly (readonly [number, number])[] => {
  const between = Array.from({ length: legs - 1 }, (_, i): [number, number] => [20 + 60 * i, i % 2 === 0 ? 0 : 25]);
  const end = between[between.length - 1][0];
  return [[0, 120], ...between, [end + 20, 120]];
};

/** One strip, its sides cut along all of its legs. */
const longTub = (panels: number): Tub => stripAndSides(profileOf(Math.max(3, panels - 2)), 200, looseClips);

/** Tubs of ten panels in a row. */
const rowOfTubs = (panels: number): Tub => {
  const one = stripAndSides(profileOf(8), 150, looseClips);
  const each = one.panels.length;
  const count = Math.max(1, Math.round(panels / each));
  const moved = ([x, y, z]: Vec3, i: number): Vec3 => [x + 200 * i, y, z];
  const all = Array.from({ length: count }, (_, i) => i);
  const placed: Tub = {
    ...one,
    panels: all.flatMap((i) =>
      one.panels.map((panel) => ({
        ...panel,
        name: `${panel.name}-${i}`,
        corners: panel.corners.map((c) => moved(c, i)),
      })),
    ),
    bends: all.flatMap((i) =>
      one.bends.map((bend) => ({ ...bend, panels: [bend.panels[0] + i * each, bend.panels[1] + i * each] as const })),
    ),
  };
  const seams = all.flatMap((i) =>
    one.seams.map(({ members: [a, b] }): Seam => {
      const at = (panels_: readonly number[]): number[] => panels_.map((p) => p + i * each);
      return seamOf(
        placed,
        member(placed, `${a.name}-${i}`, at(a.panels)),
        member(placed, `${b.name}-${i}`, at(b.panels)),
        looseClips,
      );
    }),
  );
  return { ...placed, seams };
};

const FORMS = { 'row of tubs': rowOfTubs, 'one long strip': longTub } as const;

/** From 100 to 10000 panels against n log n: up to 1 is as good, more is worse. */
const growthOf = (times: readonly number[]): string => {
  const [small, large] = [SIZES.indexOf(100), SIZES.indexOf(10000)];
  const fair = (SIZES[large] * Math.log(SIZES[large])) / (SIZES[small] * Math.log(SIZES[small]));
  return (times[large] / times[small] / fair).toFixed(2);
};

const STAGES = ['joints', 'watertight', 'assembly', 'joints again', 'watertight again'] as const;
type Times = Record<(typeof STAGES)[number], number>;

/** Each stage of a tub that was never seen, and again once it is known: what an edit elsewhere leaves to be done. */
const timesOf = (tub: Tub): Times => {
  const shape = buildShape(tub);
  const parts = findParts(tub, shape);
  const unfolded = parts.map((part) => unfoldPart(tub, shape, part));
  const times: Times = {} as Times;
  const time = <T>(name: keyof Times, work: () => T): T => {
    const start = performance.now();
    const result = work();
    times[name] = performance.now() - start;
    return result;
  };
  const join = (): Joints => inOneGo(jointsOf(tub, shape, parts, unfolded));
  const joints = time('joints', join);
  const flats = unfolded.map(({ flat }, i) => flat && withAdditions(flat, joints.additions[i]));
  const folded = flats.map((flat) => flat && foldFlat(flat));
  const seal = (): unknown =>
    watertightOf({ tub, shape: { ...shape }, unfolded, flats, folded, joints, water: waterOf(tub, shape) });
  time('watertight', seal);
  time('assembly', () => assemblyOf(parts, joints));
  time('joints again', join);
  time('watertight again', seal);
  return times;
};

const RUNS = 5;

const rows: string[][] = [];
for (const [form, make] of Object.entries(FORMS)) {
  const best = SIZES.map((size) => {
    const runs = Array.from({ length: RUNS }, () => timesOf(make(size)));
    return (stage: keyof Times): number => Math.min(...runs.map((times) => times[stage]));
  });
  for (const stage of STAGES) {
    const list = best.map((of) => of(stage));
    rows.push([`${form}: ${stage}`, ...list.map((t) => t.toFixed(2)), growthOf(list)]);
  }
}
process.stdout.write(`Node ${process.version}, best of ${RUNS} runs, ms\n`);
process.stdout.write(`${textTable(['Stage', ...SIZES.map((size) => `${size} panels`), 'growth / n log n'], rows)}\n`);
