/** How long bend plans take: 12 bends within a second; 20 bounded, and honest about it. */
import { DEFAULT_SHOP } from '../src/analysis/model/shop/default-shop.js';
import { planPart } from '../src/analysis/making/plan/plan-part.js';
import { checkBends } from '../src/analysis/making/bend-check.js';
import type { FlatPattern } from '../src/analysis/fold/flat-pattern.js';
import { boxFlat, stripFlat } from '../tests/support/random/bendable-flat.js';
import { sheet18 } from '../tests/support/tub-of.js';

const zigzag = (bends: number, angles: readonly number[], flat = 50): FlatPattern =>
  stripFlat(
    300,
    Array.from({ length: bends + 1 }, (_, i) => ({ flat: flat + (i % 3) * 7, bend: angles[i % angles.length] })),
  );

const tray = boxFlat(
  300,
  220,
  [0, 1, 2, 3].map(() => ({ height: 45, bend: 90, inset: 15, flange: { height: 13, bend: 90 } })),
);

const parts: readonly (readonly [string, FlatPattern])[] = [
  ['12 bends, zigzag', zigzag(12, [40, -40])],
  ['12 bends, mixed', zigzag(12, [60, -60, 45, 45, -45, 60, -60, -30, 30])],
  ['12 bends, steep', zigzag(12, [90, -90, 60, -60], 60)],
  ['tray with returns, 8 bends', tray],
  ['20 bends, zigzag', zigzag(20, [40, -40, 30, -30])],
  ['20 bends, mixed', zigzag(20, [40, -40, 60, -20, 30])],
  ['channel too deep, 2 bends', stripFlat(300, [{ flat: 110, bend: 90 }, { flat: 50, bend: 90 }, { flat: 110 }])],
];

for (const [name, flat] of parts) {
  const start = performance.now();
  const busy = process.cpuUsage();
  let longest = 0;
  let last = start;
  const planning = planPart(flat, DEFAULT_SHOP, { metal: { material: 'steel' } });
  let step = planning.next();
  for (; !step.done; step = planning.next()) {
    longest = Math.max(longest, performance.now() - last);
    last = performance.now();
  }
  const { outcome, complete, flips, turns, work, remedies } = step.value;
  console.log(
    `${name}: ${Math.round(performance.now() - start)} ms (processor ${Math.round(process.cpuUsage(busy).user / 1000)} ms), longest step ${Math.round(longest)} ms, work ${work}; ${outcome}${complete ? '' : ' (stopped early)'}, ` +
      `${flips} flips, ${turns} turns, ${remedies.length} remedies`,
  );
}

const long = zigzag(10_000, [30, -30]);
const start = performance.now();
checkBends(long, { ...sheet18, material: 'steel' }, DEFAULT_SHOP);
console.log(`10 000 bends against the shop: ${Math.round(performance.now() - start)} ms`);
