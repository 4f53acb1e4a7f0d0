/**
 * Letters as single strokes that a pen or a scribing tool can draw. Drawn for this project on a grid four wide: a digit
 * pair is one point (x, y); y 2 is the base line, 6 the height of small letters, 8 that of capitals; a space lifts the pen.
 */
import { addScaled2, left2, type Vec2 } from '../../geometry/vec.js';

const BASE_LINE = 2;
const CAPITAL = 6;
const GAP = 1.6;
const SPACE = 2.4;

const GLYPHS: Readonly<Record<string, string>> = {
  A: '022842 1535',
  B: '02083847463505 3544433202',
  C: '4738180703123243',
  D: '02082846442202',
  E: '48080242 0535',
  F: '480802 0535',
  G: '47381807031232434525',
  H: '0208 4248 0545',
  I: '0222 0828 1218',
  J: '3833221203',
  K: '0208 480542',
  L: '080242',
  M: '0208254842',
  N: '02084248',
  O: '183847433212030718',
  P: '02083847463505',
  Q: '183847433212030718 2442',
  R: '02083847463505 2542',
  S: '473818070615354443321203',
  T: '0848 2228',
  U: '080312324348',
  V: '082248',
  W: '0812253248',
  X: '0248 0842',
  Y: '082548 2522',
  Z: '08480242',
  a: '3526160503122233 3632',
  b: '0802 0516263533221203',
  c: '3526160503122233',
  d: '3832 3526160503122233',
  e: '043435261605031232',
  f: '38281712 0626',
  g: '3526160503122233 3631201001',
  h: '0802 0516263532',
  i: '0206 0708',
  j: '161100 1718',
  k: '0802 360432',
  l: '080312',
  m: '0206 05162522 25364542',
  n: '0206 0516263532',
  o: '162635332212030516',
  p: '0600 0516263533221203',
  q: '3630 3526160503122233',
  r: '0602 051626',
  s: '3616051424332202',
  t: '18132232 0626',
  u: '0603122233 3632',
  v: '062246',
  w: '0612253246',
  x: '0632 0236',
  y: '0603122233 3631201001',
  z: '06360232',
  0: '183847433212030718 1337',
  1: '071812 0222',
  2: '07183847460242',
  3: '084825354443321203',
  4: '32380444',
  5: '480805354443321203',
  6: '4738180703123243443505',
  7: '084812',
  8: '15060718384746351504031232434435',
  9: '0312324347381807061545',
  '.': '0203',
  ',': '1301',
  ':': '0304 0607',
  '-': '0535',
  _: '0141',
  '+': '0545 2327',
  '=': '0444 0646',
  '/': '0248',
  '(': '18070312',
  ')': '08171302',
  '±': '0646 2428 0242',
  '°': '0718271607',
  '×': '0336 0633',
  Ø: '183847433212030718 0248',
};

/** What stands for a character that has no drawing. */
const UNKNOWN = '0208484202';

interface Glyph {
  readonly width: number;
  readonly strokes: readonly (readonly Vec2[])[];
}

const glyphOf = (character: string): Glyph => {
  if (character === ' ') return { width: SPACE - GAP, strokes: [] };
  const strokes = (GLYPHS[character] ?? UNKNOWN)
    .split(' ')
    .map((stroke) =>
      Array.from({ length: stroke.length / 2 }, (_, i): Vec2 => [
        Number(stroke[2 * i]),
        Number(stroke[2 * i + 1]) - BASE_LINE,
      ]),
    );
  return { width: Math.max(...strokes.flat().map(([x]) => x)), strokes };
};

/** Width of one line of capitals `height` mm tall, mm. */
export const letteringWidth = (text: string, height: number): number => {
  const widths = [...text].map((character) => glyphOf(character).width);
  const units = widths.reduce((sum, width) => sum + width, 0) + GAP * Math.max(0, widths.length - 1);
  return (units * height) / CAPITAL;
};

/** The part of a capital's height that hangs below the base line (as in `g`, `_`). */
export const DESCENT = BASE_LINE / CAPITAL;

export interface LetteringPlace {
  /** Left end of the base line. */
  readonly at: Vec2;
  /** Unit vector along the base line. */
  readonly along: Vec2;
  /** Of capitals, mm. */
  readonly height: number;
}

/** Open pen strokes of one line of text, in reading order, mm. */
export const strokesOf = (text: string, { at, along, height }: LetteringPlace): Vec2[][] => {
  const scale = height / CAPITAL;
  const up = left2(along);
  const strokes: Vec2[][] = [];
  let pen = 0;
  for (const character of text) {
    const glyph = glyphOf(character);
    for (const stroke of glyph.strokes) {
      strokes.push(stroke.map(([x, y]) => addScaled2(addScaled2(at, along, (pen + x) * scale), up, y * scale)));
    }
    pen += glyph.width + GAP;
  }
  return strokes;
};
