import type { Finding, Severity } from '../../src/analysis/model/finding.js';
import type { Range } from 'vscode-languageserver-types';

/**
 * Notes in a fixture that say what is found there. A note behind text speaks of its own line, one on a line of its own
 * of the next line that is not a note:
 *
 *     // expect: code ["part of the message"] [at word]      expect-error: / expect-warning: / expect-info: pin severity
 *     // value: depth_mm = 3.2 ± 0.01                         a number of a finding on that line
 */
export interface Expectation {
  readonly line: number;
  readonly code: string;
  readonly severity: Severity | undefined;
  readonly part: string | undefined;
  readonly word: string | undefined;
}

export interface ValueExpectation {
  readonly line: number;
  readonly key: string;
  readonly value: number;
  readonly within: number;
}

export interface Notes {
  readonly expected: readonly Expectation[];
  readonly values: readonly ValueExpectation[];
}

/** A finding and where it stands in the fixture. */
export interface Placed {
  readonly finding: Finding;
  readonly range: Range;
}

const EXPECT = /\/\/\s*expect(?:-(error|warning|info))?:\s*([a-z]+\/[a-z-]+)(?:\s+"([^"]*)")?(?:\s+at\s+(\S+))?\s*$/;
const VALUE = /\/\/\s*value:\s*(\w+)\s*=\s*(-?[\d.eE+-]+)(?:\s*±\s*([\d.eE+-]+))?\s*$/;
const NOTE = /\/\/\s*(expect(?:-\w+)?|value):/;

/** Throws where a note cannot be read: a misspelt one would expect nothing. */
export const readNotes = (text: string): Notes => {
  const expected: Expectation[] = [];
  const values: ValueExpectation[] = [];
  const lines = text.split('\n');
  lines.forEach((content, number) => {
    if (!NOTE.test(content)) return;
    const line = /^\s*\/\//.test(content) ? nextPlainLine(lines, number) : number;
    const expect = EXPECT.exec(content);
    const value = VALUE.exec(content);
    if (expect)
      expected.push({
        line,
        code: expect[2],
        severity: expect[1] as Severity | undefined,
        part: expect[3],
        word: expect[4],
      });
    else if (value) values.push({ line, key: value[1], value: Number(value[2]), within: Number(value[3] ?? 0) });
    else throw new Error(`line ${number + 1}: this note cannot be read: ${content.trim()}`);
  });
  return { expected, values };
};

const nextPlainLine = (lines: readonly string[], from: number): number => {
  let line = from;
  while (line + 1 < lines.length && /^\s*\/\//.test(lines[line]) && NOTE.test(lines[line])) line++;
  return line;
};

/** What differs between the notes of a fixture and what is found in it, one sentence each; empty when all is as noted. */
export const differences = (text: string, found: readonly Placed[]): readonly string[] => {
  const { expected, values } = readNotes(text);
  const open = new Set(found);
  const missing = expected.filter((note) => {
    const match = [...open].find((placed) => matches(text, note, placed));
    if (match) open.delete(match);
    return match === undefined;
  });
  return [
    ...missing.map(
      (note) => `line ${note.line + 1}: ${note.code}${note.part ? ` "${note.part}"` : ''} is expected and not found`,
    ),
    ...[...open].map(
      ({ finding, range }) =>
        `line ${range.start.line + 1}: ${finding.code} is found and not expected: ${finding.message}`,
    ),
    ...values.flatMap((note) => wrongValue(note, found)),
  ];
};

const matches = (text: string, note: Expectation, { finding, range }: Placed): boolean =>
  finding.code === note.code &&
  range.start.line === note.line &&
  (note.severity === undefined || finding.severity === note.severity) &&
  (note.part === undefined || finding.message.includes(note.part)) &&
  (note.word === undefined || textAt(text, range).includes(note.word));

const textAt = (text: string, range: Range): string => {
  const lines = text.split('\n').slice(range.start.line, range.end.line + 1);
  lines[lines.length - 1] = lines[lines.length - 1].slice(0, range.end.character);
  lines[0] = lines[0].slice(range.start.character);
  return lines.join('\n');
};

const wrongValue = (note: ValueExpectation, found: readonly Placed[]): readonly string[] => {
  const here = found.filter(({ finding, range }) => range.start.line === note.line && note.key in finding.values);
  if (here.some(({ finding }) => Math.abs(Number(finding.values[note.key]) - note.value) <= note.within)) return [];
  const has = here.map(({ finding }) => String(finding.values[note.key])).join(', ') || 'nothing';
  return [`line ${note.line + 1}: ${note.key} is ${has}; ${note.value} ± ${note.within} is expected`];
};
