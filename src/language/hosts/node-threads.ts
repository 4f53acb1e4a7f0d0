/** Threads of Node to work on nests with. */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { NestNews, NestThread, OpenThreads } from '../nest/nest-threads.js';

/** A nest has no use for more: its strands go two by two. */
const MOST = 2;

/** As many threads as the machine has cores, two at most; `file`: the bundle that they run. `giveWay`: others come first. */
export const nodeThreads =
  (file: string, giveWay: GiveWay): OpenThreads =>
  () =>
    Array.from({ length: Math.min(MOST, availableParallelism()) }, () => openThread(file, giveWay));

/** Whether somebody types beside the work, or all wait for it. */
export type GiveWay = 'to others' | 'to none';

const openThread = (file: string, giveWay: GiveWay): NestThread => {
  const worker = new Worker(file, { workerData: giveWay });
  let last: Promise<void> = Promise.resolve();
  const failed = new Promise<never>((_, reject) => worker.once('error', reject));
  failed.catch(() => undefined);
  const run: NestThread['run'] = (task, told) => {
    const one = (): Promise<void> =>
      new Promise<void>((resolve) => {
        const take = (news: NestNews): void => {
          told(news);
          if (!news.isDone) return;
          worker.off('message', take);
          resolve();
        };
        worker.on('message', take);
        worker.postMessage(task);
      });
    last = last.then(one);
    return Promise.race([last, failed]);
  };
  return { run, end: () => void worker.terminate() };
};
