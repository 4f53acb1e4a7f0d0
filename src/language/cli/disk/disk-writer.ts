import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { setTimeout } from 'node:timers/promises';
import type { Writer } from '../../../files/file-store.js';
import { diskStore } from './disk-store.js';

/** Writes into a folder of the disk as this process. */
export const diskWriter = (directory: string): Writer => ({
  store: diskStore(directory),
  me: runOf(process.pid),
  isRunning,
  pause: (milliseconds) => setTimeout(milliseconds),
});

/** Machine, process and, where the system tells it, when that began: numbers of processes come back. */
const runOf = (pid: number): string => `${hostname()} ${pid} ${beginningOf(pid)}`;

const beginningOf = (pid: number): string => {
  try {
    // Fields after the name, which may hold anything; the 20th is when the process began. Source: proc_pid_stat(5).
    return readFileSync(`/proc/${pid}/stat`, 'latin1').split(') ').pop()?.split(' ')[19] ?? '';
  } catch {
    return '';
  }
};

const isRunning = (run: string): boolean | undefined => {
  const [machine, number] = run.split(' ');
  const pid = Number(number);
  if (machine !== hostname() || !(pid > 0)) return undefined;
  try {
    process.kill(pid, 0);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ESRCH') return false;
  }
  return run === runOf(pid);
};

/** Does the work with a signal that tells of Ctrl-C and of being told to end, which then do not cut it off. */
export const untilStopped = async <T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> => {
  const stop = new AbortController();
  const onStop = (): void => stop.abort();
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  for (const signal of signals) process.on(signal, onStop);
  try {
    return await work(stop.signal);
  } finally {
    for (const signal of signals) process.off(signal, onStop);
  }
};
