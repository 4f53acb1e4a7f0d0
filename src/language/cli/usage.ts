import type { CommandLine } from './command.js';

/** How every command is asked for, and how to learn more of one. */
export const usageOf = (commands: readonly CommandLine[]): string => {
  const width = Math.max(...commands.map(({ name }) => name.length)) + 1;
  return [
    'Usage:',
    ...commands.map((command) => formOf(command)),
    '',
    ...commands.map(({ name, help }) => `  ${name.padEnd(width)} ${help[0]}`),
    '',
    'A FILE is a .tub file or - for the text from standard input; check and fmt also take folders and patterns.',
    'tubwright COMMAND -h tells of its switches; --color always or never says when words are coloured, --version which this is.',
  ].join('\n');
};

export const helpOf = (command: CommandLine): string =>
  ['Usage:', formOf(command), '', ...command.help.map((line) => `  ${line}`)].join('\n');

const formOf = ({ name, form }: CommandLine): string => `  tubwright ${name} ${form}`;
