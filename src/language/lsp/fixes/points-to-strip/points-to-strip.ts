import { TextDocument, type AstNode, type LangiumDocument } from 'langium';
import type { CodeAction, Range, TextEdit } from 'vscode-languageserver-types';
import type { Evaluation } from '../../../analyse.js';
import { isPanel, isPoint, isVariant, type Let, type Panel, type Point } from '../../../generated/ast.js';
import { groupOf, nameOf } from '../../../lower/references.js';
import { writtenOf } from '../../../made-groups.js';
import { NameTable } from '../../../names/names.js';
import type { TubDocument } from '../../../lower/text/sources.js';
import { evaluatedStatementsOf, statementsOf } from '../../../lower/text/statements.js';
import type { Services } from '../../../services.js';
import { readApart } from '../../../workspace/open-texts.js';
import { cutsOf, type Span } from './cuts.js';
import { rowAt, type Row } from './row.js';
import { statesSameTub, valuesLost, type NewNames } from './same-tub.js';
import { coordinates, hasNotes, namesPoint, stripText, tripleOf, type LegNotes } from './strip-text.js';

/** Offered on panels by points that are bent into a row which is a strip, where the text then states the same tub. */
export function* pointsToStrip(
  evaluation: Evaluation,
  range: Range,
  kind: string,
  services: Services,
): Iterable<CodeAction> {
  const row = rowAt(evaluation, range);
  const { document } = evaluation;
  if (!row || [...row.panels, ...row.bends].some(({ $cstNode }) => !$cstNode || hasNotes($cstNode.text))) return;
  const name = newName(row, document);
  const store = services.shared.workspace.LangiumDocuments;
  const names = newNames(row, document, name);
  for (const isFull of [false, true]) {
    const rewrite = new Rewrite(row, document, [...store.all], name, isFull);
    const text = TextDocument.applyEdits(document.textDocument, [...rewrite.own]);
    const candidate = readApart(services, document.uri, text);
    if (!statesSameTub(store, document, candidate, names)) continue;
    const lost = valuesLost(store, row, document, candidate, names);
    if (lost.some((value) => isToChange(value, document))) return;
    yield actionOf(row, lost, rewrite, { document, text, name, kind });
    return;
  }
}

/** By their old names as one refers to them from anywhere, those that groups are made with included. */
const newNames = (row: Row, { parseResult }: TubDocument, name: string): NewNames => {
  const panels = [...evaluatedStatementsOf(parseResult.value)]
    .filter(isPanel)
    .filter((each) => row.panels.some((panel) => panel === writtenOf(each)));
  return new Map(
    panels.map((panel) => {
      const group = groupOf(panel);
      return [nameOf(panel), `${group ? `${group.name}.` : ''}${name}.${panel.name}`];
    }),
  );
};

interface Told {
  readonly document: TubDocument;
  readonly text: string;
  readonly name: string;
  readonly kind: string;
}

const actionOf = (
  row: Row,
  lost: readonly Let[],
  rewrite: Rewrite,
  { document, text, name, kind }: Told,
): CodeAction => {
  const listed = (nodes: readonly { readonly name: string }[]): string =>
    nodes.map((each) => `\`${each.name}\``).join(', ');
  const uri = document.uri.toString();
  const at = TextDocument.create(uri, 'tub', 0, text).positionAt(text.indexOf(`strip ${name} of`) + 'strip '.length);
  const nameRange = { start: at, end: { ...at, character: at.character + name.length } };
  return {
    title: `Make ${listed(row.panels)} one strip${lost.length > 0 ? `, which no longer follows ${listed(lost)}` : ''}`,
    kind,
    edit: { changes: { [uri]: [...rewrite.own], ...rewrite.elsewhere } },
    command: { title: 'Name the strip', command: 'tubwright.renameAt', arguments: [uri, nameRange] },
  };
};

