import {
  CstUtils,
  GrammarUtils,
  isCompositeCstNode,
  type AstNode,
  type CstNode,
  type LeafCstNode,
  type LangiumDocument,
} from 'langium';
import type { Range } from 'vscode-languageserver-types';
import type { SourceId } from '../../../analysis/model/tub.js';
import { isBinary, type Fraction, type Quantity, type TubFile } from '../../generated/ast.js';
import { makingOf, writtenOf } from '../../made-groups.js';
import { MOST_SLOTS, slotsOf } from './statement-slots.js';

export type TubDocument = LangiumDocument<TubFile>;

/** Where an id points: a piece of one document, and the statement or value that stands there, if it became one. */
export interface Place {
  readonly document: TubDocument;
  readonly range: Range;
  readonly node: AstNode | undefined;
  readonly property: string | undefined;
}

/**
 * The table from SourceId to text. An id is the place of a token: four times its offset within its statement, plus a large
 * step by the number of the statement and a larger one by that of the file. So ids sort as the text does (main file first),
 * hold in every statement but the one that is typed in, and cost nothing until somebody asks where they are. The ids between
 * tell apart what starts at the same token. What `mirror` and `repeat` make has ids just past their end, and stands where they do.
 */
export class SourceTable {
  private readonly starts = new Map<AstNode, StatementStart>();
  private readonly nodes = new Map<
    SourceId,
    { readonly node: AstNode; readonly property: string | undefined; readonly part: CstNode | undefined }
  >();
  private readonly ranges = new Map<SourceId, Range>();
  /** Of what `mirror` and `repeat` make, what the text states of it. */
  private readonly origins = new Map<SourceId, AstNode>();
  /** Ids that were asked for before: of whole nodes, and of their properties by name and index. */
  private readonly known = new Map<AstNode, SourceId>();
  private readonly knownParts = new Map<AstNode, Map<string, SourceId>>();

  constructor(readonly documents: readonly TubDocument[]) {
    documents.forEach((document, i) => {
      const file = document.parseResult.value;
      const base = i * FILE_STEP;
      this.starts.set(file, { base, offset: 0 });
      slotsOf(document).forEach((slot, index) => {
        const statement = file.statements[index];
        this.starts.set(statement, { base: base + slot * STATEMENT_STEP, offset: statement.$cstNode?.offset ?? 0 });
      });
    });
  }

  /** The id of a node (its first token), or of one of its properties. */
  idOf(node: AstNode, property?: string, index = 0): SourceId {
    if (property === undefined || makingOf(node))
      return keptIn(this.known, node, () => this.register(node, undefined, undefined));
    const parts = keptIn(this.knownParts, node, () => new Map<string, SourceId>());
    return keptIn(parts, `${property} ${index}`, () => this.register(node, property, partOf(node, property, index)));
  }

  /** The ids of the file that a node stands in, from and up to; undefined for those of the main file. */
  fileIdsOf(node: AstNode): readonly [SourceId, SourceId] | undefined {
    const base = Math.floor(this.idOf(node) / FILE_STEP) * FILE_STEP;
    return base === 0 ? undefined : [base, base + FILE_STEP];
  }

  /** The id of a number as it stands in the text: inside the brackets that may be around it. */
  idOfLiteral(node: Quantity | Fraction): SourceId {
    const { $cstNode: cst } = node;
    const isBracketed = cst?.root.fullText[cst.offset] === '(';
    return isBracketed ? this.idOf(node, 'value') : this.idOf(node);
  }

  /** The id of a piece of text that is not (yet) a statement. */
  idOfRange(document: TubDocument, range: Range): SourceId {
    const offset = document.textDocument.offsetAt(range.start);
    const id = this.idAt(statementAt(document.parseResult.value, offset), offset) + BARE_RANGE;
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
    if (!entry)
      return id % FILE_STEP === 0 ? { document, range: START, node: undefined, property: undefined } : undefined;
    return { document, range: entry.part?.range ?? rangeOf(entry.node), node: entry.node, property: entry.property };
  }

  /** Where that stands of which the thing of an id is made; undefined for what the text states itself. */
  originOf(id: SourceId): SourceId | undefined {
    const origin = this.origins.get(id);
    return origin && this.idOf(origin);
  }

