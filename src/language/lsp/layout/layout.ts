import { CstUtils, isCompositeCstNode, type LeafCstNode } from 'langium';
import type { TextEdit } from 'vscode-languageserver-types';
import { isStrip, type Leg } from '../../generated/ast.js';
import type { TubDocument } from '../../lower/text/sources.js';
import { spaceBetween } from './spacing.js';
import { statementsOf } from '../../lower/text/statements.js';

/** A carriage return alone ends a line too, and with it a comment. */
const LINE_END = /\r\n|\n|\r/;

export interface LayoutOptions {
  readonly tabSize: number;
  readonly insertSpaces: boolean;
}

/** The edits that lay a text out; none where it is laid out already, or cannot be read. Only white space is touched. */
export const layoutOf = (document: TubDocument, options: LayoutOptions): readonly TextEdit[] => {
  const { parseResult, textDocument } = document;
  const root = parseResult.value.$cstNode;
  if (!root || parseResult.lexerErrors.length > 0 || parseResult.parserErrors.length > 0) return [];
  const leaves = [...CstUtils.flattenCst(root)];
  const text = textDocument.getText();
  const starts = statementStarts(document);
  const strokes = fractionStrokes(leaves);
  const gapBefore: GapBefore = (before, after) => {
    if (strokes.has(before.offset) || strokes.has(after.offset)) return '';
    return gapOf(before, after, starts.has(before.offset) ? ' ' : text.slice(trimmedEnd(before), after.offset));
  };
  const pads = legPads(document, gapBefore);
  const indent = options.insertSpaces ? ' '.repeat(options.tabSize) : '\t';
  const lineEnd = text.includes('\r\n') ? '\r\n' : '\n';
  const edits: TextEdit[] = [];
  let depth = 0;
  let end = 0;
  const put = (from: number, to: number, wanted: string): void => {
    if (text.slice(from, to) === wanted) return;
    edits.push({ range: { start: textDocument.positionAt(from), end: textDocument.positionAt(to) }, newText: wanted });
  };
  leaves.forEach((leaf, i) => {
    if (leaf.text === '}') depth = Math.max(0, depth - 1);
    const gap = text.slice(end, leaf.offset);
    const lines = gap.split(LINE_END).length - 1;
    const isContinued = depth === 0 && !leaf.hidden && leaf.text !== '}' && !starts.has(leaf.offset);
    const level = depth + (isContinued ? 1 : 0);
    if (i === 0) put(0, leaf.offset, '');
    else if (lines > 0) put(end, leaf.offset, lineEnd.repeat(Math.min(lines, 2)) + indent.repeat(level));
    else put(end, leaf.offset, pads.get(leaf.offset) ?? gapBefore(leaves[i - 1], leaf));
    if (leaf.text === '{') depth++;
    end = trimmedEnd(leaf);
  });
  if (leaves.length > 0) put(end, text.length, lineEnd);
  return edits;
};

/** White space between two words of one line, as it is laid out. */
type GapBefore = (before: LeafCstNode, after: LeafCstNode) => string;

/** Two or more blanks are a column of the builder's, and stay; anything else is evened out. */
const gapOf = (before: LeafCstNode, after: LeafCstNode, written: string): string => {
  const usual = spaceBetween(before, after);
  return usual !== '' && /^ {2,}$/.test(written) ? written : usual;
};

const DIGIT = /^\d/;

/** Where strokes of `5/8` stand: one number to the builder, where it is written so. */
const fractionStrokes = (leaves: readonly LeafCstNode[]): ReadonlySet<number> =>
  new Set(
    leaves.flatMap((leaf, i) => {
      const [before, after] = [leaves[i - 1], leaves[i + 1]];
      const isFraction = leaf.text === '/' && before && after && DIGIT.test(before.text) && DIGIT.test(after.text);
      return isFraction && before.end === leaf.offset && leaf.end === after.offset ? [leaf.offset] : [];
    }),
  );

