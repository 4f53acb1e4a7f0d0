import { readPalette } from './palette.js';

const known = new Map<string, number>();
let context: CanvasRenderingContext2D | null | undefined;

/** px that words take in the font of the page, measured once for each size. */
export const textWidth = (words: string, size: number, isBold = false): number => {
  const key = `${size} ${isBold} ${words}`;
  const seen = known.get(key);
  if (seen !== undefined) return seen;
  context ??= document.createElement('canvas').getContext('2d');
  // A guess where nothing can be measured.
  if (!context) return words.length * size * 0.58;
  context.font = `${isBold ? '600 ' : ''}${size}px ${readPalette().font}`;
  const { width } = context.measureText(words);
  if (known.size > MOST) known.clear();
  known.set(key, width);
  return width;
};

const MOST = 5000;

/** As much of the words as the room takes, px, and a sign that there were more. */
export const shortened = (words: string, size: number, room: number): string => {
  if (textWidth(words, size) <= room) return words;
  const letters = [...words];
  while (letters.length > 1 && textWidth(`${letters.join('')}…`, size) > room) letters.pop();
  return `${letters.join('').trimEnd()}…`;
};
