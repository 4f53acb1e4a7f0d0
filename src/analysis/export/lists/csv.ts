/** Lists for a spreadsheet: the pieces to cut, the bends, the seams and what is bought. Comma separated, point decimals, units in the heads. */
import { reportArea, reportLength } from '../../report/numbers.js';
import { reportBends } from '../../report/bends.js';
import { reportParts } from '../../report/parts.js';
import type { Stages } from '../../stages/stages.js';
import { fastenerName, hardwareOf } from './hardware.js';
import { exportMarker, fileStem } from '../own-export.js';
import type { ExportFile } from '../exporter.js';

type Cell = string | number | null;

export function* csvFiles(stages: Stages): Iterable<ExportFile> {
  const stem = fileStem(stages.tub.name);
  const mark = exportMarker(stages.tub.name);
  yield { name: `${stem}-parts.csv`, content: csvOf(PART_HEADS, partCells(stages), mark) };
  yield { name: `${stem}-bends.csv`, content: csvOf(BEND_HEADS, bendCells(stages), mark) };
  yield { name: `${stem}-seams.csv`, content: csvOf(SEAM_HEADS, seamCells(stages), mark) };
  yield { name: `${stem}-hardware.csv`, content: csvOf(HARDWARE_HEADS, hardwareCells(stages), mark) };
}

const PART_HEADS = [
  'part',
  'sheet',
  'material',
  'thickness_mm',
  'quantity',
  'panels',
  'width_mm',
  'height_mm',
  'area_mm2',
  'cut_length_mm',
  'mass_kg',
];

const partCells = (stages: Stages): Cell[][] =>
  reportParts(stages).map((row) => [
    row.name,
    row.sheet,
    row.material,
    row.thickness_mm,
    row.quantity,
    row.panels.join(' '),
    ...(row.flat
      ? [row.flat.width_mm, row.flat.height_mm, row.flat.area_mm2, row.flat.cut_length_mm, row.flat.mass_kg]
      : [null, null, null, null, null]),
  ]);

const BEND_HEADS = [
  'bend',
  'panel_1',
  'panel_2',
  'angle_deg',
  'radius_mm',
  'k',
  'k_source',
  'allowance_mm',
  'setback_mm',
  'deduction_mm',
  'length_mm',
  'wet_face',
];

const bendCells = (stages: Stages): Cell[][] =>
  reportBends(stages).map((row) => [
    row.name,
    ...row.between,
    row.angle_deg,
    row.radius_mm,
    row.k,
    row.k_source,
    row.allowance_mm,
    row.setback_mm,
    row.deduction_mm,
    row.length_mm,
    row.wet_face,
  ]);

const SEAM_HEADS = [
  'seam',
  'edge',
  'joined_by',
  'length_mm',
  'tabs',
  'spots',
  'bead_mm3',
  'gap_expected_mm',
  'gap_at_most_mm',
];

const seamCells = (stages: Stages): Cell[][] =>
  stages.joints().seams.map(({ seam, name, method, length, runs, allowed }) => {
    const sum = (value: (run: (typeof runs)[number]) => number): number =>
      runs.reduce((total, run) => total + value(run), 0);
    return [
      name,
      stages.tub.seams[seam].style.kind,
      method.name,
      reportLength(length),
      sum(({ row }) => row?.centres.length ?? 0),
      sum(({ spots }) => spots.length),
      reportArea(sum(({ bead }) => bead.volume)),
      reportLength(Math.max(0, ...runs.map(({ gap }) => gap.expected))),
      reportLength(allowed),
    ];
  });

const HARDWARE_HEADS = ['item', 'count', 'width_mm', 'height_mm', 'length_mm', 'volume_mm3', 'where'];

const hardwareCells = (stages: Stages): Cell[][] =>
  hardwareOf(stages).map((item) => {
    if (item.kind === 'fastener') {
      return [fastenerName(item.fastener), item.count, null, null, null, null, item.where.join(' ')];
    }
    if (item.kind === 'wire cloth') {
      const { meshPerInch, size } = item.strainer;
      const name = meshPerInch === undefined ? 'wire cloth' : `wire cloth, ${meshPerInch} per inch`;
      return [name, 1, reportLength(size[0]), reportLength(size[1]), null, null, item.outlet];
    }
    return [item.kind, null, null, null, reportLength(item.length), reportArea(item.volumeMm3), item.where.join(', ')];
  });

/** RFC 4180: CRLF line ends, quotes where needed. A last column without cells carries the mark of an export. */
const csvOf = (heads: readonly string[], rows: readonly (readonly Cell[])[], mark: string): string =>
  [[...heads, mark], ...rows.map((row) => [...row, null])].map((row) => `${row.map(cellText).join(',')}\r\n`).join('');

const cellText = (cell: Cell): string => {
  const text = cell === null ? '' : String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
};
