/** Width and wrapping of words in the faces that papers are set in. */
import { boldWidths, plainWidths, symbolWidths } from './font-widths.js';

/** Stands for a letter that no face has. */
const LACKING = '\u25a1';

export type Weight = 'plain' | 'bold';

/** The face that sets a letter: `symbol` where the text face has none. */
export type Face = Weight | 'symbol';

type Widths = ReadonlyMap<number, number>;

const widthsFrom = (runs: string): Widths =>
  new Map(
    runs.split(';').flatMap((run) => {
      const [start, widths] = run.split(':');
      return widths.split(',').map((width, i): [number, number] => [parseInt(start, 16) + i, Number(width)]);
    }),
  );

let read: Readonly<Record<Face, Widths>> | undefined;

/** Read when first asked for: most runs print nothing. */
const faces = (): Readonly<Record<Face, Widths>> =>
  (read ??= {
    plain: widthsFrom(plainWidths),
    bold: widthsFrom(boldWidths),
    symbol: widthsFrom(symbolWidths),
  });

const faceOf = (char: string, weight: Weight): Face | undefined => {
  const code = char.codePointAt(0) ?? 0;
  if (faces()[weight].has(code)) return weight;
  return faces().symbol.has(code) ? 'symbol' : undefined;
};

const composed = (text: string): string => text.normalize('NFC').replace(/[\u0000-\u001f\u007f-\u009f]/g, ' ');

/** Letters that every face has. */
const PLAIN_LETTERS = /^[ -~]*$/;

/** The text in letters that the faces have; an empty box stands for any other. */
export const printable = (text: string): string =>
  PLAIN_LETTERS.test(text)
    ? text
    : [...composed(text)].map((char) => (faceOf(char, 'plain') ? char : LACKING)).join('');

/** Letters of the text that the faces lack, each once, in the order in which they come. */
export const lettersLacking = (text: string): string =>
  [...new Set(composed(text))].filter((char) => !faceOf(char, 'plain')).join('');

export interface Run {
  readonly face: Face;
  readonly text: string;
}

/** Printable text in runs of one face. */
export const runsOf = (text: string, weight: Weight): Run[] => {
  const runs: { face: Face; text: string }[] = [];
  for (const char of printable(text)) {
    const face = faceOf(char, weight) ?? weight;
    const last = runs.at(-1);
    if (last?.face === face) last.text += char;
    else runs.push({ face, text: char });
  }
  return runs;
};

/** Width of printable text at a type height, same unit as the height. No pairs of letters are set closer. */
export const widthOf = (text: string, size: number, weight: Weight = 'plain'): number =>
  (thousandths(printable(text), weight) * size) / 1000;

/** Of the type's height: whole numbers, so that a line is just as wide as its words and spaces. */
const thousandths = (printed: string, weight: Weight): number => {
  const { [weight]: own, symbol } = faces();
  let sum = 0;
  for (const char of printed) {
    const code = char.codePointAt(0) ?? 0;
    sum += own.get(code) ?? symbol.get(code) ?? 0;
  }
  return sum;
};

/** A diameter stays with its sign. */
const SPACES = /(?<!\u00d8) /;

/** The text in lines no wider than `width`; a word that is too long by itself is cut. */
export const wrapText = (text: string, width: number, size: number, weight: Weight = 'plain'): string[] => {
  const room = (width * 1000) / size;
  const space = thousandths(' ', weight);
  const lines: string[] = [];
  let [current, taken] = ['', 0];
  for (const word of printable(text)
    .split(SPACES)
    .flatMap((whole) => cutWord(whole, room, weight))) {
    const more = thousandths(word, weight);
    if (current === '') [current, taken] = [word, more];
    else if (taken + space + more > room) {
      lines.push(current);
      [current, taken] = [word, more];
    } else [current, taken] = [`${current} ${word}`, taken + space + more];
  }
  return [...lines, current];
};

/** After what a name of several is cut first: `lower.drop.` / `start`. */
const SYLLABLES = /[^.,;:/_-]*[.,;:/_-]*/g;

/** A word in pieces that fit: between its names where it has several, else wherever it must. */
const cutWord = (word: string, room: number, weight: Weight): string[] => {
  if (thousandths(word, weight) <= room) return [word];
  const parts = (word.match(SYLLABLES) ?? []).filter((part) => part !== '');
  const small = parts.flatMap((part) => (thousandths(part, weight) <= room ? [part] : [...part]));
  const pieces: string[] = [];
  let [piece, taken] = ['', 0];
  for (const part of small) {
    const more = thousandths(part, weight);
    if (piece !== '' && taken + more > room) {
      pieces.push(piece);
      [piece, taken] = ['', 0];
    }
    piece += part;
    taken += more;
  }
  return [...pieces, piece];
};
