/** How long a nest of 40 pieces takes, and how full the sheets get beside a plain row packing of the bounding boxes. */
import fc from 'fast-check';
import { utilisationOf } from '../src/analysis/nest/nest.js';
import { nestFlats } from '../src/analysis/nest/nest-tub.js';
import { roomOf } from '../src/analysis/nest/blanks.js';
import { someFlat, stockOf, tubWith } from '../tests/analysis/nest/random-flats.js';
import { rowPacking } from '../tests/analysis/nest/row-packing.js';

const tub = tubWith([stockOf([1220, 2440])], {
  cutters: [{ name: 'c', at: 0, bed: [1500, 3000], kerf: 1.5, smallestHole: 3, penOffset: [0, 0] }],
});

for (const seed of [1, 2, 3]) {
  const flats = fc.sample(someFlat, { seed, numRuns: 40 }).map((flat) => ({ ...flat, quantity: 1 }));
  const start = performance.now();
  const nesting = nestFlats(tub, flats);
  let steps = 0;
  let longest = 0;
  let last = start;
  let step = nesting.next();
  for (; !step.done; step = nesting.next()) {
    steps++;
    longest = Math.max(longest, performance.now() - last);
    last = performance.now();
  }
  const nest = step.value;
  const rows = rowPacking(flats, [2440, 1220], roomOf(tub, tub.sheets[0]));
  console.log(
    `seed ${seed}: 40 pieces in ${Math.round(performance.now() - start)} ms, ${steps} steps, longest ${Math.round(longest)} ms; ` +
      `${nest.sheets.length} sheets at ${nest.sheets.map((s) => `${Math.round(100 * utilisationOf(s))} %`).join(', ')}, ` +
      `length ${Math.round(nest.sheets.reduce((sum, s) => sum + s.usedLength, 0))} mm; rows: ${rows.sheets} sheets, ${Math.round(rows.length)} mm`,
  );
}
