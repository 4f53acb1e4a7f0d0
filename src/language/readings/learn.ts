/** What the readings of all texts teach of the sheets that a text can see, and what writes it there. */
import { CstUtils, GrammarUtils, type AstNode, type LangiumDocuments } from 'langium';
import type { Range, TextEdit } from 'vscode-languageserver-types';
import { learnedFrom, lessonsOf, type Learned, type LearnedSheet, type Lesson } from '../../analysis/built/learned.js';
import { NOISE } from '../../analysis/geometry/tolerance.js';
import { SAME_DIE } from '../../analysis/model/tolerance.js';
import { toDeg } from '../../analysis/model/wording.js';
import { bestDieOf } from '../../analysis/report/making/made.js';
import { evaluate, type Evaluation } from '../analyse.js';
import { isMade, isSheet, isUnits, type Made, type Sheet } from '../generated/ast.js';
import type { TubDocument } from '../lower/text/sources.js';
import { madeNodes } from './bends-to-read.js';

export interface LearnedText {
  readonly document: TubDocument;
  readonly edits: readonly TextEdit[];
}

export interface LearnedAll {
  /** A line for each sheet: what will stand there. */
  readonly told: readonly string[];
  readonly texts: readonly LearnedText[];
}

interface Teaching {
  readonly evaluation: Evaluation;
  readonly lesson: Lesson;
}

/** Edits of one run, by text. */
class Edits {
  private readonly byText = new Map<TubDocument, TextEdit[]>();

  add(document: TubDocument, start: number, end: number, newText: string): void {
    const { textDocument } = document;
    if (textDocument.getText().slice(start, end) === newText) return;
    const range: Range = { start: textDocument.positionAt(start), end: textDocument.positionAt(end) };
    this.byText.set(document, [...(this.byText.get(document) ?? []), { range, newText }]);
  }

  get texts(): readonly LearnedText[] {
    return [...this.byText].map(([document, edits]) => ({ document, edits }));
  }
}

/** Nothing told: there is nothing to learn. A text that the asked one does not see teaches too, where it bends the same sheet. */
export const learnFrom = (store: LangiumDocuments, asked: Evaluation): LearnedAll => {
  const bySheet = new Map<Sheet, Teaching[]>();
  const seen = new Set<string>();
  for (const evaluation of teachers(store, asked)) {
    const { stages, sources } = evaluation;
    for (const lesson of lessonsOf(stages.tub, stages.built.strips, bestDieOf(stages))) {
      const node = sources.place(stages.tub.sheets[lesson.sheet].at)?.node;
      const read = sources.place(lesson.at);
      const key = `${read?.document.uri.toString()} ${read?.range.start.line}:${read?.range.start.character}`;
      if (!isSheet(node) || seen.has(key)) continue;
      seen.add(key);
      bySheet.set(node, [...(bySheet.get(node) ?? []), { evaluation, lesson }]);
    }
  }
  const edits = new Edits();
  const told = [...bySheet].flatMap(([sheet, teaching]) => {
    const document = asked.documents.find(({ parseResult }) => parseResult.value === sheet.$container);
    const learned = document && learnedFrom(teaching.map(({ lesson }) => lesson));
    return learned ? [tellSheet({ edits, document, sheet, teaching }, learned)] : [];
  });
  return { told, texts: edits.texts };
};

/** The asked text first, then all that state what is made. */
const teachers = (store: LangiumDocuments, asked: Evaluation): Evaluation[] => {
  const others = store.all
    .toArray()
    .filter((document) => document !== asked.document && isTeacher(document as TubDocument));
  return [asked, ...others.map((document) => evaluate(store, document as TubDocument))];
};

const isTeacher = ({ parseResult }: TubDocument): boolean => (parseResult.value.statements ?? []).some(isMade);

interface Telling {
  readonly edits: Edits;
  readonly document: TubDocument;
  readonly sheet: Sheet;
  readonly teaching: readonly Teaching[];
}

const tellSheet = (telling: Telling, { springbacks, kFactor }: LearnedSheet): string => {
  const { edits, document, sheet } = telling;
  const end = sheet.$cstNode!.end;
  const texts: string[] = [];
  const added: string[] = [];
  for (const { die, learned } of springbacks) {
    const text = springbackText(document, die, learned);
    texts.push(text);
    const before = statedSpringback(telling, die)?.$cstNode;
    if (before) edits.add(document, before.offset, before.end, text);
    else added.push(text);
  }
  if (kFactor) texts.push(kText(kFactor), ...writeK(telling, kFactor, added));
  if (added.length > 0) edits.add(document, end, end, added.map((text) => `  ${text}`).join(''));
  return `sheet ${sheet.name ?? '?'}: ${texts.join(', ')}`;
};

/** Told with as many decimals as it is worth; a spread of none is that of one reading. */
const decimalsFor = (worth: number | undefined, least: number): number =>
  worth === undefined || worth >= 10 ** -least ? least : least + 1;

