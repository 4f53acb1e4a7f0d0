import { tapedLegsOf } from '../../../analysis/built/learned.js';
import type { MadeStrip } from '../../../analysis/built/as-made.js';
import type { SourceId } from '../../../analysis/model/tub.js';
import { asRead, inDeg, inMm, named } from '../../../analysis/model/wording.js';
import { reportMade, type MadeBendRow, type MadeReport } from '../../../analysis/report/making/made.js';
import type { Evaluation } from '../../analyse.js';
import { plain } from '../plain.js';

/** What was read of a panel, beside what was planned, and what it does; `at`: of the reading. */
export const legReadingText = ({ stages }: Evaluation, at: SourceId): string | undefined => {
  for (const strip of stages.built.strips) {
    const taped = tapedLegsOf(strip).find(({ reading }) => reading.at === at);
    if (taped) return lengthText(stages.tub.panels[taped.reading.panel].name, taped.reading, rowsOf(stages, strip));
    const slope = strip.made.slopes.find((each) => each.at === at);
    if (slope) return slopeText(stages.tub.panels[slope.panel].name, slope.slope, rowsOf(stages, strip));
  }
  return undefined;
};

type PanelRows = MadeReport['panels'];

const rowsOf = (stages: Evaluation['stages'], strip: MadeStrip): PanelRows => {
  const names = stages.tub.strips[strip.strip].panels.map((panel) => stages.tub.panels[panel].name);
  return (reportMade(stages)?.panels ?? []).filter(({ panel }) => names.includes(panel));
};

const lengthText = (
  name: string,
  { length, over }: { readonly length: number; readonly over: string },
  rows: PanelRows,
): string | undefined => {
  const row = rows.find(({ panel }) => panel === name);
  return (
    row &&
    [
      `**Panel** ${named(name)}: ${asRead(length)} by tape, over the ${over}`,
      `- on its wet face to the sharp corners ${inMm(row.made_mm)}, planned ${inMm(row.planned_mm)}: ${signed(row.made_mm - row.planned_mm, 'mm')} off`,
      '- where both bends beside it were read, it teaches K',
    ].join('\n')
  );
};

const slopeText = (name: string, slope: number, rows: PanelRows): string | undefined => {
  const row = rows.find(({ panel }) => panel === name);
  return (
    row &&
    [
      `**Panel** ${named(name)}: found standing ${inDeg(slope)} to level`,
      `- as made ${degrees(Math.abs(row.made_slope_deg))}, planned ${degrees(Math.abs(row.planned_slope_deg))}, worth ±${degrees(row.slope_sd_deg)} (one standard deviation)`,
      '- it leans the strip; with the slope of another panel it tells or checks the bends between',
    ].join('\n')
  );
};

/** What is read of a part, what is still open, and what to do first; `at`: of its statement. */
export const madeText = ({ stages }: Evaluation, at: SourceId): string | undefined => {
  const part = stages.tub.made?.find((each) => each.at === at);
  const report = part && reportMade(stages);
  if (!part || !report) return undefined;
  const own = stages.parts().find(({ faces }) => faces.includes(part.panel));
  const shape = stages.shape();
  const names = new Set((own?.bends ?? []).map((bend) => shape.bends[bend].name));
  const rows = report.bends.filter(({ name }) => names.has(name));
  const open = rows.filter(({ state }) => state === 'open');
  const strip = stages.built.strips.find(({ made }) => made.at === at);
  const contacts = strip?.task.contacts.some(({ panel }) => panel !== undefined);
  return [
    `**Made** ${named(part.name)}: cut; ${rows.length - open.length} of ${names.size} bends read`,
    ...rows.map(rowText),
    ...report.corrections
      .filter(({ name }) => names.has(name))
      .map(
        ({ name, to_deg, before_mm, after_mm }) =>
          `- correct ${named(name)} first, to ${degrees(to_deg)}: largest gap ${inMm(after_mm)}, ${inMm(before_mm)} without`,
      ),
    ...(strip
      ? [
          `- ${contacts ? 'what is cut and meets it is judged as it is' : 'what meets it is not cut yet and follows it'}`,
        ]
      : []),
  ].join('\n');
};

const rowText = ({ name, state, planned_deg, made_deg, off_deg }: MadeBendRow): string => {
  const is = { read: 'read', slopes: 'by slopes', open: 'open, closes best at' }[state];
  return `- ${named(name)}: planned ${degrees(planned_deg)}, ${is} ${degrees(made_deg)}, ${signed(off_deg, 'deg')}`;
};

const degrees = (value: number): string => `${plain(value, 2)} deg`;

const signed = (value: number, unit: string): string => `${value > 0 ? '+' : ''}${plain(value, 2)} ${unit}`;
