/** Lists for a spreadsheet: the pieces to cut, the bends, the seams and what is bought; the columns are those of the report. */
import { BEND_COLUMNS, reportBends } from '../../report/bends.js';
import { HARDWARE_COLUMNS, reportHardware } from '../../report/hardware.js';
import { PART_COLUMNS, reportParts } from '../../report/parts.js';
import { reportSeams, SEAM_COLUMNS } from '../../report/seams.js';
import { toCsv, type Column } from '../../report/table.js';
import type { Stages } from '../../stages/stages.js';
import { fileStem } from '../file-names.js';
import type { ExportFile } from '../exporter.js';

export function* csvFiles(stages: Stages): Iterable<ExportFile> {
  const { name } = stages.tub;
  const file = <Row>(what: string, columns: readonly Column<Row>[], rows: readonly Row[]): ExportFile => ({
    name: `${fileStem(name)}-${what}.csv`,
    content: toCsv([tubColumn(name), ...columns], rows),
  });
  yield file('parts', PART_COLUMNS, reportParts(stages));
  yield file('bends', BEND_COLUMNS, reportBends(stages));
  yield file('seams', SEAM_COLUMNS, reportSeams(stages));
  yield file('hardware', HARDWARE_COLUMNS, reportHardware(stages));
}

/** The tub in every row tells lists apart that are put together, and whose export a list is. */
const tubColumn = (name: string): Column<unknown> => ({ key: 'tub', head: 'tub', value: () => name });

const headOf = <Row>(columns: readonly Column<Row>[]): string => toCsv([tubColumn(''), ...columns], []).trimEnd();

/** The first lines of all lists, by which they are known as exports. */
export const LIST_HEADS: readonly string[] = [
  headOf(PART_COLUMNS),
  headOf(BEND_COLUMNS),
  headOf(SEAM_COLUMNS),
  headOf(HARDWARE_COLUMNS),
];
