/**
 * How near the nest comes to the best densities published for open irregular packing instances, after so many places
 * tried: 0 is the first layout, the others take about one and twenty seconds on two cores, half of the processor time that is
 * told here. Any turn is allowed; the records allow fewer.
 * Usage: npm run bench nest [instance ...]
 */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { textTable } from '../src/analysis/report/text-table.js';
import { finishNest, nestFlats } from '../src/analysis/nest/nest-tub.js';
import { flatsOf, piecesIn, tubFor, type Instance, stripDensity } from './strip-instance.js';

declare const PROJECT_ROOT: string;

const TRIES = (process.env.TRIES ?? '0,2000000,40000000').split(',').map(Number);
const folder = process.env.INSTANCES ?? path.join(PROJECT_ROOT, 'bench', 'instances');
const only = process.argv.slice(2);
const instances = readdirSync(folder)
  .filter((file) => file.endsWith('.json') && (only.length === 0 || only.includes(path.basename(file, '.json'))))
  .sort()
  .map((file) => JSON.parse(readFileSync(path.join(folder, file), 'utf8')) as Instance);

const seconds = (): number => process.cpuUsage().user / 1e6;

/** Density and processor time of one run for each number of places tried. */
const courseOf = (instance: Instance): { readonly density: number; readonly seconds: number }[] =>
  TRIES.map((tries) => {
    const start = seconds();
    const nest = finishNest(nestFlats(tubFor(instance), flatsOf(instance), { tries }));
    return { density: stripDensity(instance, nest), seconds: seconds() - start };
  });

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const ratios: number[][] = [];
const rows = instances.map((instance) => {
  const course = courseOf(instance);
  ratios.push(course.map(({ density }) => density / instance.record_density));
  process.stderr.write(
    `${instance.name} ${ratios
      .at(-1)
      ?.map((r) => r.toFixed(4))
      .join(' ')}\n`,
  );
  return [
    instance.name,
    String(piecesIn(instance)),
    percent(instance.record_density),
    ...course.flatMap(({ density, seconds }) => [
      percent(density),
      (density / instance.record_density).toFixed(4),
      `${seconds.toFixed(1)} s`,
    ]),
  ];
});
const means = TRIES.map((_, k) => ratios.reduce((sum, of) => sum + of[k], 0) / ratios.length);
const heads = TRIES.flatMap((tries) => [`${tries / 1e6} M tries`, 'ratio', 'CPU']);
process.stdout.write(
  `${textTable(['Instance', 'pieces', 'record', ...heads], [...rows, ['mean', '', '', ...means.flatMap((mean) => ['', mean.toFixed(4), ''])]])}\n`,
);
