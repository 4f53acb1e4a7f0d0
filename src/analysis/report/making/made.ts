/** What was read of parts that are made, what follows from it, and what to do next. */
import type { MadeStrip } from '../../built/as-made.js';
import { learnedFrom, lessonsOf, readingOfBend, type DieOf } from '../../built/learned.js';
import { firstCorrectionOf, meetingsOf } from '../../built/next.js';
import type { TurnedBend } from '../../built/turned.js';
import { deviationsOf, worthOf } from '../../built/worth.js';
import type { Stages } from '../../stages/stages.js';
import { cutParts } from '../../stages/flats-to-cut.js';
import { reportDegrees, reportLength, reportRatio } from '../numbers.js';
import type { Column } from '../table.js';

export interface MadeReport {
  /** Parts that are cut. */
  readonly cut: readonly string[];
  readonly bends: readonly MadeBendRow[];
  readonly panels: readonly MadePanelRow[];
  readonly gaps: readonly MadeGapRow[];
  readonly corrections: readonly MadeCorrectionRow[];
  readonly learned: readonly MadeLearnedRow[];
}

export interface MadeBendRow {
  readonly name: string;
  /** `slopes`: not read, it follows from how the panels beside it stand. */
  readonly state: 'read' | 'slopes' | 'open';
  readonly planned_deg: number;
  /** By the gauge; null where it was not read. */
  readonly read_deg: number | null;
  /** By the reading and the slopes beside it; of an open bend what closes the seams best. */
  readonly made_deg: number;
  readonly off_deg: number;
  /** What the brake was set to, and how much the bend sprang back from there. */
  readonly bent_to_deg: number | null;
  readonly springback_deg: number | null;
}

export interface MadePanelRow {
  readonly panel: string;
  readonly planned_mm: number;
  /** On the wet face, to the sharp corners. */
  readonly made_mm: number;
  /** To level, positive where it rises along the strip. */
  readonly planned_slope_deg: number;
  readonly made_slope_deg: number;
  /** Standard deviation by what the readings are worth. */
  readonly slope_sd_deg: number;
  /** How far its end has moved up, and what that is worth. */
  readonly end_up_mm: number;
  readonly end_up_sd_mm: number;
}

/** Between a part that is cut, moved to where it fits best, and the strip as made. */
export interface MadeGapRow {
  readonly part: string;
  readonly panel: string;
  readonly length_mm: number;
  /** Positive: open; negative: too much metal. */
  readonly start_mm: number;
  readonly end_mm: number;
}

export interface MadeCorrectionRow {
  readonly name: string;
  readonly from_deg: number;
  readonly to_deg: number;
  readonly before_mm: number;
  readonly after_mm: number;
}

/** What the readings teach of a sheet; deviations null from one reading alone. */
export interface MadeLearnedRow {
  readonly sheet: string;
  /** In which die; null: in none. K is that of the sheet, in its first row. */
  readonly die_mm: number | null;
  readonly springback_deg: number | null;
  readonly springback_sd_deg: number | null;
  readonly springback_count: number;
  readonly k: number | null;
  readonly k_sd: number | null;
  readonly k_count: number;
}

/** Null: nothing of the tub is said to be made. */
export const reportMade = (stages: Stages): MadeReport | null => {
  const { tub, built } = stages;
  if (!tub.made) return null;
  const cut = cutParts(stages);
  return {
    cut: stages.parts().flatMap(({ name, index }) => (cut.has(index) ? [name] : [])),
    bends: [...built.strips.flatMap((strip) => bendRows(stages, strip)), ...built.turned.map(turnedRow)],
    panels: built.strips.flatMap((strip) => panelRows(stages, strip)),
    gaps: built.strips.flatMap((strip) => gapRows(stages, strip)),
    corrections: built.strips.flatMap((strip) => correctionRow(stages, strip)),
    learned: learnedRows(stages),
  };
};

/** In which die of the shop a bend suits best by itself. */
export const bestDieOf =
  (stages: Stages): DieOf =>
  (bend) => {
    const { name } = stages.tub.bends[bend];
    const index = stages.shape().bends.findIndex((each) => each.name === name);
    return stages.making().bendCheck(index)?.setups[0]?.die;
  };

