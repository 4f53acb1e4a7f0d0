/** `tubwright solve`: with progress where somebody looks on, and ended by Ctrl-C with the best so far. */
import { setImmediate } from 'node:timers/promises';
import type { Outcome } from '../solve/outcome.js';
import type { Progress, WorkOutOptions } from '../solve/work-out.js';
import type { AnalyseFile, Solving } from './analysed.js';
import type { Command } from './arguments.js';
import type { Console, ExitCode } from './console.js';
import { untilStopped } from './disk-writer.js';
import { outcomeJson, outcomeText } from './print-outcome.js';
import { replaceFile } from './replace-file.js';

/** ms between two looks at what else there is: a signal, somebody to be told. */
const LOOK_EVERY = 50;
const TELL_EVERY = 200;

type SolveCommand = Extract<Command, { kind: 'solve' }>;

export const solve = (command: SolveCommand, analyse: AnalyseFile, console: Console): Promise<ExitCode> =>
  untilStopped((signal) => solveUntil(signal, command, analyse, console));

const solveUntil = async (
  signal: AbortSignal,
  { file, output, found, options }: SolveCommand,
  analyse: AnalyseFile,
  console: Console,
): Promise<ExitCode> => {
  const { solving } = await analyse(file);
  if (!('workOut' in solving)) {
    console.error(`Nothing is worked out for ${file}: ${solving.join('; ')}; tubwright check says more`);
    return 2;
  }
  const { outcome, isStopped } = await worked(solving, options, signal, console);
  if (!outcome) return 2;
  console.out(output === 'json' ? outcomeJson(file, outcome) : outcomeText(file, outcome, console.paint));
  const goals = outcome.wishes.filter(({ kind }) => kind === 'goal').length;
  if (options.curve && goals < 2)
    console.error('There are choices to list only between two goals, such as `least let rim` and `most capacity`');
  if (isStopped) console.error(`Stopped: this is the best so far, and ${file} stays as it is`);
  else if (!outcome.isMet && found === 'write') console.error(`Not all wishes can be met: ${file} stays as it is`);
  else if (outcome.isMet && found === 'write') replaceFile(file, solving.textWith(outcome.values));
  else if (outcome.isMet && output === 'text') console.error(`${file} stays as it is; --write puts the values into it`);
  return outcome.isMet && !isStopped ? 0 : 1;
};

interface Worked {
  readonly outcome: Outcome | undefined;
  readonly isStopped: boolean;
}

const worked = async (
  { workOut }: Solving,
  options: WorkOutOptions,
  signal: AbortSignal,
  { progress }: Console,
): Promise<Worked> => {
  const run = workOut({ ...options, isStopped: () => signal.aborted });
  let [looked, told] = [performance.now(), performance.now()];
  for (let step = run.next(); ; step = run.next()) {
    const now = performance.now();
    if (step.done || now - told >= TELL_EVERY) {
      progress?.(step.done ? '' : progressText(step.value));
      told = now;
    }
    if (step.done) return { outcome: step.value, isStopped: signal.aborted };
    if (now - looked < LOOK_EVERY) continue;
    await setImmediate();
    looked = performance.now();
  }
};

const progressText = ({ tried, what }: Progress): string =>
  `${what}: ${tried} tubs tried; Ctrl-C ends with the best so far`;
