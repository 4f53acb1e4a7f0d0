/** `npm run bench`: how the cost of every stage grows with the number of panels. */
import { execFileSync } from 'node:child_process';
import { SIZES, timeOf, type Bench } from './bench.js';
import { stageBenches } from './stages.js';
import { waterBenches } from './water.js';
import { textTable } from '../src/analysis/report/text-table.js';

const benches: readonly Bench[] = [...stageBenches, ...waterBenches];

/** From 100 to 10000 panels against n log n: up to 1 is as good, more is worse. */
const growthOf = (times: readonly number[]): string => {
  const [small, large] = [SIZES.indexOf(100), SIZES.indexOf(10000)];
  const fair = (SIZES[large] * Math.log(SIZES[large])) / (SIZES[small] * Math.log(SIZES[small]));
  return (times[large] / times[small] / fair).toFixed(2);
};

const rowOf = async ({ name, prepare }: Bench): Promise<string[]> => {
  const times: number[] = [];
  for (const size of SIZES) times.push(await timeOf(await prepare(size)));
  return [name, ...times.map((time) => time.toFixed(2)), growthOf(times)];
};

/** Each in a process of its own: what one leaves in memory slows no other down. */
const [script, only] = process.argv.slice(1);
const chosen = benches.find(({ name }) => name === only);
if (chosen) process.stdout.write(JSON.stringify(await rowOf(chosen)));
else {
  const rows = benches.map(
    ({ name }) => JSON.parse(execFileSync(process.execPath, [script, name], { encoding: 'utf8' })) as string[],
  );
  process.stdout.write(`Node ${process.version}, best of up to 15 runs, ms\n`);
  process.stdout.write(`${textTable(['Stage', ...SIZES.map((size) => `${size} panels`), 'growth / n log n'], rows)}\n`);
}
