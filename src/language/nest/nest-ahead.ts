/** Exporters that show a nest, where a host has threads: the nest is made on those first, and then is there. */
import type { ExportFormat, Exporter, Progress } from '../../analysis/export/exporter.js';
import { nestWords } from '../../analysis/export/flat/nest-files.js';
import { spentArea, type NestCourse } from '../../analysis/nest/nest.js';
import { exportTries, keepNest } from '../../analysis/nest/nest-tub.js';
import { flatsToCut } from '../../analysis/stages/flats-to-cut.js';
import type { Stages } from '../../analysis/stages/stages.js';
import { nestOn, type OpenThreads } from './nest-threads.js';

const WITH_NEST: readonly ExportFormat[] = ['nest', 'pdf', 'html'];
/** Places to try below which a nest is sooner made than threads are opened. */
const FEW_TRIES = 300_000;
/** ms between two looks at how far it is. */
const LOOK_EVERY = 200;

export const withNestAhead = (exporters: readonly Exporter[], open: OpenThreads): readonly Exporter[] =>
  exporters.map((exporter) => {
    if (!WITH_NEST.includes(exporter.format)) return exporter;
    return {
      ...exporter,
      load: async () => {
        const make = await exporter.load();
        return async function* (stages, options) {
          yield* nestAhead(stages, options.nestTries, open);
          yield* make(stages, options);
        };
      },
    };
  });

/** Tubs whose nest is made. */
const made = new WeakSet<Stages>();

/** Whoever asks for no more ends it. Where threads fail, the exporter makes its nest itself. */
async function* nestAhead(
  stages: Stages,
  triesAPiece: number | undefined,
  open: OpenThreads,
): AsyncGenerator<Progress, void> {
  const flats = flatsToCut(stages);
  const tries = exportTries(flats, triesAPiece);
  if (tries < FEW_TRIES || made.has(stages)) return;
  const threads = open();
  let latest: NestCourse | undefined;
  let isRunning = true;
  const run = nestOn(threads, { tub: stages.tub, flats, tries }, (course) => (latest = course))
    .then((nest) => {
      keepNest(stages, triesAPiece, nest);
      made.add(stages);
    })
    .catch(() => undefined)
    .finally(() => (isRunning = false));
  try {
    while (isRunning) {
      await Promise.race([run, new Promise((resolve) => setTimeout(resolve, LOOK_EVERY))]);
      if (latest) yield { doing: wordsOf(latest) };
    }
  } finally {
    for (const thread of threads) thread.end();
  }
}

const wordsOf = ({ first, best, done }: NestCourse): string =>
  nestWords({
    stage: 'tightening',
    done,
    total: 1,
    saved: 1 - spentArea(best.sheets) / Math.max(1, spentArea(first.sheets)),
  });