  isInMainFile(id: SourceId): boolean {
    return id < FILE_STEP;
  }

  private register(node: AstNode, property: string | undefined, part: CstNode | undefined): SourceId {
    const making = makingOf(node);
    if (making) {
      const { statement, serial } = making;
      const id = this.idAt(statement, (statement.$cstNode?.end ?? 0) + serial);
      this.nodes.set(id, { node: statement, property: undefined, part: undefined });
      this.origins.set(id, writtenOf(making.original));
      return id;
    }
    const slot = part === undefined && isBinary(node) ? WHOLE_SUM : 0;
    const id = this.idAt(statementOf(node), (part ?? cstOf(node))!.offset) + slot;
    if (!this.nodes.has(id)) this.nodes.set(id, { node, property: part && property, part });
    return id;
  }

  /** The id of a place in a statement, or in the file of that root when it stands before all statements. */
  private idAt(statement: AstNode, offset: number): SourceId {
    const { base, offset: from } = this.starts.get(statement) ?? { base: 0, offset: 0 };
    return base + 4 * (offset - from);
  }
}

const keptIn = <K, T>(known: Map<K, T>, key: K, make: () => T): T => {
  const found = known.get(key);
  if (found !== undefined) return found;
  const made = make();
  known.set(key, made);
  return made;
};

interface StatementStart {
  readonly base: number;
  readonly offset: number;
}

/** The statement of a file that a node is, or is part of; the file itself when it is none. */
const statementOf = (node: AstNode): AstNode => {
  let at = node;
  while (at.$container?.$container) at = at.$container;
  return at.$cstNode ? at : (at.$container ?? at);
};

/** The last statement that starts at a place or before it; the file itself before the first. */
const statementAt = (file: TubFile, offset: number): AstNode => {
  let [low, high] = [0, file.statements.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((file.statements[middle].$cstNode?.offset ?? 0) <= offset) low = middle + 1;
    else high = middle;
  }
  const found = file.statements[low - 1];
  return found?.$cstNode ? found : file;
};

/** More than four times the length of any statement. */
const STATEMENT_STEP = 2 ** 24;
const FILE_STEP = STATEMENT_STEP * MOST_SLOTS;
const BARE_RANGE = 1;
/** A sum or product starts at the token of its first operand. */
const WHOLE_SUM = 2;

/** The text of one property. All sums of a row share one piece of text, so an operator is found by what follows it. */
const partOf = (node: AstNode, property: string, index: number): CstNode | undefined => {
  if (!isBinary(node) || property !== 'operator')
    return GrammarUtils.findNodeForProperty(node.$cstNode, property, index);
  const right = node.right?.$cstNode;
  let row = node.$cstNode;
  while (row && isCompositeCstNode(row) && row.content.length === 1) row = row.content[0];
  if (!right || !row || !isCompositeCstNode(row)) return undefined;
  return row.content.filter((part) => part.text === node.operator && part.offset < right.offset).pop();
};

const START: Range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

/** A node made up while recovering from a syntax error has no text: its parent's stands for it. */
const cstOf = (node: AstNode): AstNode['$cstNode'] => {
  let at: AstNode | undefined = node;
  while (at && !at.$cstNode) at = at.$container;
  return at?.$cstNode;
};

/** What to underline: a statement from its keyword to its name; else the node up to its braces. */
const rangeOf = (node: AstNode): Range => {
  const cst = cstOf(node)!;
  let before: CstNode | undefined;
  let count = 0;
  for (const leaf of CstUtils.flattenCst(cst)) {
    if (leaf.hidden) continue;
    if (++count <= WORDS_TO_NAME && isNameOf(node, leaf)) return { start: cst.range.start, end: leaf.range.end };
    if (before && leaf.text === '{') return { start: cst.range.start, end: before.range.end };
    before = leaf;
  }
  return cst.range;
};

/** `press brake finger`: a name comes third at the latest. Not looked for further: a strip holds thousands of names. */
const WORDS_TO_NAME = 3;

const isNameOf = (node: AstNode, leaf: LeafCstNode): boolean =>
  leaf.astNode === node && GrammarUtils.findAssignment(leaf)?.feature === 'name';
