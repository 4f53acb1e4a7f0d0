/** Judges what it is sent, one after the other, until the process is ended. Whatever kills it is the fault of the last one. */
import { judgeExport } from './judge-export.js';
import { judgeRequests } from './judge-requests.js';
import { firstLines, judgeText } from './judge-text.js';
import type { Job, Verdict } from './job.js';

let stray: string[] = [];
process.on('unhandledRejection', (reason) => {
  stray.push(
    `rejected, and nobody heard: ${firstLines(reason instanceof Error ? (reason.stack ?? '') : String(reason))}`,
  );
});
process.on('uncaughtException', (error) => {
  stray.push(`thrown, and nobody caught: ${firstLines(error.stack ?? error.message)}`);
});

const judged = async ({ kind, text, seed }: Job): Promise<Pick<Verdict, 'faults' | 'marks' | 'counts'>> => {
  switch (kind) {
    case 'text':
      return judgeText(text, seed);
    case 'requests':
      return judgeRequests(text, seed);
    case 'export':
      return judgeExport(text, seed);
  }
};

const MB = 1e6;

process.on('message', (job: Job) => {
  stray = [];
  const before = process.cpuUsage();
  judged(job)
    .catch((error: unknown) => ({
      faults: [`crash ${job.kind}: ${firstLines(error instanceof Error ? (error.stack ?? '') : String(error))}`],
      marks: [],
      counts: {},
    }))
    .then(({ faults, marks, counts }) => {
      const { user, system } = process.cpuUsage(before);
      const verdict: Verdict = {
        id: job.id,
        faults: [...new Set([...faults, ...stray])],
        cpuMs: (user + system) / 1000,
        memory: process.memoryUsage.rss() / MB,
        marks,
        counts,
      };
      process.send!(verdict);
    })
    .catch(() => process.exit(3));
});
process.send!('ready');
