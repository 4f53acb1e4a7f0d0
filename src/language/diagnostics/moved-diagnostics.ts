import type { Diagnostic, Position } from 'vscode-languageserver-types';

export interface Shown {
  readonly text: string;
  readonly late: readonly Diagnostic[];
}

/**
 * Diagnostics of an earlier text where their words stand now: by the one stretch in which the two texts differ. Those
 * that touch it are left out: nobody knows yet whether they still hold.
 */
export const movedDiagnostics = ({ text: before, late }: Shown, after: string): readonly Diagnostic[] => {
  if (late.length === 0) return [];
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && before[head] === after[head]) head++;
  let tail = 0;
  while (tail < shorter - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  const first = positionAt(before, head);
  const [oldEnd, newEnd] = [positionAt(before, before.length - tail), positionAt(after, after.length - tail)];
  return late.flatMap((diagnostic) => {
    const { start, end } = diagnostic.range;
    if (!isAfter(end, first)) return [diagnostic];
    if (isAfter(oldEnd, start)) return [];
    return [{ ...diagnostic, range: { start: moved(start, oldEnd, newEnd), end: moved(end, oldEnd, newEnd) } }];
  });
};

const isAfter = (a: Position, b: Position): boolean =>
  a.line > b.line || (a.line === b.line && a.character > b.character);

const moved = (at: Position, oldEnd: Position, newEnd: Position): Position => ({
  line: at.line + newEnd.line - oldEnd.line,
  character: at.line === oldEnd.line ? at.character + newEnd.character - oldEnd.character : at.character,
});

const positionAt = (text: string, offset: number): Position => {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  let line = 0;
  for (let at = text.indexOf('\n'); at >= 0 && at < offset; at = text.indexOf('\n', at + 1)) line++;
  return { line, character: offset - (offset === 0 ? 0 : start) };
};
