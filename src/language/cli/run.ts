/** The commands over texts and a console that are handed in, so that tests need neither process nor disk. */
import { CannotWrite } from '../../files/file-store.js';
import { CannotRead } from './analysed.js';
import { WrongUse, wordsOf, type CommandLine, type Host, type Words } from './command.js';
import { allCommands } from './commands/registry.js';
import type { Console, ExitCode } from './console.js';
import { colorPaint, plainPaint } from './paint.js';
import { helpOf, usageOf } from './usage.js';

export type { Console, ExitCode } from './console.js';

export const run = async (args: readonly string[], host: Host, console: Console): Promise<ExitCode> => {
  const [name, ...rest] = args;
  try {
    if (isAskedFor(name, '--version')) console.out(console.version);
    else if (isAskedFor(name, '--help', '-h', 'help'))
      console.out(rest.length > 0 ? helpOf(commandOf(rest[0])) : usageOf(allCommands));
    else return await runCommand(commandOf(name), rest, host, console);
    return 0;
  } catch (error) {
    if (error instanceof WrongUse)
      return fails(`${error.message}; tubwright ${helpWords(name)} shows how`, rest, console);
    if (error instanceof CannotRead || error instanceof CannotWrite) return fails(error.message, rest, console);
    throw error;
  }
};

const isAskedFor = (name: string | undefined, ...ways: readonly string[]): boolean =>
  name !== undefined && ways.includes(name);

const commandOf = (name: string | undefined): CommandLine => {
  const found = allCommands.find((command) => command.name === name);
  if (found) return found;
  const names = allCommands.map((command) => command.name);
  const all = `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
  throw new WrongUse(name === undefined ? `Say what to do: ${all}` : `There is no command ${name}: it is ${all}`);
};

const helpWords = (name: string | undefined): string =>
  allCommands.some((command) => command.name === name) ? `${name} -h` : '--help';

const runCommand = async (
  command: CommandLine,
  args: readonly string[],
  host: Host,
  console: Console,
): Promise<ExitCode> => {
  const words = wordsOf(command, args);
  if (words.has('help')) {
    console.out(helpOf(command));
    return 0;
  }
  return command.run(words, host, inColor(words, console));
};

const inColor = (words: Words, console: Console): Console => {
  const when = words.valueOf('color');
  if (when === 'always') return { ...console, paint: colorPaint };
  return when === 'never' ? { ...console, paint: plainPaint } : console;
};

/** What `--json` prints where there is nothing else to print; `src/language/cli/failure.schema.json` is made from it. */
export interface FailureOutput {
  readonly version: 1;
  /** One sentence without its full stop. */
  readonly error: string;
}

const fails = (sentence: string, args: readonly string[], console: Console): ExitCode => {
  console.error(sentence);
  const failure: FailureOutput = { version: 1, error: sentence };
  if (args.includes('--json')) console.out(JSON.stringify(failure, undefined, 2));
  return 2;
};
