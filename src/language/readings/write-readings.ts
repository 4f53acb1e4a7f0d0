/** Readings written into the text: into the `made` of their part where it has one, else as a new one at the end. */
import type { CstNode } from 'langium';
import type { Range, TextEdit } from 'vscode-languageserver-types';
import type { Evaluation } from '../analyse.js';
import type { BendReading, Made } from '../generated/ast.js';
import type { TubDocument } from '../lower/text/sources.js';
import type { BendToRead, PartToRead } from './bends-to-read.js';
import { typedReading } from './reading-text.js';

/** Edits of one text. */
export interface TextEdits {
  readonly document: TubDocument;
  readonly edits: readonly TextEdit[];
}

/** What stands in the text of a bend's reading, from `reads` or `opens` on; nothing where it is open. */
export const statedReading = ({ node }: BendToRead): string => {
  const cst = node?.$cstNode;
  return node && cst ? cst.text.slice(fromWord(node, cst)).replaceAll(/\s+/g, ' ') : '';
};

const fromWord = ({ second }: BendReading, { offset }: CstNode): number => {
  const after = (second?.$cstNode?.end ?? offset) - offset;
  return after + 1;
};

/**
 * `typed[i]` of the part's bend i: written as typed; an empty one is taken out of the text; undefined and unchanged ones leave it as
 * it is, comments included. Fails: never; what cannot be read is left out.
 */
export const readingEdits = (
  evaluation: Evaluation,
  part: PartToRead,
  typed: readonly (string | undefined)[],
): TextEdits | undefined => {
  const entries = part.bends.map((bend, i): Entry => ({ bend, text: textFor(bend, typed[i]) }));
  if (entries.every(({ text }) => text === undefined)) return undefined;
  const { node } = part;
  if (!node) return newBlock(evaluation, part, entries);
  const document = evaluation.documents.find(({ parseResult }) => parseResult.value === node.$container);
  return document && { document, edits: inBlock(document, node, entries) };
};

interface Entry {
  readonly bend: BendToRead;
  /** Undefined: nothing is to be done; empty: it is taken out. */
  readonly text: string | undefined;
}

const textFor = (bend: BendToRead, typed: string | undefined): string | undefined => {
  if (typed === undefined || typed.trim() === statedReading(bend)) return undefined;
  return typed.trim() === '' ? '' : typedReading(typed)?.text;
};

const lineOf = ({ bend, text }: Entry): string => `    bend ${bend.panels.join(' ')} ${text}`;

const newBlock = ({ document }: Evaluation, { name }: PartToRead, entries: readonly Entry[]): TextEdits | undefined => {
  const lines = entries.filter(({ text }) => text).map(lineOf);
  if (lines.length === 0) return undefined;
  const text = document.textDocument.getText();
  const end = document.textDocument.positionAt(text.length);
  const newText = `${text.endsWith('\n') || text === '' ? '' : '\n'}\nmade ${name} {\n${lines.join('\n')}\n}\n`;
  return { document, edits: [{ range: { start: end, end }, newText }] };
};

/** Readings that are new stand behind the one before them in the order, the first of all behind the bracket. */
const inBlock = ({ textDocument }: TubDocument, node: Made, entries: readonly Entry[]): TextEdit[] => {
  const all = textDocument.getText();
  const range = (start: number, end: number): Range => ({
    start: textDocument.positionAt(start),
    end: textDocument.positionAt(end),
  });
  const cst = node.$cstNode!;
  const isOneLine = !cst.text.includes('\n');
  let behind = endOfLine(all, cst.offset + cst.text.indexOf('{') + 1);
  const added = new Map<number, string[]>();
  const edits = entries.flatMap((entry): TextEdit[] => {
    const own = entry.bend.node?.$cstNode;
    if (own && entry.bend.node) {
      if (entry.text !== '') behind = endOfLine(all, own.end);
      if (entry.text === undefined) return [];
      if (entry.text !== '')
        return [{ range: range(own.offset + fromWord(entry.bend.node, own), own.end), newText: entry.text }];
      return [{ range: range(...lineAround(all, own)), newText: '' }];
    }
    if (!entry.text) return [];
    added.set(behind, [...(added.get(behind) ?? []), isOneLine ? `  ${lineOf(entry).trim()}` : `\n${lineOf(entry)}`]);
    return [];
  });
  const inserted = [...added].map(([at, lines]): TextEdit => {
    const isEmpty = at === cst.end - 1 || all.slice(at, cst.end - 1).trim() === '';
    return { range: range(at, at), newText: lines.join('') + (isEmpty && isOneLine ? ' ' : '') };
  });
  return [...edits, ...inserted];
};

/** Behind the note that may follow on the same line; where something else follows, the place itself. */
const endOfLine = (text: string, from: number): number =>
  from + (/^[ \t]*(?:\/\/[^\r\n]*)?(?=\r?\n)/.exec(text.slice(from))?.[0].trimEnd().length ?? 0);

/** A reading with its line, where it has one to itself. */
const lineAround = (text: string, { offset, end }: CstNode): [number, number] => {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  const next = text.indexOf('\n', end);
  const isAlone = text.slice(start, offset).trim() === '' && next >= 0 && text.slice(end, next).trim() === '';
  return isAlone ? [start, next + 1] : [offset, end];
};
