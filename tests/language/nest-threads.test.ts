import fc from 'fast-check';
import path from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import type { Nest, NestCourse } from '../../src/analysis/nest/nest.js';
import { spentArea } from '../../src/analysis/nest/nest.js';
import { finishNest, nestFlats } from '../../src/analysis/nest/nest-tub.js';
import { nodeThreads } from '../../src/language/hosts/node-threads.js';
import { nestOn, workInThreads, type NestThread } from '../../src/language/nest/nest-threads.js';
import { doNestTask } from '../../src/language/nest/nest-task.js';
import { someFlat, stockOf, tubWith } from '../analysis/nest/random-flats.js';

const tub = tubWith([stockOf([700, 1000])]);
const flats = fc.sample(someFlat, { numRuns: 9, seed: 31 });
const tries = 60_000;
const job = { tub, flats, tries };

/** A thread that is none: what it is given goes through a copy, as between threads. */
const thread = (): NestThread => ({
  run: async (task, told) => {
    await Promise.resolve();
    doNestTask(structuredClone(task), (news) => told(structuredClone(news)));
  },
  end: () => undefined,
});

describe('a nest on several threads', () => {
  const alone = finishNest(nestFlats(tub, flats, { tries }));
  const opened: NestThread[] = [];
  afterAll(() => opened.forEach(({ end }) => end()));

  test('is the same on one, two or none, piece by piece', async () => {
    expect(await nestOn([thread()], job, () => undefined)).toEqual(alone);
    expect(await nestOn([thread(), thread()], job, () => undefined)).toEqual(alone);
  });

  test('and on those of Node, in the bundle that is shipped', async () => {
    const open = nodeThreads(path.resolve(import.meta.dirname, '../../dist/nest-worker.cjs'), 'to none');
    const threads = open();
    opened.push(...threads);
    expect(await nestOn(threads, job, () => undefined)).toEqual(alone);
  });

  test('is never worse than before as it comes on, and ends where it is told to', async () => {
    const courses: NestCourse[] = [];
    const nest = await new Promise<Nest>((resolve) =>
      workInThreads(() => [thread(), thread()])(job, (course) => {
        courses.push(course);
        if (course.state === 'done') resolve(course.best);
      }),
    );
    expect(nest).toEqual(alone);
    const spent = courses.map(({ best }) => spentArea(best.sheets));
    expect(spent).toEqual([...spent].sort((a, b) => b - a));
  });

  test('is made on this thread where the others cannot work', async () => {
    const broken: NestThread = { run: () => Promise.reject(new Error('no such file')), end: () => undefined };
    const nest = await new Promise<Nest>((resolve) =>
      workInThreads(() => [broken])(job, ({ state, best }) => {
        if (state === 'done') resolve(best);
      }),
    );
    expect(nest).toEqual(alone);
  });
});
