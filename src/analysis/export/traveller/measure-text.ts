/** Width and wrapping of words in the two faces of the traveller. */
import { boldWidths, plainWidths } from './font-widths.js';

const REPLACED: Readonly<Record<string, string>> = {
  '\u2018': "'",
  '\u2019': "'",
  '\u201c': '"',
  '\u201d': '"',
  '\u2013': '-',
  '\u2014': '-',
  '\u2026': '...',
  '\u2212': '-',
  '\u2022': '\u00b7',
};

/** The text in characters that the faces have; a question mark stands for any other. */
export const printable = (text: string): string =>
  [...text.normalize('NFC')]
    .map((char) => REPLACED[char] ?? char)
    .join('')
    .replace(/[\u0000-\u001f\u007f-\u009f]/g, ' ')
    .replace(/[^\u0020-\u007e\u00a0-\u00ff]/gu, '?');

/** Letters of the text that the faces lack, each once, in the order in which they come. */
export const lettersLacking = (text: string): string =>
  [...new Set(text.normalize('NFC'))].filter((char) => char !== '?' && printable(char) === '?').join('');

export type Weight = 'plain' | 'bold';

/** Width of printable text at a type height, same unit as the height. */
export const widthOf = (text: string, size: number, weight: Weight = 'plain'): number => {
  const widths = weight === 'bold' ? boldWidths : plainWidths;
  let sum = 0;
  for (const char of printable(text)) {
    const code = char.charCodeAt(0);
    sum += (code < 127 ? widths.ascii[code - 32] : widths.latin[code - 160]) ?? 0;
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