/** A line comment keeps its words, not the blanks behind them. */
const trimmedEnd = (leaf: LeafCstNode): number => (leaf.hidden ? leaf.offset + leaf.text.trimEnd().length : leaf.end);

const statementStarts = (document: TubDocument): ReadonlySet<number> =>
  new Set([...statementsOf(document.parseResult.value)].flatMap((statement) => statement.$cstNode?.offset ?? []));

/**
 * Legs that stand on lines of their own are set in columns: names to the left, lengths to the right; where their slopes stand in
 * one column already they stay.
 */
const legPads = (document: TubDocument, gapBefore: GapBefore): ReadonlyMap<number, string> => {
  const pads = new Map<number, string>();
  for (const strip of statementsOf(document.parseResult.value)) {
    if (!isStrip(strip)) continue;
    const rows = (strip.legs ?? []).flatMap((leg) => legRow(leg, gapBefore));
    const lines = new Set(rows.map(({ line }) => line));
    if (rows.length < 2 || lines.size < rows.length || rows[0].line === strip.$cstNode?.range.start.line) continue;
    if (areInColumns(rows)) continue;
    const nameWidth = Math.max(...rows.map(({ name }) => name));
    const lengthWidth = Math.max(0, ...rows.map(({ length }) => length ?? 0));
    for (const row of rows) {
      const before = nameWidth - row.name + (row.length === undefined ? 0 : lengthWidth - row.length);
      pads.set(row.lengthOffset, ' '.repeat(before + 2));
      if (row.slopeOffset !== undefined) pads.set(row.slopeOffset, '  ');
    }
  }
  return pads;
};

/** Slopes or lengths below each other, and something set off by more than one blank: the builder's own columns. */
const areInColumns = (rows: readonly LegRow[]): boolean => {
  const areBelow = (some: readonly LegRow[], k: 0 | 1): boolean =>
    some.length > 1 && new Set(some.map(({ columns }) => columns[k])).size === 1;
  const plain = rows.filter(({ length }) => length !== undefined);
  return rows.some(({ isSetOff }) => isSetOff) && (areBelow(plain, 1) || areBelow(rows, 1) || areBelow(rows, 0));
};

interface LegRow {
  readonly line: number;
  readonly name: number;
  /** Width of the length as laid out; undefined for a leg that runs `to` a plane. */
  readonly length: number | undefined;
  readonly lengthOffset: number;
  readonly slopeOffset: number | undefined;
  /** Where length and slope begin, from where the leg begins, if its blanks stay. */
  readonly columns: readonly [number, number];
  /** Is the length set off from its name by more than one blank? */
  readonly isSetOff: boolean;
}

const legRow = (leg: Leg, gapBefore: GapBefore): readonly LegRow[] => {
  const cst = leg.$cstNode;
  if (!cst || cst.range.start.line !== cst.range.end.line || !isCompositeCstNode(cst)) return [];
  const leaves = [...CstUtils.flattenCst(cst)].filter((leaf) => !leaf.hidden);
  const slope = leaves.findIndex((leaf) => leaf.text === leg.slope && leaf.astNode === leg);
  if (leaves.length < 3 || slope < 3) return [];
  const columnOf = (to: number): number =>
    leaves.slice(0, to).reduce((sum, leaf, i) => sum + leaf.text.length + gapBefore(leaf, leaves[i + 1]).length, 0);
  const length = leg.axis === undefined ? widthOf(leaves.slice(2, slope)) : undefined;
  return [
    {
      line: cst.range.start.line,
      name: leaves[1].text.length,
      length,
      lengthOffset: leaves[2].offset,
      slopeOffset: leaves[slope].offset,
      columns: [columnOf(2), columnOf(slope)],
      isSetOff: gapBefore(leaves[1], leaves[2]).length > 1,
    },
  ];
};

const widthOf = (leaves: readonly LeafCstNode[]): number =>
  leaves.reduce(
    (width, leaf, i) => width + leaf.text.length + (i === 0 ? 0 : spaceBetween(leaves[i - 1], leaf).length),
    0,
  );
