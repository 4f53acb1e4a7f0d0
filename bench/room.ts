/** `node scripts/bench.mjs room`: the check of room beside unfolding, with two rivets to ten panels or so, of new tubs and after an edit of one panel. */
import { unfoldPart } from '../src/analysis/fold/unfold.js';
import { findParts } from '../src/analysis/fold/find-parts.js';
import { textTable } from '../src/analysis/report/text-table.js';
import { createStages, type Stages } from '../src/analysis/stages/stages.js';
import { lower } from '../src/language/lower/to-model.js';
import { linked } from './linked-text.js';
import { tubText, type Variant } from './tub-text.js';

const SIZES = process.argv.length > 2 ? process.argv.slice(2).map(Number) : [100, 1000, 4000];
const RUNS = 9;

/** The clips of every twelfth basin are riveted. */
const rivetedText = (panels: number, variant: Variant): string =>
  tubText(panels, variant).replace(/^(seam [lr](\d+) .*) {2}weld tig/gm, (line, seam: string, basin: string) =>
    Number(basin) % 12 === 0 ? `${seam} rivets 3.2 every 30 weld tig` : line,
  );

const timed = (work: () => unknown): number => {
  const start = performance.now();
  work();
  return performance.now() - start;
};

/** All that comes before the check of room. */
const ready = async (panels: number, variant: Variant): Promise<Stages> => {
  const { tub } = lower([await linked(rivetedText(panels, variant))]);
  const stages = createStages(tub);
  for (const stage of ['flats', 'folded', 'joints', 'existing', 'fasteners'] as const) stages[stage]();
  return stages;
};

const rows: string[][] = [];
for (const panels of SIZES) {
  const [unfolding, fresh, edited]: number[][] = [[], [], []];
  let fasteners = 0;
  for (let run = 0; run < RUNS; run++) {
    const stages = await ready(panels, { across: 150 + run / 10 });
    const shape = stages.shape();
    unfolding.push(timed(() => findParts(stages.tub, shape).map((part) => unfoldPart(stages.tub, shape, part))));
    fresh.push(timed(() => stages.sharedRoom()));
    fasteners = stages.fasteners().length / 3;
    const after = await ready(panels, { across: 150 + run / 10, shelf: 121 });
    edited.push(timed(() => after.sharedRoom()));
  }
  rows.push(
    [panels, fasteners, ...[unfolding, fresh, edited].map((times) => Math.min(...times).toFixed(1))].map(String),
  );
}
process.stdout.write(
  `Least of ${RUNS}, ms\n${textTable(['Panels', 'Rivets', 'Unfold', 'Room, all new', 'Room, one edited'], rows)}\n`,
);
