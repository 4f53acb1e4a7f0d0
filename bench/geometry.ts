/** `npm run bench -- geometry`: how the geometry core grows with the number of panels, for the forms that strain it differently. */
import { findParts } from '../src/analysis/fold/find-parts.js';
import { foldFlat } from '../src/analysis/fold/fold.js';
import { unfoldPart } from '../src/analysis/fold/unfold.js';
import type { Vec3 } from '../src/analysis/geometry/vec.js';
import type { Tub } from '../src/analysis/model/tub.js';
import { textTable } from '../src/analysis/report/text-table.js';
import { buildShape } from '../src/analysis/shape/build-shape.js';
import { tubOf } from '../tests/support/tub-of.js';
import { WELDED } from '../tests/support/tubs/strip-and-sides.js';
import { SIZES, timeOf } from './bench.js';

type Pair = readonly [string, string];
type Corners = readonly Vec3[];

const namesOf = (count: number): string[] => Array.from({ length: count }, (_, i) => `p${i}`);

/** Legs one after another, up and down. */
const strip = (count: number): Tub => {
  const names = namesOf(count);
  const z = (i: number): number => (i % 2 === 0 ? 0 : 12);
  const panels = Object.fromEntries(
    names.map((name, i): [string, Corners] => [
      name,
      [
        [0, 30 * i, z(i)],
        [200, 30 * i, z(i)],
        [200, 30 * i + 30, z(i + 1)],
        [0, 30 * i + 30, z(i + 1)],
      ],
    ]),
  );
  return tubOf({ panels, bends: names.slice(1).map((name, i): Pair => [names[i], name]) });
};

/** A strip and the two panels that close its ends: as many edges as the strip has legs. */
const basin = (count: number): Tub => {
  const bare = strip(count - 2);
  const profile = (x: number): Vec3[] => {
    const legs = bare.panels.map(({ corners }) => corners);
    return [
      ...legs.map((corners): Vec3 => [x, corners[0][1], corners[0][2]]),
      [x, legs.length * 30, legs.length % 2 === 0 ? 0 : 12],
      [x, legs.length * 30, 100],
      [x, 0, 100],
    ];
  };
  const panels = {
    ...Object.fromEntries(bare.panels.map(({ name, corners }) => [name, corners])),
    left: profile(0),
    right: profile(200),
  };
  const all = bare.panels.map((_, i) => i);
  const seamTo = (panel: number, name: string): Tub['seams'][number] => ({
    name,
    at: 5000 + panel,
    ...WELDED,
    members: [
      { name, at: 5000 + panel, panels: [panel], edge: undefined },
      { name: 'strip', at: 5000 + panel, panels: all, edge: undefined },
    ],
  });
  return tubOf({
    panels,
    bends: bare.bends.map(({ panels: [a, b] }): Pair => [`p${a}`, `p${b}`]),
    seams: [seamTo(count - 2, 'left'), seamTo(count - 1, 'right')],
  });
};

/** A floor of many edges with a wall on each. */
const pan = (count: number): Tub => {
  const walls = count - 1;
  const reach = walls * 8;
  const at = (i: number, z: number, more: number): Vec3 => {
    const angle = (2 * Math.PI * i) / walls;
    return [(reach + more) * Math.cos(angle), (reach + more) * Math.sin(angle), z];
  };
  const names = namesOf(count);
  const panels = Object.fromEntries(
    names.map((name, i): [string, Corners] => [
      name,
      i === 0
        ? Array.from({ length: walls }, (_, k) => at(k, 0, 0))
        : [at(i - 1, 0, 0), at(i, 0, 0), at(i, 40, 3), at(i - 1, 40, 3)],
    ]),
  );
  return tubOf({ panels, bends: names.slice(1).map((name): Pair => [names[0], name]) });
};

/** Triangles around one point: every edge comes near every other. */
const fan = (count: number): Tub => {
  const reach = count * 40;
  const at = (i: number): Vec3 => [
    reach * Math.cos((6 * i) / count),
    reach * Math.sin((6 * i) / count),
    i % 2 === 0 ? 0 : reach / 50,
  ];
  const names = namesOf(count);
  const panels = Object.fromEntries(names.map((name, i): [string, Corners] => [name, [[0, 0, 0], at(i), at(i + 1)]]));
  return tubOf({ panels, bends: names.slice(1).map((name, i): Pair => [names[i], name]) });
};

/** From 100 to 10000 panels against n log n: up to 1 is as good, more is worse. */
const growthOf = (times: readonly number[]): string => {
  const [small, large] = [SIZES.indexOf(100), SIZES.indexOf(10000)];
  const fair = (SIZES[large] * Math.log(SIZES[large])) / (SIZES[small] * Math.log(SIZES[small]));
  return (times[large] / times[small] / fair).toFixed(2);
};

const rows: string[][] = [];
for (const [form, make] of Object.entries({ strip, basin, pan, fan })) {
  const stages: Record<string, number[]> = { shape: [], parts: [], unfold: [], fold: [] };
  for (const size of SIZES) {
    const tub = make(size);
    const shape = buildShape(tub);
    const parts = findParts(tub, shape);
    const flats = parts.flatMap((part) => unfoldPart(tub, shape, part).flat ?? []);
    stages.shape.push(await timeOf(() => buildShape(tub)));
    stages.parts.push(await timeOf(() => findParts(tub, shape)));
    stages.unfold.push(await timeOf(() => parts.map((part) => unfoldPart(tub, shape, part))));
    stages.fold.push(await timeOf(() => flats.map((flat) => foldFlat(flat))));
  }
  for (const [stage, times] of Object.entries(stages))
    rows.push([form, stage, ...times.map((time) => time.toFixed(2)), growthOf(times)]);
}
process.stdout.write(`Node ${process.version}, best of up to 15 runs, ms\n`);
process.stdout.write(
  `${textTable(['Form', 'Stage', ...SIZES.map((size) => `${size} panels`), 'growth / n log n'], rows)}\n`,
);
