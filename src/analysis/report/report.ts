/**
 * What the engine knows of a tub, as one JSON value and as text. One file per section: each has `reportX(stages)` for
 * the data, whose keys name their units, and `xText(data)` for the terminal. Null: nothing is known of that section.
 */
import type { Stages } from '../stages/stages.js';
import { bendsText, reportBends, type BendRow } from './bends.js';
import { makingText, reportMaking, type MakingReport } from './making.js';
import { fillTestText, leaksText, reportJoints, seamsText, type JointReport } from './seams.js';
import { partsText, reportParts, type PartRow } from './parts.js';
import { reportWater, type WaterReport } from './water.js';
import { waterText } from './water-text.js';

export interface Report extends JointReport {
  readonly version: 1;
  readonly tub: string;
  readonly parts: readonly PartRow[];
  readonly bends: readonly BendRow[];
  readonly water: WaterReport;
  readonly making: MakingReport;
}

export const reportOf = (stages: Stages): Report => ({
  version: 1,
  tub: stages.tub.name,
  parts: reportParts(stages),
  bends: reportBends(stages),
  ...reportJoints(stages),
  water: reportWater(stages),
  making: reportMaking(stages),
});

/** The report for a terminal, sections with a heading each; empty sections are left out. */
export const reportText = (report: Report): string => {
  const sections: readonly (readonly [string, string])[] = [
    ['Parts to cut', partsText(report.parts)],
    ['Bends', bendsText(report.bends)],
    ['Bend plan', makingText(report.making)],
    ['Water', waterText(report.water)],
    ['Seams', seamsText(report.seams)],
    ['Leaks', leaksText(report.leaks)],
    ['Filling and weight', fillTestText(report)],
  ];
  const filled = sections.filter(([, text]) => text !== '');
  return [report.tub, ...filled.map(([heading, text]) => `${heading}\n${text}`)].join('\n\n');
};
