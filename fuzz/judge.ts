import { fork, type ChildProcess } from 'node:child_process';
import { readFileSync } from 'node:fs';
import type { Job, Verdict } from './job.js';

/** Heap of the process that judges, MB: with its code and stacks it then stays below MOST_MEMORY. */
const HEAP = 200;
/** ms. Who computes longer is ended: time of the processor where the system tells it, else of the clock. */
const LONGEST_CPU = 10_000;
const LONGEST_WALL = 120_000;

type Asked = Omit<Job, 'id'>;

/** A process that judges one job at a time. When a job ends it, a new one takes its place, and the job's verdict says so. */
export class Judge {
  private child: ChildProcess | undefined;
  private serial = 0;

  constructor(private readonly script: string) {}

  async ask(asked: Asked): Promise<Verdict> {
    const child = (this.child ??= await started(this.script));
    const job: Job = { ...asked, id: ++this.serial };
    const before = cpuOf(child);
    const verdict = await new Promise<Verdict | string>((resolve) => {
      const began = Date.now();
      const watch = setInterval(() => {
        const used = cpuOf(child);
        const isOver = Date.now() - began > LONGEST_WALL || (used ?? Date.now()) - (before ?? began) > LONGEST_CPU;
        if (!isOver) return;
        finish('killed: it takes too long');
        child.kill('SIGKILL');
      }, 250);
      const onMessage = (message: Verdict | 'ready'): void => {
        if (message !== 'ready' && message.id === job.id) finish(message);
      };
      const onExit = (code: number | null, signal: string | null): void =>
        finish(signal === 'SIGABRT' || code === 134 ? 'killed: out of memory' : `killed: ended with ${code ?? signal}`);
      const finish = (end: Verdict | string): void => {
        clearInterval(watch);
        child.off('message', onMessage);
        child.off('exit', onExit);
        resolve(end);
      };
      child.on('message', onMessage);
      child.on('exit', onExit);
      child.send(job);
    });
    if (typeof verdict !== 'string') return verdict;
    this.child = undefined;
    return { id: job.id, faults: [verdict], cpuMs: 0, memory: 0, marks: [], counts: {} };
  }

  /** Ends the process; the next job gets a new one. */
  end(): void {
    this.child?.kill('SIGKILL');
    this.child = undefined;
  }
}

const started = (script: string): Promise<ChildProcess> =>
  new Promise((resolve, reject) => {
    const child = fork(script, [], {
      execArgv: [`--max-old-space-size=${HEAP}`, '--max-semi-space-size=8'],
      stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
    });
    child.once('message', () => resolve(child));
    child.once('exit', () => reject(new Error('the process that judges does not start')));
  });

/** ms of processor time that a process has used; undefined where the system does not tell. */
const cpuOf = ({ pid }: ChildProcess): number | undefined => {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8')
      .replace(/^.*\) /, '')
      .split(' ');
    const ticks = Number(fields[11]) + Number(fields[12]);
    return ticks * 10;
  } catch {
    return undefined;
  }
};