/** What one more bend may be off: the half width of an even spread of the same standard deviation. */
const withinOf = (deviation: number): number => Math.sqrt(3) * deviation;

const upTo = (value: number, decimals: number): string =>
  String(Number((Math.ceil(value * 10 ** decimals - NOISE) / 10 ** decimals).toFixed(decimals)));

const springbackText = (document: TubDocument, die: number | undefined, { value, scatter, count }: Learned): string => {
  const one = scatter === undefined ? undefined : toDeg(withinOf(scatter * Math.sqrt(1 + 1 / count)));
  const decimals = decimalsFor(one, 1);
  const isInMm = (document.parseResult.value.statements ?? []).find(isUnits)?.unit === 'mm';
  const inDie = die === undefined ? '' : ` in ${Number(die.toFixed(2))}${isInMm ? '' : ' mm'} die`;
  const within = one === undefined ? '' : ` within ${upTo(one, decimals)} deg`;
  return `springback ${Number(toDeg(value).toFixed(decimals))} deg${inDie}${within} from ${count} ${count === 1 ? 'bend' : 'bends'}`;
};

const kText = ({ value, deviation, count }: Learned): string => {
  const one = deviation === undefined ? undefined : withinOf(deviation);
  const decimals = decimalsFor(one, 2);
  const within = one === undefined ? '' : ` within ${upTo(one, decimals)}`;
  return `k ${Number(value.toFixed(decimals))}${within} from ${count} ${count === 1 ? 'leg' : 'legs'}`;
};

const statedSpringback = ({ sheet, teaching }: Telling, die: number | undefined): AstNode | undefined => {
  const { evaluation, lesson } = teaching[0];
  const stated = evaluation.stages.tub.sheets[lesson.sheet].springbacks ?? [];
  const index = stated.findIndex((each) =>
    die === undefined || each.die === undefined ? each.die === die : Math.abs(each.die - die) <= SAME_DIE,
  );
  return index < 0 ? undefined : sheet.springbacks[index];
};

/** K where it can be written, with what has to be said of it. */
const writeK = (telling: Telling, learned: Learned, added: string[]): string[] => {
  const { edits, document, sheet, teaching } = telling;
  if (sheet.coupon.length > 0) return ['(its coupon stands before K, which is not written)'];
  const text = kText(learned);
  const place = statedK(sheet);
  if (place) edits.add(document, ...place, text);
  else added.push(text);
  return teaching.flatMap(({ evaluation }) => keepCutK(edits, evaluation, sheet));
};

/** From `k` to the end of what it is worth. */
const statedK = (sheet: Sheet): [number, number] | undefined => {
  const root = sheet.$cstNode;
  const start = GrammarUtils.findNodeForKeyword(root, 'k');
  const of = (property: keyof Sheet): number | undefined => GrammarUtils.findNodeForProperty(root, property)?.end;
  const counted = GrammarUtils.findNodeForProperty(root, 'kFrom');
  const end = (counted && (CstUtils.getNextNode(counted, false)?.end ?? counted.end)) ?? of('kWithin') ?? of('k');
  return start && end !== undefined ? [start.offset, end] : undefined;
};

/** Decimals of K that is kept: a ten thousandth moves no bend line by a micrometre. */
const K_DECIMALS = 4;
const kept = new WeakMap<Edits, Set<Made>>();

/** What is cut was cut with the K that stood there: its `made` keeps it, so that its bend lines stay where they are. */
const keepCutK = (edits: Edits, evaluation: Evaluation, sheet: Sheet): string[] => {
  const { stages, sources, documents } = evaluation;
  const done = kept.get(edits) ?? new Set<Made>();
  kept.set(edits, done);
  const shape = stages.shape();
  return (stages.tub.made ?? []).flatMap((made): string[] => {
    const node = madeNodes(evaluation).find((each) => sources.idOf(each, 'word') === made.at);
    const document = documents.find(({ parseResult }) => parseResult.value === node?.$container);
    const isOfSheet = sources.place(stages.tub.sheets[stages.tub.panels[made.panel].sheet].at)?.node === sheet;
    const part = stages.parts().find(({ faces }) => faces.includes(made.panel));
    const [first, ...others] = (part?.bends ?? []).map((bend) => shape.bends[bend]);
    if (!node || !document || !isOfSheet || done.has(node) || made.cutK !== undefined || !first) return [];
    done.add(node);
    if (others.some(({ kFactor }) => Math.abs(kFactor - first.kFactor) > NOISE))
      return [
        `(${made.name} was cut with several K and is judged with the new one: state \`cut with k\` in its \`made\`)`,
      ];
    const end = node.$cstNode!.end - 1;
    const isOneLine = !node.$cstNode!.text.includes('\n');
    const text = `cut with k ${Number(first.kFactor.toFixed(K_DECIMALS))}`;
    edits.add(document, end, end, isOneLine ? ` ${text} ` : `    ${text}\n`);
    return [];
  });
};
