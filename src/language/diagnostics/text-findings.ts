import { UriUtils, type AstNode, type LangiumDocuments } from 'langium';
import {
  isExistingFile,
  isGroup,
  isLeg,
  isMirror,
  isRef,
  isRepeat,
  isStrip,
  type Call,
  type ExistingFile,
  type Group,
  type GroupStatement,
  type Member,
  type Ref,
} from '../generated/ast.js';
import { roundOfUses, thingFiles, usedFiles } from '../workspace/imports.js';
import { tableOfThing } from '../names/scope.js';
import type { Reports } from '../lower/text/report.js';
import type { SourceTable, TubDocument } from '../lower/text/sources.js';
import { NameTable, nameSpaceOf } from '../names/names.js';
import { nearestName } from '../names/nearest-name.js';
import { statementsOf } from '../lower/text/statements.js';
import { nameOf } from '../lower/references.js';
import { reportSyntax } from './syntax-findings.js';

/** A text of two bytes a character, read as one of one: told alone, as nothing else in it means anything. */
export const reportEncoding = (document: TubDocument, sources: SourceTable, reports: Reports): boolean => {
  const start = document.textDocument.getText().slice(0, 64);
  const isWide = /^(\uFFFD\uFFFD|\0?[\x09-\x7e]\0[\x09-\x7e]\0?)/.test(start) && start.includes('\0');
  if (!isWide) return false;
  reports.add(
    'text/syntax',
    sources.startOf(0),
    'The file is saved as UTF-16, which cannot be read; it needs to be saved as UTF-8',
  );
  return true;
};

/** What one file's text has wrong before it is evaluated: characters, syntax, names, duplicates, used files. */
export const reportText = (
  documents: LangiumDocuments,
  document: TubDocument,
  sources: SourceTable,
  reports: Reports,
): void => {
  reportSyntax(document, sources, reports);
  reportUnknownNames(documents, document, sources, reports);
  reportDuplicates(document, sources, reports);
  reportUses(documents, document, sources, reports);
  reportThings(documents, document, sources, reports);
};

/** A likely name is looked for this often: where more are unknown, a whole file is missing, not a letter. */
const MOST_LOOKED_AT = 20;

const reportUnknownNames = (
  documents: LangiumDocuments,
  document: TubDocument,
  sources: SourceTable,
  reports: Reports,
): void => {
  const table = document.localSymbols instanceof NameTable ? document.localSymbols : undefined;
  let unknown = 0;
  for (const reference of document.references) {
    const error = reference.error;
    if (!error || error.info.reference.$refText === '') continue;
    const name = error.info.reference.$refText;
    const { container, property, index } = error.info;
    if (property === 'leg' && isRef(container) && !container.target?.ref) continue;
    const at = sources.idOf(container, property, index);
    const legs = isRef(container) && property === 'target' ? table?.unclear.get(name) : undefined;
    if (legs && legs.length > 0) {
      const full = legs.map((leg) => `\`${nameOf(leg)}\``);
      const holders = legs.every(isLeg) ? `is a leg of ${legs.length} strips` : `is a name in ${legs.length} places`;
      reports.add('text/unclear-name', at, `\`${name}\` ${holders}; it needs to be ${full.join(' or ')}`, {
        related: legs.map((leg, i) => ({ at: sources.idOf(leg), message: full[i] })),
      });
      continue;
    }
    const isCalled =
      container.$type === 'Named' &&
      isBracketAt(document.textDocument.getText(), error.info.reference.$refNode?.end ?? 0);
    const thing = isRef(container) && isExistingFile(container.target?.ref) ? container.target.ref : undefined;
    const names = thing && (property === 'leg' || property === 'leg2') ? tableOfThing(documents, thing) : table;
    const isWorthLooking = unknown++ < MOST_LOOKED_AT;
    const candidates = !isWorthLooking ? [] : isCalled ? FUNCTIONS : namesFor(names, container, property);
    const nearest = nearestName(name, candidates);
    const wanted = isCalled
      ? 'a function'
      : thing && property === 'leg'
        ? wantedOf(thing, names !== undefined)
        : wantedAt(container.$type, property);
    reports.add(
      'text/unknown-name',
      at,
      `\`${name}\` is not the name of ${wanted}${nearest ? `; did you mean \`${nearest}\`` : ''}`,
      {
        values: nearest ? { name, nearest } : { name },
      },
    );
  }
};

const FUNCTIONS: readonly Call['function'][] = [
  'sin',
  'cos',
  'tan',
  'asin',
  'acos',
  'atan',
  'atan2',
  'sqrt',
  'min',
  'max',
  'abs',
  'round',
  'mid',
  'toward',
];

/** Triangles and drawn lines have no names. */
const wantedOf = ({ path }: ExistingFile, hasNames: boolean): string =>
  hasNames
    ? `a panel of "${path}"`
    : 'anything here: a thing of such a file is one piece; what is joined to it needs an `existing` panel of its own, with its `metal` side';

const isBracketAt = (text: string, offset: number): boolean => {
  const bracket = /\s*\(/y;
  bracket.lastIndex = offset;
  return bracket.test(text);
};

const wantedAt = (type: string, property: string): string => {
  if (property === 'sheet') return 'a sheet here';
  if (property === 'leg') return 'a leg of that strip, nor of an edge';
  if (type === 'Mirror' || type === 'Repeat') return 'a group of this file';
  if (type === 'Ref' && property === 'target') return 'a panel, strip or other part here';
  return type === 'Corner' || type === 'Ref' ? 'a point here' : 'a value here: no `let` or `point` states it';
};

const namesFor = (table: NameTable | undefined, container: object, property: string): readonly string[] => {
  if (!table) return [];
  if (property === 'sheet') return [...table.all('sheet')].map((each) => each.name);
  if (isRef(container) && (property === 'leg' || property === 'leg2')) return membersFor(table, container, property);
  if (isMirror(container) || isRepeat(container))
    return [...table.named('thing')].flatMap(({ name, node }) => (isGroup(node) ? [name] : []));
  const isThing = isRef(container) && property === 'target';
  return [...table.all(isThing ? 'thing' : 'value')].map((each) => each.name);
};

/** Names within a strip or a group of this file. */
const membersFor = (table: NameTable, { target, leg }: Ref, property: 'leg' | 'leg2'): readonly string[] => {
  const whole = property === 'leg' ? target?.ref : leg?.ref;
  if (isExistingFile(whole)) return [...table.all('thing')].map(({ name }) => name);
  const members = isStrip(whole) ? table.legs(whole) : isGroup(whole) ? table.members(whole) : [];
  return [...members].map(({ name }) => name);
};

/** Panels of used files stand in the same tub: two of one name could not be told apart. */
export const reportSharedNames = (documents: readonly TubDocument[], sources: SourceTable, reports: Reports): void => {
  if (documents.length < 2) return;
  const known = new Map<string, AstNode>();
  for (const { localSymbols } of documents) {
    if (!(localSymbols instanceof NameTable)) continue;
    for (const { name, node } of localSymbols.named('thing')) {
      const first = known.get(name);
      if (!first || !node) {
        if (node) known.set(name, node);
        continue;
      }
      reports.add(
        'text/duplicate-name',
        sources.idOf(node, 'name'),
        `\`${name}\` is stated in two files that are used together; every name needs to be its own`,
        {
          about: [name],
          related: [{ at: sources.idOf(first), message: `First \`${name}\`` }],
        },
      );
    }
  }
};