/** A value that is free, or that a variant has otherwise, is there to be changed. */
const isToChange = (value: Let, { parseResult }: TubDocument): boolean =>
  value.free !== undefined ||
  parseResult.value.statements.some((each) => isVariant(each) && each.values.some(({ of }) => of.ref === value));

/** All edits that put a strip in place of a row of panels. */
class Rewrite {
  readonly own: readonly TextEdit[];
  /** In texts that use this one. */
  readonly elsewhere: Readonly<Record<string, TextEdit[]>>;
  private readonly source: string;
  private readonly users: ReadonlyMap<AstNode, readonly AstNode[]>;
  private readonly gone: ReadonlySet<AstNode>;

  constructor(
    private readonly row: Row,
    private readonly document: TubDocument,
    documents: readonly LangiumDocument[],
    private readonly name: string,
    /** Legs are called by their strip everywhere. */
    private readonly isFull: boolean,
  ) {
    this.source = document.textDocument.getText();
    this.users = usersIn(documents);
    const from = this.fromText();
    const points = this.pointsToDrop(from.needs);
    this.gone = new Set<AstNode>([...row.panels, ...row.bends, ...points]);
    const first = [...row.panels].sort((a, b) => spanOf(a).start - spanOf(b).start)[0];
    const notes = row.panels.map((panel) => this.notesOf(panel, panel === first));
    const cuts = [...row.panels.filter((each) => each !== first), ...row.bends, ...points].map((each) =>
      this.cutOf(each),
    );
    const indent = /[ \t]*$/.exec(this.source.slice(0, spanOf(first).start))![0];
    const strip = stripText(
      row,
      name,
      from.text,
      notes,
      /\n$|^$/.test(this.source.slice(0, spanOf(first).start - indent.length)) ? indent : '',
    );
    const place = this.cutOf(first, spanOf(first).start);
    this.own = [
      this.edit(place, strip),
      ...cutsOf(this.source, cuts).map((cut) => this.edit(cut, '')),
      ...this.followed(document),
    ];
    const others = documents.filter((each) => each !== document);
    this.elsewhere = Object.fromEntries(
      others.map((each) => [each.uri.toString(), this.followed(each)] as const).filter(([, edits]) => edits.length > 0),
    );
  }

  private edit({ start, end }: Span, newText: string): TextEdit {
    const { textDocument } = this.document;
    return { range: { start: textDocument.positionAt(start), end: textDocument.positionAt(end) }, newText };
  }

  /** A panel goes with its notes, which its leg has. */
  private cutOf(node: AstNode, from = this.notesStart(node)): Span {
    const { start, end } = spanOf(node);
    if (!this.row.panels.some((each) => each === node)) return { start, end };
    return { start: Math.min(from, start), end: end + behind(this.source, end).length };
  }

  /** Where lines of comment begin that stand right above. */
  private notesStart(node: AstNode): number {
    const { start } = spanOf(node);
    const above = /(?:^|\n)((?:[ \t]*\/\/[^\n]*\n)+)[ \t]*$/.exec(this.source.slice(0, start));
    return above ? start - above[0].length + (above[0].startsWith('\n') ? 1 : 0) : start;
  }

