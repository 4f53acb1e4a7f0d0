import type { Dice } from './dice.js';
import { GrammarWriter } from './grammar-text.js';
import { isNumber, isWord, ODD_NUMBERS, piecesOf } from './words.js';

/** What a text is changed with: others, of which it takes pieces. */
export type Others = readonly string[];

type Mutation = (text: string, dice: Dice, others: Others) => string;

const LONGEST = 4000;

/** A text with one to five things changed, no longer than the longest of the short ones. */
export const mutated = (text: string, dice: Dice, others: Others): string => {
  let changed = text;
  for (let left = 1 + dice.below(5); left > 0; left--) {
    const next = dice.of(MUTATIONS)(changed, dice, others);
    if (next.length <= LONGEST) changed = next;
  }
  return changed;
};

const ofPieces =
  (change: (pieces: string[], dice: Dice, others: Others) => void): Mutation =>
  (text, dice, others) => {
    const pieces = piecesOf(text);
    if (pieces.length > 0) change(pieces, dice, others);
    return pieces.join('');
  };

const ofLines =
  (change: (lines: string[], at: number, dice: Dice, others: Others) => void): Mutation =>
  (text, dice, others) => {
    const lines = text.split('\n');
    change(lines, dice.below(lines.length), dice, others);
    return lines.join('\n');
  };

const placesOf = (pieces: readonly string[], is: (piece: string) => boolean): readonly number[] =>
  pieces.flatMap((piece, i) => (is(piece) ? [i] : []));

/** One of the numbers as it does not look there: odd, or about as large. */
const otherNumber = ofPieces((pieces, dice) => {
  const numbers = placesOf(pieces, isNumber);
  if (numbers.length === 0) return;
  const at = dice.of(numbers);
  const factor = dice.of([0.01, 0.1, 0.5, 0.9, 0.999, 1.001, 1.1, 2, 3, 10, 100, -1]);
  pieces[at] = dice.onceIn(3) ? dice.of(ODD_NUMBERS) : String(Number((Number(pieces[at]) * factor).toPrecision(6)));
});

const numberOfAnother = ofPieces((pieces, dice) => {
  const numbers = placesOf(pieces, isNumber);
  if (numbers.length > 1) pieces[dice.of(numbers)] = pieces[dice.of(numbers)];
});

const wordOfAnother = ofPieces((pieces, dice, others) => {
  const words = placesOf(pieces, isWord);
  const theirs = dice.onceIn(3) ? piecesOf(dice.of(others)).filter(isWord) : words.map((i) => pieces[i]);
  if (words.length > 0 && theirs.length > 0) pieces[dice.of(words)] = dice.of(theirs);
});

const WORD_PAIRS: readonly (readonly string[])[] = [
  ['falling', 'rising'],
  ['corner', 'over'],
  ['loose', 'on floor'],
  ['closed', 'open'],
  ['up', 'down', 'in', 'out'],
  ['right', 'left', 'front', 'back'],
  ['tig', 'mig'],
  ['upright', 'level'],
  ['mm', 'in', 'm', 'deg', 'L'],
  ['start', 'end', 'left', 'right', 'top'],
];

const wordOfItsKind = ofPieces((pieces, dice) => {
  const places = placesOf(pieces, (piece) => WORD_PAIRS.some((words) => words.includes(piece)));
  if (places.length === 0) return;
  const at = dice.of(places);
  pieces[at] = dice.of(WORD_PAIRS.find((words) => words.includes(pieces[at]))!);
});

const SEAM_OPTIONS: readonly string[] = [
  'tabs on floor 18 wide 14 deep every 60',
  'tabs loose 12 wide 9 deep every 30 inset 0.5 margin 5 spots 1',
  'over weld tig',
  'lap 12 rivets every 40 sealant 2',
  'lap 15 spots 2 sealant 3',
  'weld mig gap at most 0.3',
  'solder',
];

const seamOption: Mutation = (text, dice) => {
  const seams = [...text.matchAll(/^(seam [^{\n]*)(\{[^}]*\})?/gm)];
  if (seams.length === 0) return text;
  const seam = dice.of(seams);
  return text.replace(seam[0], () => `${seam[1].trimEnd()} { ${dice.of(SEAM_OPTIONS)} }`);
};

const MUTATIONS: readonly Mutation[] = [
  otherNumber,
  otherNumber,
  otherNumber,
  numberOfAnother,
  wordOfAnother,
  wordOfItsKind,
  wordOfItsKind,
  seamOption,
  ofPieces((pieces, dice) => pieces.splice(dice.below(pieces.length), 1 + dice.below(3))),
  ofPieces((pieces, dice) => {
    const at = dice.below(pieces.length);
    pieces.splice(at, 0, pieces[at]);
  }),
  ofPieces((pieces, dice) => {
    const [a, b] = [dice.below(pieces.length), dice.below(pieces.length)];
    [pieces[a], pieces[b]] = [pieces[b], pieces[a]];
  }),
  ofLines((lines, at) => lines.splice(at, 0, lines[at])),
  ofLines((lines, at) => lines.splice(at, 1)),
  ofLines((lines, at, dice) => {
    const other = dice.below(lines.length);
    [lines[at], lines[other]] = [lines[other], lines[at]];
  }),
  ofLines((lines, at, dice, others) => lines.splice(at, 0, dice.of(dice.of(others).split('\n')))),
  ofLines((lines, at, dice, others) => lines.splice(at, 0, ...dice.of(others).split('\n'))),
  ofLines((lines, at, dice) => lines.splice(at, 0, new GrammarWriter(dice, lines.join('\n')).statement())),
  ofLines((lines, at, dice) => lines.splice(at, 0, new GrammarWriter(dice, lines.join('\n')).statement())),
  (text, dice) => text.slice(0, dice.below(text.length + 1)),
  (text, dice) => {
    const at = dice.below(text.length + 1);
    return text.slice(0, at) + dice.of(SCRAPS) + text.slice(at);
  },
];

const SCRAPS: readonly string[] = [
  ...[
    '\r',
    '\r\n',
    '\t',
    '\u2028',
    '\u00a0',
    '\ufeff',
    '\0',
    '😀',
    'é',
    '°',
    "'",
    ';',
    '\\',
    '"',
    '`',
    '//',
    '/*',
    '*/',
  ],
  ...['(', ')', '{', '}', '[', ']', ',', '.', '=', '+', '-', '%', '/** ![x](y) <b> */', '// expect: nothing\r'],
];

/** A text of nothing but statements of the grammar, with sheets, points and a strip to name. */
export const written = (dice: Dice): string => {
  let text = `units ${dice.of(['mm', 'in'])}\nsheet skin = ${dice.of(['stainless', 'steel', 'aluminium'])} ${dice.of(['16', '18', '20'])} ga\n`;
  for (let left = 1 + dice.below(14); left > 0; left--) {
    const next = `${text}${new GrammarWriter(dice, text).statement()}\n`;
    if (next.length <= LONGEST) text = next;
  }
  return text;
};
