import { CstUtils, GrammarUtils, type AstNode, type LangiumDocument } from 'langium';
import type { Range } from 'vscode-languageserver-types';
import type { SourceId } from '../../analysis/model.js';
import type { TubFile } from '../generated/ast.js';

export type TubDocument = LangiumDocument<TubFile>;

/** Where an id points: a piece of one document, and the statement or value that stands there, if it became one. */
export interface Place {
  readonly document: TubDocument;
  readonly range: Range;
  readonly node: AstNode | undefined;
  readonly property: string | undefined;
}

/**
 * The table from SourceId to text. An id is the place of a token: twice its offset, plus a large step for every file
 * after the first. So ids sort as the text does (main file first), hold between two evaluations of the same text, and
 * cost nothing until somebody asks where they are. Odd ids are bare ranges: what could not be read.
 */
export class SourceTable {
  private readonly bases = new Map<AstNode, number>();
  private readonly nodes = new Map<SourceId, { readonly node: AstNode; readonly property: string | undefined; readonly index: number }>();
  private readonly ranges = new Map<SourceId, Range>();

  constructor(readonly documents: readonly TubDocument[]) {
    documents.forEach((document, i) => this.bases.set(document.parseResult.value, i * FILE_STEP));
  }

  /** The id of a node (its first token), or of one of its properties. */
  idOf(node: AstNode, property?: string, index = 0): SourceId {
    const part = property === undefined ? undefined : GrammarUtils.findNodeForProperty(node.$cstNode, property, index);
    const id = this.baseOf(node) + 2 * (part ?? cstOf(node))!.offset;
    if (!this.nodes.has(id)) this.nodes.set(id, { node, property: part && property, index });
    return id;
  }

  /** The id of a piece of text that is not (yet) a statement. */
  idOfRange(document: TubDocument, range: Range): SourceId {
    const base = this.bases.get(document.parseResult.value) ?? 0;
    const id = base + 2 * document.textDocument.offsetAt(range.start) + 1;
    this.ranges.set(id, range);
    return id;
  }

  /** The id of a statement, or of the very start of the file of that index when there is none. */
  startOf(file: number, node?: AstNode): SourceId {
    return node ? this.idOf(node) : file * FILE_STEP;
  }

  place(id: SourceId): Place | undefined {
    const document = this.documents[Math.floor(id / FILE_STEP)];
    if (!document) return undefined;
    const range = this.ranges.get(id);
    if (range) return { document, range, node: undefined, property: undefined };
    const entry = this.nodes.get(id);
    if (!entry && id % FILE_STEP === 0) return { document, range: START, node: undefined, property: undefined };
    return entry && { document, range: rangeOf(entry.node, entry.property, entry.index), node: entry.node, property: entry.property };
  }

  isInMainFile(id: SourceId): boolean {
    return id < FILE_STEP;
  }

  private baseOf(node: AstNode): number {
    let root = node;
    while (root.$container) root = root.$container;
    return this.bases.get(root) ?? 0;
  }
}

/** More than twice the length of any file that can be opened. */
const FILE_STEP = 2 ** 32;

const START: Range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

/** A node made up while recovering from a syntax error has no text: its parent's stands for it. */
const cstOf = (node: AstNode): AstNode['$cstNode'] => {
  let at: AstNode | undefined = node;
  while (at && !at.$cstNode) at = at.$container;
  return at?.$cstNode;
};

/** What to underline: the property; else a statement from its keyword to its name; else the node up to its braces. */
const rangeOf = (node: AstNode, property: string | undefined, index: number): Range => {
  const cst = cstOf(node)!;
  if (property !== undefined) return (GrammarUtils.findNodeForProperty(node.$cstNode, property, index) ?? cst).range;
  const name = GrammarUtils.findNodeForProperty(node.$cstNode, 'name');
  if (name) return { start: cst.range.start, end: name.range.end };
  const brace = GrammarUtils.findNodeForKeyword(node.$cstNode, '{');
  const before = brace && CstUtils.getPreviousNode(brace);
  return { start: cst.range.start, end: before && before.offset > cst.offset ? before.range.end : cst.range.end };
};
