/** Lists for a spreadsheet: the pieces to cut, the bends, the seams and what is bought; the columns are those of the report. */
import { BEND_COLUMNS, reportBends } from '../../report/making/bends.js';
import { HARDWARE_COLUMNS, reportHardware } from '../../report/joining/hardware.js';
import { PART_COLUMNS, reportParts } from '../../report/making/parts.js';
import { reportSeams, SEAM_COLUMNS } from '../../report/joining/seams.js';
import { toCsv, type Column } from '../../report/table.js';
import type { Stages } from '../../stages/stages.js';
import { fileStem, listNames, type ListName } from '../file-names.js';
import type { ExportFile } from '../exporter.js';

export function* csvFiles(stages: Stages): Iterable<ExportFile> {
  const { name } = stages.tub;
  for (const list of listNames) yield { name: `${fileStem(name)}-${list}.csv`, content: lists[list].csvOf(stages) };
}

interface List {
  readonly csvOf: (stages: Stages) => string;
  readonly head: string;
}

const listOf = <Row>(columns: readonly Column<Row>[], rowsOf: (stages: Stages) => readonly Row[]): List => ({
  csvOf: (stages) => toCsv([tubColumn(stages.tub.name), ...columns], rowsOf(stages)),
  head: toCsv([tubColumn(''), ...columns], []).trimEnd(),
});

/** The tub in every row tells lists apart that are put together, and whose export a list is. */
const tubColumn = (name: string): Column<unknown> => ({ key: 'tub', head: 'tub', value: () => name });

const lists: Readonly<Record<ListName, List>> = {
  parts: listOf(PART_COLUMNS, reportParts),
  bends: listOf(BEND_COLUMNS, reportBends),
  seams: listOf(SEAM_COLUMNS, reportSeams),
  hardware: listOf(HARDWARE_COLUMNS, reportHardware),
};

/** The first lines of all lists, by which they are known as exports. */
export const LIST_HEADS: readonly string[] = listNames.map((list) => lists[list].head);