/** Edges have these names, so that `floor.left` could mean two things. */
const EDGE_WORDS: ReadonlySet<string> = new Set(['start', 'end', 'left', 'right', 'top']);

const reportDuplicates = (document: TubDocument, sources: SourceTable, reports: Reports): void => {
  const table = document.localSymbols;
  if (!(table instanceof NameTable)) return;
  for (const { first, second, name } of table.duplicates) {
    reports.add(
      'text/duplicate-name',
      sources.idOf(second, 'name'),
      `\`${name}\` is stated twice; every ${isLeg(second) ? 'leg of a strip' : 'name'} needs to be its own`,
      {
        about: [name],
        related: [{ at: sources.idOf(first), message: `First \`${name}\`` }],
      },
    );
  }
  for (const whole of statementsOf(document.parseResult.value)) {
    const members: readonly Member[] = isStrip(whole) ? (whole.legs ?? []) : isGroup(whole) ? membersOf(whole) : [];
    for (const member of members) {
      if (!EDGE_WORDS.has(member.name ?? '')) continue;
      reports.add(
        'text/reserved-name',
        sources.idOf(member, 'name'),
        `${isLeg(member) ? 'Leg ' : ''}\`${member.name}\` has the name of an edge, so \`${nameOf(member)}\` would mean two things; it needs another name`,
        { about: [nameOf(member)] },
      );
    }
  }
};

const membersOf = (group: Group): readonly Member[] =>
  (group.statements ?? []).filter(
    (statement): statement is GroupStatement & Member => nameSpaceOf(statement) === 'thing',
  );

const reportUses = (
  documents: LangiumDocuments,
  document: TubDocument,
  sources: SourceTable,
  reports: Reports,
): void => {
  for (const { statement, uri, problem } of usedFiles(documents, document)) {
    const at = (): number => sources.idOf(statement, 'path');
    if (problem === 'not-a-tub') {
      reports.add(
        'use/not-a-tub',
        at(),
        `"${statement.path}" is not a tub file; \`use\` needs one whose name ends in .tub`,
      );
    } else if (problem === 'not-saved') {
      reports.add(
        'use/missing-file',
        at(),
        `"${statement.path}" cannot be found from a text that is not saved; save it beside that file`,
      );
    } else if (problem === 'outside-workspace') {
      reports.add(
        'use/outside-workspace',
        at(),
        `"${statement.path}" lies outside the open folder; \`use\` needs a file inside it`,
      );
    } else if (uri && !documents.hasDocument(uri)) {
      reports.add('use/missing-file', at(), `"${statement.path}" is not there; \`use\` needs a file that exists`);
    } else if (uri) {
      const round = roundOfUses(documents, document, uri);
      if (round)
        reports.add(
          'use/cycle',
          at(),
          `This file uses itself: ${[document.uri, ...round].map((each) => UriUtils.basename(each)).join(' -> ')}`,
        );
    }
  }
};

const reportThings = (
  documents: LangiumDocuments,
  document: TubDocument,
  sources: SourceTable,
  reports: Reports,
): void => {
  for (const { statement, problem } of thingFiles(documents, document)) {
    const at = (): number => sources.idOf(statement, 'path');
    const path = `"${statement.path}"`;
    if (problem === 'not-saved')
      reports.add(
        'existing/missing-file',
        at(),
        `${path} cannot be found from a text that is not saved; save it beside that file`,
      );
    if (problem === 'outside-workspace')
      reports.add(
        'existing/outside-workspace',
        at(),
        `${path} lies outside the open folder; \`from\` needs a file inside it`,
      );
  }
};

/** The documents whose own text has errors: what they state may be incomplete. */
export const errorCountOf = (document: TubDocument): number =>
  document.parseResult.lexerErrors.length +
  document.parseResult.parserErrors.length +
  document.references.filter((reference) => reference.error).length;
