/** `tubwright solve`: with progress where somebody looks on, and ended by Ctrl-C with the best so far. */
import { setImmediate } from 'node:timers/promises';
import type { Outcome } from '../../solve/outcome.js';
import { MOST_TRIES, type Progress, type WorkOutOptions } from '../../solve/work-out.js';
import { CannotRead, type Solving } from '../analysed.js';
import { onlyFile, wholeNumber, WrongUse, type CommandLine, type Host, type Words } from '../command.js';
import type { Console, ExitCode } from '../console.js';
import { untilStopped } from '../disk/disk-writer.js';
import { outcomeJson, outcomeText } from '../print/outcome.js';

/** ms between two looks at what else there is: a signal, somebody to be told. */
const LOOK_EVERY = 50;
const TELL_EVERY = 200;

/** Hours of work. */
const TRIES_AT_MOST = 1_000_000;

export const solve: CommandLine = {
  name: 'solve',
  form: 'FILE [--write] [--curve] [--tries N] [--json]',
  help: [
    'the free values of a file for its aim; exit 0: all wishes are met, 1: they are not',
    '--write  puts them into the file where all wishes are met',
    '--curve  also tells the choices between the first two goals',
    `--tries  most tubs that are tried, ${MOST_TRIES} unless given`,
    '--json   as src/language/cli/solve.schema.json has it',
  ],
  switches: {
    write: { type: 'boolean' },
    curve: { type: 'boolean' },
    tries: { type: 'string' },
    json: { type: 'boolean' },
  },
  takes: 'files',
  run: (words, host, console) => untilStopped((signal) => solveUntil(signal, words, host, console)),
};

const solveUntil = async (signal: AbortSignal, words: Words, host: Host, console: Console): Promise<ExitCode> => {
  const file = onlyFile(words, 'work out');
  const isToWrite = words.has('write');
  if (isToWrite && file === '-') throw new WrongUse('There is no file to write to');
  const options = { tries: wholeNumber(words, 'tries', MOST_TRIES, 1, TRIES_AT_MOST), curve: words.has('curve') };
  const { solving, units } = await host.analyse(file);
  if (!('workOut' in solving))
    throw new CannotRead(`Nothing is worked out for ${file}: ${solving.join('; ')}; tubwright check says more`);
  const { outcome, isStopped } = await worked(solving, options, signal, console);
  if (!outcome) return 2;
  console.out(
    words.has('json') ? outcomeJson(file, outcome) : outcomeText(file, outcome, { paint: console.paint, units }),
  );
  const goals = outcome.wishes.filter(({ kind }) => kind === 'goal').length;
  if (options.curve && goals < 2)
    console.error('There are choices to list only between two goals, such as `least let rim` and `most capacity`');
  if (isStopped) console.error(`Stopped: this is the best so far, and ${file} stays as it is`);
  else if (!outcome.isMet && isToWrite) console.error(`Not all wishes can be met: ${file} stays as it is`);
  else if (outcome.isMet && isToWrite) host.replace(file, solving.textWith(outcome.values));
  else if (outcome.isMet && !words.has('json'))
    console.error(`${file} stays as it is; --write puts the values into it`);
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
