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
  const pads = legPads(document);
  const starts = statementStarts(document);
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
    else put(end, leaf.offset, pads.get(leaf.offset) ?? spaceBetween(leaves[i - 1], leaf));
    if (leaf.text === '{') depth++;
    end = trimmedEnd(leaf);
  });
  if (leaves.length > 0) put(end, text.length, lineEnd);
  return edits;
};

/** A line comment keeps its words, not the blanks behind them. */
const trimmedEnd = (leaf: LeafCstNode): number => (leaf.hidden ? leaf.offset + leaf.text.trimEnd().length : leaf.end);

const statementStarts = (document: TubDocument): ReadonlySet<number> =>
  new Set([...statementsOf(document.parseResult.value)].flatMap((statement) => statement.$cstNode?.offset ?? []));

/** Legs that stand on lines of their own are set in columns: names to the left, lengths to the right. */
const legPads = (document: TubDocument): ReadonlyMap<number, string> => {
  const pads = new Map<number, string>();
  for (const strip of statementsOf(document.parseResult.value)) {
    if (!isStrip(strip)) continue;
    const rows = (strip.legs ?? []).flatMap(legRow);
    const lines = new Set(rows.map(({ line }) => line));
    if (rows.length < 2 || lines.size < rows.length || rows[0].line === strip.$cstNode?.range.start.line) continue;
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

interface LegRow {
  readonly line: number;
  readonly name: number;
  /** Width of the length as laid out; undefined for a leg that runs `to` a plane. */
  readonly length: number | undefined;
  readonly lengthOffset: number;
  readonly slopeOffset: number | undefined;
}

const legRow = (leg: Leg): readonly LegRow[] => {
  const cst = leg.$cstNode;
  if (!cst || cst.range.start.line !== cst.range.end.line || !isCompositeCstNode(cst)) return [];
  const leaves = [...CstUtils.flattenCst(cst)].filter((leaf) => !leaf.hidden);
  const slope = leaves.findIndex((leaf) => leaf.text === leg.slope && leaf.astNode === leg);
  if (leaves.length < 3 || slope < 3) return [];
  const length = leg.axis === undefined ? widthOf(leaves.slice(2, slope)) : undefined;
  return [
    {
      line: cst.range.start.line,
      name: leaves[1].text.length,
      length,
      lengthOffset: leaves[2].offset,
      slopeOffset: leaves[slope].offset,
    },
  ];
};

const widthOf = (leaves: readonly LeafCstNode[]): number =>
  leaves.reduce(
    (width, leaf, i) => width + leaf.text.length + (i === 0 ? 0 : spaceBetween(leaves[i - 1], leaf).length),
    0,
  );
