/** A reading as a builder types it: `33.2`, `opens 146.8`, `33.2 bent to 34.1`. */
import { READING_FAR_OFF } from '../../analysis/model/tolerance.js';
import { inDeg, toDeg } from '../../analysis/model/wording.js';

const NUMBER = String.raw`(\d+(?:[.,]\d+)?|[.,]\d+)\s*(?:deg|°)?`;
const FORM = new RegExp(
  String.raw`^\s*(?:(reads|opens)\s+)?${NUMBER}(?:\s+bent\s+to\s+${NUMBER}(?:\s+in\s+(\d+(?:[.,]\d+)?)\s*die)?)?\s*$`,
  'i',
);

export interface TypedReading {
  /** As the language states it. */
  readonly text: string;
  /** deg, deviation from flat. */
  readonly turnDeg: number;
}

/** Undefined: it is none. */
export const typedReading = (typed: string): TypedReading | undefined => {
  const match = FORM.exec(typed);
  if (!match) return undefined;
  const [, word = 'reads', angle, bentTo, die] = match;
  const plain = (number: string): string => String(Number(number.replace(',', '.')));
  const opens = word.toLowerCase() === 'opens';
  const stated = Number(plain(angle));
  const back =
    bentTo === undefined ? '' : ` bent to ${plain(bentTo)} deg${die === undefined ? '' : ` in ${plain(die)} die`}`;
  return { text: `${opens ? 'opens' : 'reads'} ${plain(angle)} deg${back}`, turnDeg: opens ? 180 - stated : stated };
};

/** What is to be told of what was typed for a bend that was planned to turn so far, rad; undefined: nothing. */
export const toldOfTyped = (
  typed: string,
  planned: number,
): { readonly severity: 'error' | 'warning'; readonly message: string } | undefined => {
  if (typed.trim() === '') return undefined;
  const reading = typedReading(typed);
  if (!reading)
    return {
      severity: 'error',
      message: 'This is no reading; it needs a number of degrees such as `33.2`, `opens 146.8` or `33.2 bent to 34.1`',
    };
  if (!(reading.turnDeg >= 0 && reading.turnDeg < 180))
    return { severity: 'error', message: 'A bend turns from 0 up to less than 180 deg' };
  const off = Math.abs(reading.turnDeg - toDeg(planned));
  if (off <= toDeg(READING_FAR_OFF)) return undefined;
  const other = Math.abs(180 - reading.turnDeg - toDeg(planned));
  const meant =
    other <= toDeg(READING_FAR_OFF)
      ? `; is it the angle between the panels? Then type it as \`${reading.text.startsWith('opens') ? 'reads' : 'opens'} …\``
      : '; read it again';
  return { severity: 'warning', message: `${inDeg((off * Math.PI) / 180)} from what was planned${meant}` };
};
