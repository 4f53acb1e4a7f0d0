/** Does on a thread what it is given of a nest. */
import { layFirst } from '../../analysis/nest/lay-first.js';
import type { Nest } from '../../analysis/nest/nest.js';
import { runStrand } from '../../analysis/nest/strands.js';
import { noTables, type KnownTables } from '../../analysis/nest/tighten/shapes.js';
import { packNest, unpackNest } from './nest-message.js';
import type { NestNews, NestTask } from './nest-threads.js';

/** ms between two news. */
const TELL_EVERY = 200;

/** `tables`: kept from one task to the next of the same job. */
export const doNestTask = (task: NestTask, tell: (news: NestNews) => void, tables = noTables()): void => {
  const { flats } = task;
  const steps = task.move ? strandSteps(task, task.move, tables) : laySteps(task);
  let seen: Nest | undefined;
  let told = performance.now();
  const news = (nest: Nest | undefined, tried: number, isDone: boolean): void => {
    tell({ tried, isDone, ...(nest && nest !== seen && { nest: packNest(nest, flats) }) });
    seen = nest;
    told = performance.now();
  };
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) {
      news(step.value, task.move?.strand.tries ?? 0, true);
      return;
    }
    const { nest, tried } = step.value;
    if (performance.now() - told >= TELL_EVERY) news(nest, tried, false);
  }
};

interface Step {
  readonly nest: Nest | undefined;
  readonly tried: number;
}

function* laySteps({ tub, flats }: NestTask): Generator<Step, Nest> {
  const laying = layFirst(tub, flats);
  let step = laying.next();
  for (; !step.done; step = laying.next()) yield { nest: step.value.best(), tried: 0 };
  return step.value;
}

function* strandSteps(
  { tub, flats }: NestTask,
  { start, strand }: NonNullable<NestTask['move']>,
  tables: KnownTables,
): Generator<Step, Nest> {
  return yield* runStrand(tub, unpackNest(start, flats), strand, tables);
}
