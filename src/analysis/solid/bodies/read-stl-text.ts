/** The corners of an STL file that is text, word by word. */
import { limits } from '../../model/limits.js';
import type { MeshFault } from './stl-fault.js';
import { tooMany } from './stl-fault.js';

/** Words of one triangle in their order; `#` is a number of its normal, `*` one of a corner. */
const FACET = 'facet normal # # # outer loop vertex * * * vertex * * * vertex * * * endloop endfacet'.split(' ');

/** Nine numbers a triangle, or what is wrong, and in which line. Keywords in capitals are the same. Cost: linear. */
export const readStlText = (bytes: Uint8Array): Float64Array | MeshFault => {
  const words = wordsOf(bytes);
  if (!words.next() || !words.is('solid'))
    return { fault: 'is no STL file: it is a text that does not begin with `solid`' };
  const corners: number[] = [];
  let [isWithin, isNamed] = [true, false];
  while (words.next()) {
    if (!isWithin || words.is('endsolid')) {
      isWithin = !isWithin && words.is('solid');
      isNamed = false;
      continue;
    }
    // A name may have several words, or none, and all may stand in one line.
    isNamed ||= words.is('facet');
    if (!isNamed) continue;
    if (corners.length === NUMBERS * limits.triangles.atMost) return tooMany(`more than ${limits.triangles.atMost}`);
    const fault = readFacet(words, corners);
    if (fault) return fault;
  }
  if (isWithin) return cutOff(corners, words);
  return corners.length > 0 ? Float64Array.from(corners) : { fault: 'holds no triangles' };
};

/** Of one triangle: three corners. */
const NUMBERS = 9;

/** One triangle, whose first word was read; undefined where it is whole. */
const readFacet = (words: Words, corners: number[]): MeshFault | undefined => {
  const before = corners.length;
  for (let i = 0; i < FACET.length; i++) {
    const needed = FACET[i];
    if (i > 0 && !words.next()) return cutOff(corners.slice(0, before), words);
    if (needed === '#') continue;
    const value = needed === '*' ? words.number() : 0;
    if (needed === '*' ? Number.isNaN(value) : !words.is(needed))
      return words.isLast() ? cutOff(corners.slice(0, before), words) : oddWord(words, needed);
    if (needed === '*') corners.push(value);
  }
  return undefined;
};

const cutOff = ({ length }: readonly number[], words: Words): MeshFault => ({
  fault: `is cut off: it ends in line ${words.line()} after ${length / NUMBERS} whole triangle${length === NUMBERS ? '' : 's'}, without \`endsolid\``,
});

const oddWord = (words: Words, needed: string): MeshFault => ({
  fault: `has \`${words.text().slice(0, 20)}\` in line ${words.line()}, where ${needed === '*' ? 'a number with a decimal point' : `\`${needed}\``} is due`,
});

interface Words {
  /** To the next word; false at the end. */
  readonly next: () => boolean;
  readonly is: (key: string) => boolean;
  readonly text: () => string;
  /** Not a number where the word is none. */
  readonly number: () => number;
  /** Of the word that was read last, from 1. */
  readonly line: () => number;
  /** Does the file end with the word that was read last? */
  readonly isLast: () => boolean;
}

const NEWLINE = 10;
const SPACE = 32;
/** What a capital lacks of its small letter. */
const SMALL = 32;

const wordsOf = (bytes: Uint8Array): Words => {
  let start = 0;
  let at = 0;
  let lines = 1;
  const text = (): string => String.fromCharCode(...bytes.subarray(start, Math.min(at, start + LONGEST_NUMBER)));
  return {
    next: () => {
      while (at < bytes.length && bytes[at] <= SPACE) if (bytes[at++] === NEWLINE) lines++;
      start = at;
      while (at < bytes.length && bytes[at] > SPACE) at++;
      return start < at;
    },
    is: (key) => {
      if (at - start !== key.length) return false;
      for (let i = 0; i < key.length; i++) if ((bytes[start + i] | SMALL) !== key.charCodeAt(i)) return false;
      return true;
    },
    text,
    number: () => plainNumber(bytes, start, at) ?? (DECIMAL.test(text()) ? Number(text()) : NaN),
    line: () => lines,
    isLast: () => at >= bytes.length,
  };
};

const LONGEST_NUMBER = 100;
const DECIMAL = /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i;

/** Powers of ten, and whole numbers, that are exact: of two such the product or quotient is the nearest number there is. */
const EXACT_POWERS = Array.from({ length: 23 }, (_, i) => 10 ** i);
const EXACT_DIGITS = 15;

const [PLUS, MINUS, POINT, ZERO, NINE, SMALL_E] = Array.from('+-.09e', (letter) => letter.charCodeAt(0));

/** `-12.3456` or `-1.23456e+01` of few digits, at no cost of memory; undefined for any other word. */
const plainNumber = (bytes: Uint8Array, start: number, end: number): number | undefined => {
  let at = bytes[start] === MINUS || bytes[start] === PLUS ? start + 1 : start;
  let [digits, count, after, isAfter] = [0, 0, 0, false];
  for (; at < end && (bytes[at] | SMALL) !== SMALL_E; at++) {
    if (bytes[at] === POINT && !isAfter) isAfter = true;
    else if (bytes[at] < ZERO || bytes[at] > NINE) return undefined;
    else {
      digits = 10 * digits + bytes[at] - ZERO;
      count++;
      if (isAfter) after++;
    }
  }
  const exponent = at < end ? plainExponent(bytes, at + 1, end) : 0;
  if (exponent === undefined || count === 0 || count > EXACT_DIGITS) return undefined;
  const power = exponent - after;
  if (Math.abs(power) >= EXACT_POWERS.length) return undefined;
  const value = power < 0 ? digits / EXACT_POWERS[-power] : digits * EXACT_POWERS[power];
  return bytes[start] === MINUS ? -value : value;
};

/** Of one or two digits. */
const plainExponent = (bytes: Uint8Array, start: number, end: number): number | undefined => {
  const first = bytes[start] === MINUS || bytes[start] === PLUS ? start + 1 : start;
  if (first === end || end > first + 2) return undefined;
  let value = 0;
  for (let at = first; at < end; at++) {
    if (bytes[at] < ZERO || bytes[at] > NINE) return undefined;
    value = 10 * value + bytes[at] - ZERO;
  }
  return bytes[start] === MINUS ? -value : value;
};
