import type { Finding, Measure } from '../../../src/analysis/model/finding.js';
import { measureText } from '../../../src/analysis/model/wording.js';

/**
 * What findings say against themselves, as printed: a number that passes what it is said to fail ("has 25, needs at least 25"),
 * in the measure or in the sentence. Reads the printed text alone; the numbers only tell which of those printed are meant.
 */
export const contradictions = (findings: readonly Finding[]): readonly string[] =>
  findings.flatMap(({ code, message, measure }) => {
    if (!measure) return [];
    const told = measureText(measure);
    const wrong = [told, message].filter((text) => contradicts(text, measure));
    return wrong.map((text) => `${code}: ${text}`);
  });

interface Printed {
  readonly at: number;
  readonly value: number;
  /** Half a step of the last digit. */
  readonly within: number;
}

const numbersIn = (text: string): readonly Printed[] =>
  [...text.matchAll(/(?<![\w.])-?\d+(?:\.(\d+))?(?:e-?\d+)?(?![\w.]*\d)/g)].map((match) => ({
    at: match.index,
    value: Number(match[0]),
    within: 0.5000001 * 10 ** -(match[1]?.length ?? 0),
  }));

/** Both numbers are printed, each at a place of its own, and wherever that may be they do not read as the finding means them. */
const contradicts = (text: string, { has, needs, better }: Measure): boolean => {
  const printed = numbersIn(text);
  const meant = (number: number): readonly Printed[] =>
    printed.filter(({ value, within }) => Math.abs(value - number) <= within);
  const pairs = meant(has).flatMap((a) => meant(needs).flatMap((b) => (a.at === b.at ? [] : [[a.value, b.value]])));
  return pairs.length > 0 && pairs.every(([a, b]) => (better === 'more' ? a >= b : a <= b));
};
