import {
  MADE_BEND_COLUMNS,
  MADE_CORRECTION_COLUMNS,
  MADE_GAP_COLUMNS,
  MADE_LEARNED_COLUMNS,
  MADE_PANEL_COLUMNS,
  reportMade,
  type MadeBendRow,
  type MadeCorrectionRow,
  type MadeGapRow,
  type MadeLearnedRow,
  type MadePanelRow,
} from '../../../report/making/made.js';
import type { Block, Section } from '../layout/block.js';
import type { Job } from '../job.js';
import type { Units } from '../layout/units.js';
import { toldTable } from '../layout/told-table.js';

/** What was read of parts that are made, and what follows. Undefined: nothing is said to be made. */
export const madeSection = ({ stages, units }: Job): Section | undefined => {
  const made = reportMade(stages);
  if (!made) return undefined;
  const text = `Cut already: ${made.cut.join(', ')}. An open bend stands with the angle that closes the seams best; the numbers behind \u00b1 are standard deviations by what gauge and tape are worth.`;
  return {
    key: 'made',
    title: 'As made',
    starts: 'follows',
    blocks: [
      { kind: 'text', text },
      ...bendTable(units, made.bends),
      ...panelTable(units, made.panels),
      ...gapTable(units, made.gaps),
      ...correctionTable(units, made.corrections),
      ...learnedTable(units, made.learned),
    ],
  };
};

const bendTable = (units: Units, rows: readonly MadeBendRow[]): Block[] =>
  rows.length === 0
    ? []
    : [
        toldTable(units, MADE_BEND_COLUMNS, rows, [
          { key: 'name', share: 50 },
          { key: 'state', share: 18 },
          { key: 'planned_deg', share: 20 },
          { key: 'read_deg', share: 18 },
          { key: 'made_deg', share: 20 },
          { key: 'off_deg', share: 18 },
          { key: 'bent_to_deg', share: 20 },
          { key: 'springback_deg', share: 20 },
        ]),
      ];

const panelTable = (units: Units, rows: readonly MadePanelRow[]): Block[] =>
  rows.length === 0
    ? []
    : [
        toldTable(units, MADE_PANEL_COLUMNS, rows, [
          { key: 'panel', share: 40 },
          { key: 'planned_mm', share: 21 },
          { key: 'made_mm', share: 21 },
          { key: 'planned_slope_deg', share: 21 },
          { key: 'made_slope_deg', share: 21 },
          { key: 'slope_sd_deg', share: 17, head: '\u00b1' },
          { key: 'end_up_mm', share: 21 },
          { key: 'end_up_sd_mm', share: 17, head: '\u00b1' },
        ]),
      ];

const gapTable = (units: Units, rows: readonly MadeGapRow[]): Block[] =>
  rows.length === 0
    ? []
    : [
        toldTable(units, MADE_GAP_COLUMNS, rows, [
          { key: 'part', share: 45 },
          { key: 'panel', share: 45 },
          { key: 'length_mm', share: 28 },
          { key: 'start_mm', share: 32 },
          { key: 'end_mm', share: 32 },
        ]),
      ];

const correctionTable = (units: Units, rows: readonly MadeCorrectionRow[]): Block[] =>
  rows.length === 0
    ? []
    : [
        toldTable(units, MADE_CORRECTION_COLUMNS, rows, [
          { key: 'name', share: 60 },
          { key: 'from_deg', share: 28 },
          { key: 'to_deg', share: 28 },
          { key: 'before_mm', share: 34 },
          { key: 'after_mm', share: 34 },
        ]),
      ];

const learnedTable = (units: Units, rows: readonly MadeLearnedRow[]): Block[] =>
  rows.length === 0
    ? []
    : [
        toldTable(units, MADE_LEARNED_COLUMNS, rows, [
          { key: 'sheet', share: 35 },
          { key: 'die_mm', share: 20 },
          { key: 'springback_deg', share: 25 },
          { key: 'springback_sd_deg', share: 20, head: '\u00b1' },
          { key: 'springback_count', share: 22 },
          { key: 'k', share: 22 },
          { key: 'k_sd', share: 20, head: '\u00b1' },
          { key: 'k_count', share: 22 },
        ]),
      ];
