import { parseArgs } from 'node:util';
import type { AnalyseFile } from './analysed.js';
import type { Console, ExitCode } from './console.js';

/** One command: how it is asked for, what its help says, and what it does. */
export interface CommandLine {
  readonly name: string;
  /** Files and switches after the name, as the usage shows them. */
  readonly form: string;
  /** What it is for and what its switches mean, a line each. */
  readonly help: readonly string[];
  readonly switches: Switches;
  /** What its words are: what a shell completes them with. */
  readonly takes: 'files' | 'codes' | 'shells';
  readonly run: (words: Words, host: Host, console: Console) => Promise<ExitCode>;
}

export type Switches = Readonly<Record<string, Switch>>;

export interface Switch {
  readonly type: 'boolean' | 'string';
  readonly short?: string;
  /** What a value can be, where that is a choice. */
  readonly oneOf?: readonly string[];
}

/** What stands after a command's name. */
export interface Words {
  readonly files: readonly string[];
  readonly has: (name: string) => boolean;
  readonly valueOf: (name: string) => string | undefined;
}

/** Texts and where they come from: a disk, or what a test has instead. A text from standard input is called `-`. */
export interface Host {
  readonly analyse: AnalyseFile;
  /** Files that words mean: themselves, those of a folder, those that a pattern fits. */
  readonly find: (words: readonly string[]) => Promise<readonly FoundFile[]>;
  /** The text of a file, and what it is laid out. */
  readonly layOut: (file: string) => Promise<LaidOut>;
  /** What can be put right in one way only is put right in the file; how many places. */
  readonly mend: (file: string) => Promise<number>;
  /** The whole text of a file. */
  readonly replace: (file: string, text: string) => void;
  /** The page of a code of a finding; undefined where there is none. */
  readonly pageOf: (code: string) => Promise<string | undefined>;
  /** Resolves when a file that was read, or one beside it, has changed; false once the signal says stop. */
  readonly change: (signal: AbortSignal) => Promise<boolean>;
}

export type FoundFile = { readonly file: string } | { readonly word: string; readonly problem: string };

export interface LaidOut {
  readonly before: string;
  /** Undefined for a text that cannot be read as one. */
  readonly after: string | undefined;
}

/** One plain sentence on how it was asked for. */
export class WrongUse extends Error {}

export const FORMATS = ['text', 'json', 'sarif', 'github', 'junit'] as const;
export type Format = (typeof FORMATS)[number];

const EVERYWHERE: Switches = {
  help: { type: 'boolean', short: 'h' },
  color: { type: 'string', oneOf: ['auto', 'always', 'never'] },
};

export const switchesOf = (command: CommandLine): Switches => ({ ...command.switches, ...EVERYWHERE });

/** The words of a command. Throws `WrongUse` where they make no sense. */
export const wordsOf = (command: CommandLine, args: readonly string[]): Words => {
  const switches = switchesOf(command);
  const options = Object.fromEntries(
    Object.entries(switches).map(([name, { type, short }]) => [name, short === undefined ? { type } : { type, short }]),
  );
  const { values, positionals } = parsed(options, args);
  for (const [name, { oneOf }] of Object.entries(switches)) {
    const value = values[name];
    if (oneOf && typeof value === 'string' && !oneOf.includes(value))
      throw new WrongUse(`--${name} is ${oneOf.slice(0, -1).join(', ')} or ${oneOf.at(-1)}, not ${value}`);
  }
  return {
    files: positionals,
    has: (name) => values[name] === true,
    valueOf: (name) => (typeof values[name] === 'string' ? values[name] : undefined),
  };
};

interface Parsed {
  readonly values: Readonly<Record<string, string | boolean | undefined>>;
  readonly positionals: readonly string[];
}

const parsed = (
  options: Readonly<Record<string, { type: 'boolean' | 'string'; short?: string }>>,
  args: readonly string[],
): Parsed => {
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true }) as Parsed;
  } catch (error) {
    throw new WrongUse(error instanceof Error ? error.message.split(/\.\s/)[0] : String(error));
  }
};

/** The one file that a command works on. */
export const onlyFile = ({ files }: Words, what: string): string => {
  if (files.length !== 1) throw new WrongUse(`Name one file to ${what}`);
  return files[0];
};

/** A whole number within limits, or what it is unless given. */
export const wholeNumber = <T>(words: Words, name: string, unlessGiven: T, least: number, most: number): number | T => {
  const written = words.valueOf(name);
  if (written === undefined) return unlessGiven;
  const value = Number(written);
  if (written.trim() === '' || !Number.isInteger(value) || value < least || value > most)
    throw new WrongUse(`--${name} needs a whole number from ${least} to ${most}`);
  return value;
};
