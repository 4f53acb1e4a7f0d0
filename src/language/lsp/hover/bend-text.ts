import { kSourceWords } from './k-source.js';
import { bendFacts, type BendFacts } from '../../../analysis/report/making/bend-facts.js';
import { bendGaugeWords, bendRow } from '../../../analysis/report/making/bends.js';
import { reportMade, type MadeBendRow } from '../../../analysis/report/making/made.js';
import type { Bend } from '../../../analysis/shape/shape.js';
import { turnWords } from '../../../analysis/fold/bend-words.js';
import { inMm, named } from '../../../analysis/model/wording.js';
import type { Evaluation } from '../../analyse.js';
import { plain } from '../plain.js';

/** One bend with its arithmetic and the way it is planned to be made, as Markdown. May plan its part. */
export const bendText = (evaluation: Evaluation, bend: Bend): string => {
  const { stages } = evaluation;
  const facts = bendFacts(stages, bend.index);
  const row = bendRow(stages, bend, facts);
  return [
    `**Bend** ${named(row.name)}: ${facts ? `${turnWords(facts.direction, facts.side_up)}; ` : ''}${bendGaugeWords(stages, bend, named)}`,
    `- ${inMm(row.length_mm)} long, wet face on the ${row.wet_face}`,
    `- inside radius ${inMm(row.radius_mm)}, K ${plain(row.k, 3)} from ${kSourceWords[row.k_source]}`,
    `- allowance ${inMm(row.allowance_mm)}, setback ${inMm(row.setback_mm)}, deduction ${inMm(row.deduction_mm)}`,
    ...madeLines(stages, bend),
    ...(facts ? [wayLine(facts)] : []),
  ].join('\n');
};

/** Of a bend that was read, or of which what was read decides what it is bent to. */
const madeLines = (stages: Evaluation['stages'], { name }: Bend): string[] => {
  const row = reportMade(stages)?.bends.find((each) => each.name === name);
  if (!row) return [];
  const numbers = `planned ${degrees(row.planned_deg)}, ${isWords(row)}`;
  const back = row.springback_deg === null ? '' : `; it sprang back ${degrees(row.springback_deg)}`;
  return [`- ${numbers}: ${degrees(row.off_deg, '+')} off${back}`];
};

const isWords = ({ state, read_deg, made_deg }: MadeBendRow): string => {
  if (state === 'open') return `still open, best bent to ${degrees(made_deg)}`;
  const made = `by the slopes beside it ${degrees(made_deg)}`;
  if (read_deg === null) return made;
  return read_deg === made_deg ? `read ${degrees(read_deg)}` : `read ${degrees(read_deg)}, ${made}`;
};

const degrees = (value: number, sign: '+' | '' = ''): string =>
  `${sign !== '' && value > 0 ? sign : ''}${plain(value, 2)} deg`;

const wayLine = (facts: BendFacts): string => {
  const stroke = facts.stroke === null ? 'no order found; by itself' : `stroke ${facts.stroke}:`;
  const die = facts.die_mm === null ? '' : `, die ${inMm(facts.die_mm)}`;
  const force =
    facts.force_kN === null ? '' : `, ${plain(facts.force_kN, 1)} kN (${plain(facts.load_percent, 0)} % of it)`;
  const bendTo = `${plain(facts.bend_to_deg, 1)} to ${plain(facts.bend_to_at_most_deg, 1)} deg, by how much the sheet springs back`;
  return `- ${stroke} on \`${facts.machine}\`${die}${force}; bend to ${bendTo}; shortest flange ${inMm(facts.shortest_flange_mm)}`;
};
