import { plain } from '../../analysis/model/wording.js';
import type { BesideValue, FoundValue, FoundWish, MissingVariant, Outcome, Told, Yields } from './outcome.js';

/** What was worked out, as Markdown. */
export const outcomePage = (outcome: Outcome | undefined): string => {
  if (!outcome) return NOT_YET;
  const { isMet, tried, values, wishes, conflicts, variants } = outcome;
  return [
    `${isMet ? 'All wishes are met' : 'The wishes cannot all be met'}; ${tried} tubs were tried. Nothing is written until you say so.`,
    `| Value | now | found | a step down | a step up |\n| --- | ---: | ---: | --- | --- |\n${values.map(valueRow).join('\n')}`,
    `| Wish | met | found | now |\n| --- | --- | ---: | ---: |\n${wishes.map(wishRow).join('\n')}`,
    ...conflicts.map(conflictText),
    ...variants.map(variantText),
    LIMITS,
  ].join('\n\n');
};

const NOT_YET =
  'Nothing is worked out for this text as it is now. Run *Work Out Free Values* on a text with a free value and an `aim`.';

const LIMITS =
  'This is a search: of several valleys it may miss the deepest, and what it does not find may still exist. It does not look at what the checks do not look at: strength, supports, local codes.';

const inUnit = (value: number, unit: string): string => `${plain(value, 3)}${unit === '' ? '' : ` ${unit}`}`;
const told = (number: Told | undefined): string => (number ? inUnit(number.value, number.unit) : '');

const valueRow = ({ name, unit, before, after, beside }: FoundValue): string => {
  const [down, up] = (['down', 'up'] as const).map((way) =>
    besideText(
      beside.find((each) => each.way === way),
      unit,
    ),
  );
  return `| \`${name}\` | ${inUnit(before, unit)} | **${inUnit(after, unit)}** | ${down} | ${up} |`;
};

const besideText = (beside: BesideValue | undefined, unit: string): string => {
  if (!beside) return '';
  if (beside.value === undefined) return 'its limit';
  const to = inUnit(beside.value, unit);
  const why = beside.found.length > 0 ? ` (${inCell(beside.found[0])})` : '';
  if (beside.missed.length > 0) return `${to} misses ${beside.missed.join(', ')}${why}`;
  if (beside.change.length === 0) return `${to} changes nothing that is wished`;
  return `${to}: ${beside.change.map(({ wish, by }) => `${wish} ${by.value > 0 ? '+' : ''}${told(by)}`).join(', ')}`;
};

const wishRow = ({ text, isMet, has, before, found }: FoundWish): string =>
  `| ${text} | ${isMet ? 'yes' : 'no'} | ${has ? told(has) : found.map(inCell).join('; ')} | ${told(before)} |`;

/** A bar would end the cell. */
const inCell = (text: string): string => text.replaceAll('|', '\\|');

const conflictText = (conflict: readonly Yields[]): string => {
  const head =
    conflict.length === 1
      ? 'No values within the limits were found that meet this:'
      : 'No values were found that meet these together; one has to give way:';
  return [head, '', ...yieldsTexts(conflict).map((each) => `- ${each}`)].join('\n');
};

export const variantText = ({ name, missed }: MissingVariant): string =>
  `Variant "${name}" misses ${missed.join(', ')} with these values`;

/** What is left of each wish of a conflict. */
export const yieldsTexts = (conflict: readonly Yields[]): readonly string[] => {
  const others = conflict.length > 1 ? ' while the others are met' : '';
  return conflict.map(({ wish, has, needs, found }) => {
    if (has && needs) return `${wish}: ${told(has)} is the nearest to ${told(needs)} found${others}`;
    return found.length === 0 ? wish : `${wish}: ${found.join('; ')}`;
  });
};
