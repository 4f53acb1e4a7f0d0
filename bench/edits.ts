/** What each stage costs after an edit of one panel, the run before it being known: `node scripts/bench.mjs edits`. */
import { rules } from '../src/analysis/rules/registry.js';
import { textTable } from '../src/analysis/report/text-table.js';
import { createStages } from '../src/analysis/stages/stages.js';
import { linked } from './linked-text.js';
import { lower } from '../src/language/lower/to-model.js';
import { tubText } from './tub-text.js';

const SIZES = [50, 1000];
const RUNS = 15;
const SHOWN = 20;

const middleOf = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)];

const timesOf = async (panels: number): Promise<ReadonlyMap<string, number[]>> => {
  const text = tubText(panels);
  const place = text.indexOf('panel b 120', text.length / 2) + 'panel b 12'.length;
  const times = new Map<string, number[]>();
  const time = <T>(name: string, work: () => T): T => {
    const start = performance.now();
    const result = work();
    const list = times.get(name);
    if (list) list.push(performance.now() - start);
    else times.set(name, [performance.now() - start]);
    return result;
  };
  for (let run = 0; run < RUNS; run++) {
    const document = await linked(`${text.slice(0, place)}${run % 10}${text.slice(place + 1)}`);
    const { tub } = time('model', () => lower([document]));
    const stages = createStages(tub);
    for (const [name, stage] of Object.entries(stages)) {
      if (typeof stage === 'function' && name !== 'plans') time(`stage ${name}`, stage as () => unknown);
    }
    for (const rule of rules) time(rule.code, () => [...rule.check(stages, 'live')]);
  }
  return times;
};

for (const panels of SIZES) {
  const all = [...(await timesOf(panels))].map(([name, list]) => [name, middleOf(list)] as const);
  const sum = all.reduce((total, [, ms]) => total + ms, 0);
  const rows = [...all].sort(([, a], [, b]) => b - a).slice(0, SHOWN);
  const cells = [['all', sum] as const, ...rows].map(([name, ms]) => [name, ms.toFixed(2)]);
  process.stdout.write(
    `${panels} panels, one of them edited, middle of ${RUNS}\n${textTable(['Stage or check', 'ms'], cells)}\n`,
  );
}
