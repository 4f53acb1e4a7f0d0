/** The nests of the texts that a preview shows: begun when first asked for, begun anew when an edit changes what is cut. */
import { isBetter } from '../../analysis/nest/compare.js';
import { MANY_TRIES, exportTries, nestKeyOf } from '../../analysis/nest/nest-tub.js';
import type { Nest, NestCourse } from '../../analysis/nest/nest.js';
import { flatsToCut } from '../../analysis/stages/flats-to-cut.js';
import type { Stages } from '../../analysis/stages/stages.js';
import type { NestJob, NestWork } from './nest-work.js';

/** ms of quiet after an edit before a nest is begun anew: until then the earlier one stays on show. */
const QUIET = 400;
/** Texts whose nest is kept. */
const MOST_KEPT = 8;

interface Run {
  /** What the nest depends on. */
  readonly key: string;
  readonly job: NestJob;
  course: NestCourse | undefined;
  /** Ends the work; undefined: nothing is going on. */
  stop: (() => void) | undefined;
}

export class NestRuns {
  private readonly runs = new Map<string, Run>();

  /** `changed`: told whenever there is something new to show of a text. */
  constructor(
    private readonly work: NestWork,
    private readonly changed: (text: string) => void,
  ) {}

  /** How far the nest of a text has come; it is begun when there is none. `of`: the text, and the variant of it. */
  courseOf(of: string, text: string, stages: Stages): NestCourse | undefined {
    const flats = flatsToCut(stages);
    const key = nestKeyOf(stages.tub, flats);
    const known = this.runs.get(of);
    if (known?.key === key) return known.course;
    known?.stop?.();
    const course = known?.course && ({ ...known.course, state: 'earlier' } as const);
    const run: Run = { key, job: { tub: stages.tub, flats, tries: exportTries(flats) }, course, stop: undefined };
    const timer = setTimeout(() => this.begin(run, text, run.job, (next) => next), course ? QUIET : 0);
    run.stop = () => clearTimeout(timer);
    this.keep(of, run);
    return course;
  }

  /** The nest of a text as it is shown; undefined: there is none, or it is that of an earlier text. */
  nestOf(of: string): Nest | undefined {
    const course = this.runs.get(of)?.course;
    return course && course.state !== 'earlier' ? course.best : undefined;
  }

  /** Ends the work on a nest: the best so far stays. */
  stop(of: string, text: string): void {
    const run = this.runs.get(of);
    if (!run?.stop) return;
    run.stop();
    run.stop = undefined;
    run.course = run.course && { ...run.course, state: 'stopped' };
    this.changed(text);
  }

  /** Works on a nest for longer than the files of an export take; what was found is kept until there is something better. */
  goOn(of: string, text: string): void {
    const run = this.runs.get(of);
    if (!run?.course) return;
    run.stop?.();
    const before = run.course;
    this.begin(run, text, { ...run.job, tries: MANY_TRIES }, (course) => ({
      ...course,
      first: before.first,
      best: isBetter(course.best, before.best) ? course.best : before.best,
    }));
    // It is at work from now on, although the first news take a while.
    run.course = { ...before, state: 'moving', done: 0 };
    this.changed(text);
  }

  /** The preview is closed: nobody waits for it any more. */
  forget(of: string): void {
    this.runs.get(of)?.stop?.();
    this.runs.delete(of);
  }

  private begin(run: Run, text: string, job: NestJob, shown: (course: NestCourse) => NestCourse): void {
    run.stop = this.work(job, (course) => {
      run.course = shown(course);
      if (course.state === 'done') run.stop = undefined;
      this.changed(text);
    });
  }

  private keep(of: string, run: Run): void {
    this.runs.delete(of);
    this.runs.set(of, run);
    const [oldest] = this.runs.keys();
    if (this.runs.size > MOST_KEPT) this.forget(oldest);
  }
}