const learnedRows = (stages: Stages): MadeLearnedRow[] => {
  const { tub, built } = stages;
  const lessons = lessonsOf(tub, built.strips, bestDieOf(stages));
  return tub.sheets.flatMap(({ name }, sheet): MadeLearnedRow[] => {
    const learned = learnedFrom(lessons.filter((lesson) => lesson.sheet === sheet));
    if (!learned) return [];
    const { springbacks, kFactor } = learned;
    const dies = springbacks.length === 0 ? [undefined] : springbacks;
    return dies.map((back, i) => ({
      sheet: name,
      die_mm: back?.die === undefined ? null : reportLength(back.die),
      springback_deg: back ? reportDegrees(back.learned.value) : null,
      springback_sd_deg: back?.learned.deviation === undefined ? null : reportDegrees(back.learned.deviation),
      springback_count: back?.learned.count ?? 0,
      k: kFactor && i === 0 ? reportRatio(kFactor.value) : null,
      k_sd: kFactor?.deviation === undefined || i > 0 ? null : reportRatio(kFactor.deviation),
      k_count: i === 0 ? (kFactor?.count ?? 0) : 0,
    }));
  });
};

const bendRows = ({ tub }: Stages, strip: MadeStrip): MadeBendRow[] => {
  const { profile, folding, read } = strip;
  return profile.bends.map(({ bend, turn }, i) => {
    const stated = tub.bends[bend];
    const reading = readingOfBend(tub, strip, bend);
    const is = Math.abs(folding.turns[i]);
    return {
      name: stated.name,
      state: !read.includes(i) ? 'open' : reading?.isBySlopes ? 'slopes' : 'read',
      read_deg: reading && !reading.isBySlopes ? reportDegrees(reading.turn) : null,
      planned_deg: reportDegrees(Math.abs(turn)),
      made_deg: reportDegrees(is),
      off_deg: reportDegrees(is - Math.abs(turn)),
      bent_to_deg: reading?.bentTo === undefined ? null : reportDegrees(reading.bentTo),
      springback_deg: reading?.bentTo === undefined ? null : reportDegrees(reading.bentTo - reading.turn),
    };
  });
};

const turnedRow = ({ reading, name, planned }: TurnedBend): MadeBendRow => ({
  name,
  state: 'read',
  read_deg: reportDegrees(reading.turn),
  planned_deg: reportDegrees(planned),
  made_deg: reportDegrees(reading.turn),
  off_deg: reportDegrees(reading.turn - planned),
  bent_to_deg: reading.bentTo === undefined ? null : reportDegrees(reading.bentTo),
  springback_deg: reading.bentTo === undefined ? null : reportDegrees(reading.bentTo - reading.turn),
});

const panelRows = ({ tub }: Stages, strip: MadeStrip): MadePanelRow[] => {
  const { profile, moved, made, task, folding } = strip;
  const worth = worthOf(task, folding.turns, deviationsOf(tub, made, strip));
  return tub.strips[strip.strip].panels.map((panel, leg) => {
    const [a, b] = [profile.points[leg], profile.points[leg + 1]];
    const slope = Math.atan2(b[1] - a[1], b[0] - a[0]);
    return {
      panel: tub.panels[panel].name,
      planned_mm: reportLength(Math.hypot(b[0] - a[0], b[1] - a[1])),
      made_mm: reportLength(moved.lengths[leg]),
      planned_slope_deg: reportDegrees(slope),
      made_slope_deg: reportDegrees(slope + moved.turned[leg]),
      slope_sd_deg: reportDegrees(worth.slopes[leg]),
      end_up_mm: reportLength(moved.by[leg + 1][1]),
      end_up_sd_mm: reportLength(worth.corners[leg + 1][1]),
    };
  });
};

const gapRows = ({ tub }: Stages, strip: MadeStrip): MadeGapRow[] =>
  meetingsOf(strip).flatMap(({ panel, gaps }) =>
    gaps.map(({ leg, from, to, start, end }) => ({
      part: tub.panels[panel].name,
      panel: tub.panels[tub.strips[strip.strip].panels[leg]].name,
      length_mm: reportLength(strip.moved.lengths[leg] * (to - from)),
      start_mm: reportLength(start),
      end_mm: reportLength(end),
    })),
  );

