/** What each stage and each check costs, dearest first: `node scripts/bench.mjs checks`. */
import { rules } from '../src/analysis/rules/registry.js';
import { textTable } from '../src/analysis/report/text-table.js';
import { createStages } from '../src/analysis/stages/stages.js';
import { loweredTub } from './linked-text.js';

const PANELS = 1000;
const RUNS = 6;
const SHOWN = 20;

const tub = await loweredTub(PANELS);
const best = new Map<string, number>();
const time = (name: string, work: () => unknown): void => {
  const start = performance.now();
  work();
  best.set(name, Math.min(best.get(name) ?? Infinity, performance.now() - start));
};

for (let run = 0; run < RUNS; run++) {
  const stages = createStages(tub);
  // In the order in which they stand: each is timed with those before it done.
  for (const [name, stage] of Object.entries(stages)) {
    if (typeof stage === 'function') time(`stage ${name}`, stage as () => unknown);
  }
  for (const rule of rules) time(rule.code, () => [...rule.check(stages, 'live')]);
}

const rows = [...best]
  .sort(([, a], [, b]) => b - a)
  .slice(0, SHOWN)
  .map(([name, ms]) => [name, ms.toFixed(2)]);
process.stdout.write(`${PANELS} panels, best of ${RUNS} runs\n${textTable(['Stage or check', 'ms'], rows)}\n`);
