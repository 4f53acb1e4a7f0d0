/**
 * What the engine knows of a tub, as one JSON value and as text. One file per section: each has `reportX(stages)` for
 * the data, whose keys name their units, and `xText(data)` for the terminal. Null: nothing is known of that section.
 */
import { wordsIn, type TextUnits } from '../model/in-inches.js';
import type { Stages } from '../stages/stages.js';
import { BEND_COLUMNS, reportBends, type BendRow } from './making/bends.js';
import { PLAY_COLUMNS } from './plays.js';
import { WAY_COLUMNS } from './ways-out.js';
import { CLEAR_COLUMNS } from './clear-distances.js';
import { FACE_JOINT_COLUMNS } from './joining/faces.js';
import { CHAMBER_FILL_COLUMNS, fillTestText } from './fill-test.js';
import { HARDWARE_COLUMNS, reportHardware, type HardwareRow } from './joining/hardware.js';
import { reportJoints, type JointReport } from './joining/joints.js';
import { LEAK_COLUMNS } from './leaks.js';
import { reportChecks, type ChecksReport } from './making/checks.js';
import {
  MADE_BEND_COLUMNS,
  MADE_CORRECTION_COLUMNS,
  MADE_GAP_COLUMNS,
  MADE_LEARNED_COLUMNS,
  MADE_PANEL_COLUMNS,
  reportMade,
  type MadeReport,
} from './making/made.js';
import { reportMaking, type MakingReport } from './making/making.js';
import { makingText } from './making/making-text.js';
import { SEAM_COLUMNS } from './joining/seams.js';
import { toText, type Column } from './table.js';
import { MOUNTING_COLUMNS, reportMountings, type MountingRow } from './joining/mountings.js';
import { PART_COLUMNS, reportParts, type PartRow } from './making/parts.js';
import { reportTaped, TAPED_MEASURE_COLUMNS, TAPED_POINT_COLUMNS, type TapedReport } from './taped.js';
import { reportWork, type WorkReport } from './making/work.js';
import { reportWater } from './water/water.js';
import { reportWeek, weekText, type WeekReport } from './water/week.js';
import type { WaterReport } from './water/water-rows.js';
import { waterText } from './water/water-text.js';

export interface Report extends JointReport {
  readonly version: 1;
  readonly tub: string;
  readonly parts: readonly PartRow[];
  readonly bends: readonly BendRow[];
  readonly mountings: readonly MountingRow[];
  readonly hardware: readonly HardwareRow[];
  readonly water: WaterReport;
  /** Null: the text states no week. */
  readonly week: WeekReport | null;
  /** Null: nothing was taped. */
  readonly taped: TapedReport | null;
  /** Null: nothing is said to be made. */
  readonly made: MadeReport | null;
  readonly making: MakingReport;
  readonly checks: ChecksReport;
  readonly work: WorkReport;
}

export const reportOf = (stages: Stages): Report => ({
  version: 1,
  tub: stages.tub.name,
  parts: reportParts(stages),
  bends: reportBends(stages),
  ...reportJoints(stages),
  mountings: reportMountings(stages),
  hardware: reportHardware(stages),
  water: reportWater(stages),
  week: reportWeek(stages),
  taped: reportTaped(stages),
  made: reportMade(stages),
  making: reportMaking(stages),
  checks: reportChecks(stages),
  work: reportWork(stages),
});

/** The report for a terminal, sections with a heading each; empty sections are left out. */
export const reportText = (report: Report, units: TextUnits = 'mm'): string => {
  const table = <Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string => toText(columns, rows, units);
  const sections: readonly (readonly [string, string])[] = [
    [
      'Parts to cut',
      table(
        PART_COLUMNS,
        report.parts.filter(({ is_cut }) => !is_cut),
      ),
    ],
    [
      'Parts that are cut already',
      table(
        PART_COLUMNS,
        report.parts.filter(({ is_cut }) => is_cut),
      ),
    ],
    ['Bends', table(BEND_COLUMNS, report.bends)],
    ['Points that were taped', table(TAPED_POINT_COLUMNS, report.taped?.points ?? [])],
    ['What was taped', table(TAPED_MEASURE_COLUMNS, report.taped?.measures ?? [])],
    ['As made', table(MADE_BEND_COLUMNS, report.made?.bends ?? [])],
    ['Panels as made', table(MADE_PANEL_COLUMNS, report.made?.panels ?? [])],
    ['Cut parts against what is made', table(MADE_GAP_COLUMNS, report.made?.gaps ?? [])],
    ['What the readings teach', table(MADE_LEARNED_COLUMNS, report.made?.learned ?? [])],
    ['Which bend to correct first', table(MADE_CORRECTION_COLUMNS, report.made?.corrections ?? [])],
    ['Bend plan', makingText(report.making)],
    ['Water', waterText(report.water, units)],
    ['A week of work', weekText(report.week)],
    ['Seams', table(SEAM_COLUMNS, report.seams)],
    ['Faces bolted together', table(FACE_JOINT_COLUMNS, report.face_joints)],
    ['Clear distances', table(CLEAR_COLUMNS, report.clear_distances)],
    ['What it is fastened to', table(MOUNTING_COLUMNS, report.mountings)],
    ['Play in the seat', table(PLAY_COLUMNS, report.plays)],
    ['Ways in and out', table(WAY_COLUMNS, report.ways_out)],
    ['Leaks', table(LEAK_COLUMNS, report.leaks)],
    ['Hardware and supplies', table(HARDWARE_COLUMNS, report.hardware)],
    ['Chambers filled one after the other', table(CHAMBER_FILL_COLUMNS, report.fill_test?.chambers ?? [])],
    ['Filling and weight', fillTestText(report.fill_test, report.mass)],
  ];
  const filled = sections.filter(([, text]) => text !== '');
  return [report.tub, ...filled.map(([heading, text]) => `${heading}\n${wordsIn(units, text)}`)].join('\n\n');
};