  private notesOf(panel: Panel, isFirst: boolean): LegNotes {
    const { start, end } = spanOf(panel);
    const above = isFirst ? '' : this.source.slice(this.notesStart(panel), start);
    const lines = above
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line !== '');
    return { above: lines, behind: behind(this.source, end).trim() };
  }

  /** Where the strip begins, by the name of the point or as that is stated; and which point has to stay for it. */
  private fromText(): { readonly text: string; readonly needs: Point | undefined } {
    const { folds, from } = this.row.strip;
    const corner = this.row.panels[folds[0].face].corners[folds[0].left];
    const point = corner.point?.ref;
    const stated = isPoint(point) ? point.value?.$cstNode?.text : corner.point ? undefined : corner.$cstNode?.text;
    if (isPoint(point) && this.usersOf(point).some((each) => !this.isOfRow(each)))
      return { text: point.name, needs: point };
    const triple = tripleOf(corner);
    const isWhole = triple?.every((each) => !namesPoint(each));
    if (stated && isWhole && !hasNotes(stated) && !stated.includes('\n')) return { text: stated, needs: undefined };
    if (isPoint(point)) return { text: point.name, needs: point };
    return {
      text: corner.point ? corner.point.$refText : coordinates(from, this.document.parseResult.value),
      needs: undefined,
    };
  }

  /** Points that nothing but the row, and other such points, are made from. */
  private pointsToDrop(needed: Point | undefined): readonly Point[] {
    const used = new Set(this.row.panels.flatMap(({ corners }) => corners.map(({ point }) => point?.ref)));
    const all = [...statementsOf(this.document.parseResult.value)].filter(isPoint);
    const users = new Map(all.map((point) => [point, this.usersOf(point)]));
    const gone = new Set<AstNode>();
    for (let isMore = true; isMore;) {
      isMore = false;
      for (const point of all) {
        if (gone.has(point) || point === needed || !point.$cstNode || hasNotes(point.$cstNode.text)) continue;
        const by = users.get(point)!;
        const isOfUs = used.has(point) || by.some((each) => gone.has(each));
        if (!isOfUs || !by.every((each) => this.isOfRow(each) || gone.has(each))) continue;
        gone.add(point);
        isMore = true;
      }
    }
    return all.filter((point) => gone.has(point));
  }

  private isOfRow(statement: AstNode): boolean {
    return this.row.panels.some((each) => each === statement);
  }

  /** The statements that refer to a point. */
  private usersOf(point: Point): readonly AstNode[] {
    return this.users.get(point) ?? [];
  }

  /** What refers to a panel of the row, outside of it. */
  private followed(document: LangiumDocument): TextEdit[] {
    return document.references.flatMap((each) => {
      const target = 'ref' in each ? each.ref : undefined;
      const node = each.$refNode;
      if (!target || !node || !this.isOfRow(writtenOf(target))) return [];
      if (this.gone.has(statementAround(node.astNode)!)) return [];
      const isMember = 'leg' in node.astNode && (node.astNode.leg as unknown) === each;
      if (!isMember && !this.isFull && document === this.document) return [];
      return [{ range: { start: node.range.start, end: node.range.start }, newText: `${this.name}.` }];
    });
  }
}

/** By what is referred to, the statements that do. */
const usersIn = (documents: readonly LangiumDocument[]): ReadonlyMap<AstNode, readonly AstNode[]> => {
  const users = new Map<AstNode, AstNode[]>();
  for (const each of documents.flatMap(({ references }) => references)) {
    const target = 'ref' in each ? each.ref : undefined;
    const user = target && each.$refNode ? statementAround(each.$refNode.astNode) : undefined;
    if (!target || !user) continue;
    const known = users.get(target);
    if (known) known.push(user);
    else users.set(target, [user]);
  }
  return users;
};

const spanOf = ({ $cstNode: node }: AstNode): Span => ({ start: node!.offset, end: node!.end });

/** A comment that ends the line. */
const behind = (text: string, end: number): string => /^[ \t]*\/\/[^\r\n]*/.exec(text.slice(end))?.[0] ?? '';

/** The statement of a file or of a group that a node is part of. */
const statementAround = (node: AstNode): AstNode | undefined => {
  let at: AstNode = node;
  while (at.$container && at.$container.$type !== 'TubFile' && at.$container.$type !== 'Group') at = at.$container;
  return at;
};

const newName = ({ panels }: Row, document: TubDocument): string => {
  const table = document.localSymbols;
  const taken = new Set(table instanceof NameTable ? [...table.all('thing')].map(({ name }) => name) : []);
  for (const { name } of panels) taken.add(name);
  const last = panels[panels.length - 1].name;
  const wanted = `${panels[0].name}To${last[0].toUpperCase()}${last.slice(1)}`;
  for (let i = 1; ; i++) {
    const name = i === 1 ? wanted : `${wanted}${i}`;
    if (!taken.has(name)) return name;
  }
};
