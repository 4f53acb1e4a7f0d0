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

/** The text in letters that the faces have; an empty box stands for any other. */
export const printable = (text: string): string =>
  [...composed(text)].map((char) => (faceOf(char, 'plain') ? char : LACKING)).join('');

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
export const widthOf = (text: string, size: number, weight: Weight = 'plain'): number => {
  let sum = 0;
  for (const char of printable(text)) {
    const code = char.codePointAt(0) ?? 0;
    sum += faces()[weight].get(code) ?? faces().symbol.get(code) ?? 0;
  }
  return (sum * size) / 1000;
};

/** The text in lines no wider than `width`; a word that is too long by itself is cut. */
export const wrapText = (text: string, width: number, size: number, weight: Weight = 'plain'): string[] => {
  const lines: string[] = [];
  let current = '';
  for (const word of printable(text)
    .split(' ')
    .flatMap((whole) => cutWord(whole, width, size, weight))) {
    const longer = current === '' ? word : `${current} ${word}`;
    if (current !== '' && widthOf(longer, size, weight) > width) {
      lines.push(current);
      current = word;
    } else current = longer;
  }
  return [...lines, current];
};

const cutWord = (word: string, width: number, size: number, weight: Weight): string[] => {
  if (widthOf(word, size, weight) <= width) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const char of word) {
    if (piece !== '' && widthOf(piece + char, size, weight) > width) {
      pieces.push(piece);
      piece = '';
    }
    piece += char;
  }
  return [...pieces, piece];
};
