/** Lists for a spreadsheet: the pieces to cut, the bends, the seams and what is bought; the columns are those of the report. */
import { BEND_COLUMNS, reportBends } from '../../report/bends.js';
import { HARDWARE_COLUMNS, reportHardware } from '../../report/hardware.js';
import { PART_COLUMNS, reportParts } from '../../report/parts.js';
import { reportSeams, SEAM_COLUMNS } from '../../report/seams.js';
import { toCsv, type Column } from '../../report/table.js';
import type { Stages } from '../../stages/stages.js';
import { exportMarker, fileStem } from '../own-export.js';
import type { ExportFile } from '../exporter.js';

export function* csvFiles(stages: Stages): Iterable<ExportFile> {
  const stem = fileStem(stages.tub.name);
  const mark = exportMarker(stages.tub.name);
  const file = <Row>(name: string, columns: readonly Column<Row>[], rows: readonly Row[]): ExportFile => ({
    name: `${stem}-${name}.csv`,
    // A last column without cells carries the mark of an export.
    content: toCsv([...columns, { key: mark, head: '', value: () => null }], rows),
  });
  yield file('parts', PART_COLUMNS, reportParts(stages));
  yield file('bends', BEND_COLUMNS, reportBends(stages));
  yield file('seams', SEAM_COLUMNS, reportSeams(stages));
  yield file('hardware', HARDWARE_COLUMNS, reportHardware(stages));
}
