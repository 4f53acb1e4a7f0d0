/** Working on a nest beside everything else that the server does. */
import { delayNextTick } from 'langium';
import type { FlatPattern } from '../../analysis/fold/flat-pattern.js';
import type { Tub } from '../../analysis/model/tub.js';
import type { NestCourse, NestProgress } from '../../analysis/nest/nest.js';
import { nestFlats } from '../../analysis/nest/nest-tub.js';

export interface NestJob {
  readonly tub: Tub;
  readonly flats: readonly FlatPattern[];
  /** Places that may be tried. */
  readonly tries: number;
}

/** Starts on a nest and tells how it comes along; calling what comes back ends it where it is. */
export type NestWork = (job: NestJob, told: (course: NestCourse) => void) => () => void;

/** ms. How long the work goes on before others get their turn. */
const SLICE = 6;
/** ms between two reports. */
const REPORT_EVERY = 200;

/** On the same thread, in slices. */
export const workInSlices: NestWork = ({ tub, flats, tries }, told) => {
  let isStopped = false;
  const run = async (): Promise<void> => {
    const nesting = nestFlats(tub, flats, { tries });
    let last: NestProgress | undefined;
    let paused = performance.now();
    let reported = -Infinity;
    for (let step = nesting.next(); ; step = nesting.next()) {
      if (step.done) {
        told({ first: last?.first() ?? step.value, best: step.value, state: 'done', done: 1 });
        return;
      }
      last = step.value;
      const now = performance.now();
      if (now - reported >= REPORT_EVERY) {
        const course = courseOf(last);
        if (course) {
          told(course);
          reported = now;
        }
      }
      if (now - paused < SLICE) continue;
      await delayNextTick();
      if (isStopped) return;
      paused = performance.now();
    }
  };
  void run();
  return () => {
    isStopped = true;
  };
};

/** Undefined until all pieces are laid once. */
export const courseOf = ({ stage, done, total, best, first }: NestProgress): NestCourse | undefined => {
  const [now, before] = [best(), first()];
  if (!now || !before) return undefined;
  return stage === 'laying'
    ? { first: now, best: now, state: 'laying', done: 0 }
    : { first: before, best: now, state: 'moving', done: done / total };
};
