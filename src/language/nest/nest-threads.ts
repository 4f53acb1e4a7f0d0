/** A nest worked on by several threads: the same nest as on one, sooner. What a thread is, a host knows. */
import type { FlatPattern } from '../../analysis/fold/flat-pattern.js';
import type { Tub } from '../../analysis/model/tub.js';
import { bestOfEach } from '../../analysis/nest/compare.js';
import type { Nest, NestCourse } from '../../analysis/nest/nest.js';
import { phasesOf, type Strand } from '../../analysis/nest/strands.js';
import { packNest, unpackNest, type PackedNest } from './nest-message.js';
import { workInSlices, type NestJob, type NestWork } from './nest-work.js';

/** What a thread is given: pieces to lay, or a nest of which a strand moves the pieces closer. */
export interface NestTask {
  readonly tub: Tub;
  readonly flats: readonly FlatPattern[];
  readonly move?: { readonly start: PackedNest; readonly strand: Strand };
}

/** What a thread tells of it, at most a few times a second; `nest`: the best so far, when there is a new one. */
export interface NestNews {
  readonly tried: number;
  readonly nest?: PackedNest;
  readonly isDone: boolean;
}

export interface NestThread {
  /** Tasks are done one after the other. Rejects when the thread cannot work. */
  readonly run: (task: NestTask, told: (news: NestNews) => void) => Promise<void>;
  readonly end: () => void;
}

/** Opens all threads that there are to work with. */
export type OpenThreads = () => readonly NestThread[];

/** The work on the threads of a host; on this one where there are none. */
export const workInThreads =
  (open: OpenThreads): NestWork =>
  (job, told) => {
    const threads = open();
    let isStopped = false;
    let end = (): void => {
      isStopped = true;
      for (const thread of threads) thread.end();
    };
    nestOn(threads, job, told).catch(() => {
      if (!isStopped) end = workInSlices(job, told);
    });
    return () => end();
  };

/** Lays and moves, on the threads given; they are ended with it. */
export const nestOn = async (
  threads: readonly NestThread[],
  { tub, flats, tries }: NestJob,
  told: (course: NestCourse) => void,
): Promise<Nest> => {
  try {
    let first: Nest = { sheets: [], unplaced: [] };
    await threads[0].run({ tub, flats }, ({ nest }) => {
      if (!nest) return;
      first = unpackNest(nest, flats);
      told({ first, best: first, state: 'laying', done: 0 });
    });
    let best = first;
    let before = 0;
    for (const strands of phasesOf(tries, 1)) {
      const start = packNest(best, flats);
      const tried = strands.map(() => 0);
      const nests = strands.map(() => best);
      const shown = (): Nest => nests.reduce(bestOfEach, best);
      const runs = strands.map((strand, i) =>
        threads[i % threads.length].run({ tub, flats, move: { start, strand } }, (news) => {
          tried[i] = news.tried;
          if (news.nest) nests[i] = unpackNest(news.nest, flats);
          const done = Math.min(1, (before + tried.reduce((sum, n) => sum + n, 0)) / tries);
          told({ first, best: shown(), state: 'moving', done });
        }),
      );
      await Promise.all(runs);
      best = shown();
      before += strands.reduce((sum, strand) => sum + strand.tries, 0);
    }
    told({ first, best, state: 'done', done: 1 });
    return best;
  } finally {
    for (const thread of threads) thread.end();
  }
};