const correctionRow = ({ tub }: Stages, strip: MadeStrip): MadeCorrectionRow[] => {
  const first = firstCorrectionOf(strip);
  if (!first) return [];
  return [
    {
      name: tub.bends[first.bend].name,
      from_deg: reportDegrees(first.from),
      to_deg: reportDegrees(first.to),
      before_mm: reportLength(first.before),
      after_mm: reportLength(first.after),
    },
  ];
};

export const MADE_BEND_COLUMNS: readonly Column<MadeBendRow>[] = [
  { key: 'name', head: 'Bend', value: (row) => row.name },
  { key: 'state', head: 'State', value: (row) => row.state },
  { key: 'planned_deg', head: 'Planned', value: (row) => row.planned_deg, places: 2 },
  { key: 'read_deg', head: 'Read', value: (row) => row.read_deg, places: 2 },
  { key: 'made_deg', head: 'As made', value: (row) => row.made_deg, places: 2 },
  { key: 'off_deg', head: 'Off by', value: (row) => row.off_deg, places: 2 },
  { key: 'bent_to_deg', head: 'Bent to', value: (row) => row.bent_to_deg, places: 2 },
  { key: 'springback_deg', head: 'Sprang back', value: (row) => row.springback_deg, places: 2 },
];

export const MADE_PANEL_COLUMNS: readonly Column<MadePanelRow>[] = [
  { key: 'panel', head: 'Panel', value: (row) => row.panel },
  { key: 'planned_mm', head: 'Planned', value: (row) => row.planned_mm, places: 2 },
  { key: 'made_mm', head: 'As made', value: (row) => row.made_mm, places: 2 },
  { key: 'planned_slope_deg', head: 'Planned slope', value: (row) => row.planned_slope_deg, places: 2 },
  { key: 'made_slope_deg', head: 'Slope as made', value: (row) => row.made_slope_deg, places: 2 },
  { key: 'slope_sd_deg', head: '+-', value: (row) => row.slope_sd_deg, places: 2 },
  { key: 'end_up_mm', head: 'End moved up', value: (row) => row.end_up_mm, places: 2 },
  { key: 'end_up_sd_mm', head: '+-', value: (row) => row.end_up_sd_mm, places: 2 },
];

export const MADE_GAP_COLUMNS: readonly Column<MadeGapRow>[] = [
  { key: 'part', head: 'Cut part', value: (row) => row.part },
  { key: 'panel', head: 'Along', value: (row) => row.panel },
  { key: 'length_mm', head: 'Length', value: (row) => row.length_mm, places: 1 },
  { key: 'start_mm', head: 'Open at its start', value: (row) => row.start_mm, places: 2 },
  { key: 'end_mm', head: 'Open at its end', value: (row) => row.end_mm, places: 2 },
];

export const MADE_CORRECTION_COLUMNS: readonly Column<MadeCorrectionRow>[] = [
  { key: 'name', head: 'Correct first', value: (row) => row.name },
  { key: 'from_deg', head: 'From', value: (row) => row.from_deg, places: 2 },
  { key: 'to_deg', head: 'To', value: (row) => row.to_deg, places: 2 },
  { key: 'before_mm', head: 'Largest gap before', value: (row) => row.before_mm, places: 2 },
  { key: 'after_mm', head: 'After', value: (row) => row.after_mm, places: 2 },
];

export const MADE_LEARNED_COLUMNS: readonly Column<MadeLearnedRow>[] = [
  { key: 'sheet', head: 'Sheet', value: (row) => row.sheet },
  { key: 'die_mm', head: 'Die', value: (row) => row.die_mm, places: 1 },
  { key: 'springback_deg', head: 'Sprang back', value: (row) => row.springback_deg, places: 2 },
  { key: 'springback_sd_deg', head: '+-', value: (row) => row.springback_sd_deg, places: 2 },
  { key: 'springback_count', head: 'From bends', value: (row) => row.springback_count },
  { key: 'k', head: 'K', value: (row) => row.k, places: 3 },
  { key: 'k_sd', head: '+-', value: (row) => row.k_sd, places: 3 },
  { key: 'k_count', head: 'From legs', value: (row) => row.k_count },
];
