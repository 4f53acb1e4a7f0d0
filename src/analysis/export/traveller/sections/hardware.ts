import { HARDWARE_COLUMNS, reportHardware, type HardwareRow } from '../../../report/joining/hardware.js';
import { BOX, type Section } from '../layout/block.js';
import type { Job } from '../job.js';
import { toldTable } from '../layout/told-table.js';
import { wordsIn, type Units } from '../layout/units.js';

/** Undefined: nothing has to be bought. */
export const hardwareSection = (job: Job): Section | undefined => {
  const items = reportHardware(job.stages);
  if (items.length === 0) return undefined;
  return {
    key: 'hardware',
    title: 'Hardware and supplies',
    starts: 'follows',
    blocks: [
      toldTable(job.units, HARDWARE_COLUMNS, items, [
        { head: 'Item', align: 'left', share: 62, cell: (row) => itemText(row, job.units) },
        { head: 'Quantity', align: 'right', share: 48, cell: (row) => quantityText(row, job.units) },
        { head: 'Where', align: 'left', share: 50, cell: (row) => whereText(row, job.units) },
        { head: 'Here', align: 'middle', share: 16, cell: () => BOX },
      ]),
      {
        kind: 'text',
        text: 'Amounts are those in the finished joints; add what starting, stopping and wiping take. Hole sizes for rivet nuts differ by maker: the data sheet of the part in hand governs.',
      },
    ],
  };
};

/** mm3. A cartridge: 310 mL, the common size. Common practice, no source. */
const CARTRIDGE_MM3 = 310_000;

const itemText = (row: HardwareRow, units: Units): string => {
  if (row.kind === 'wire cloth') return `${row.item}, ${clothText(row, units)}`;
  if (row.kind !== 'lip') return wordsIn(units, row.item);
  return `${row.item}: \u00d8 ${units.fineOf(row.width_mm ?? 0)}, ${units.fineOf(row.height_mm ?? 0)} high`;
};

const isCounted = ({ kind }: HardwareRow): boolean => kind === 'fastener' || kind === 'rivet' || kind === 'lip';

const quantityText = (row: HardwareRow, units: Units): string => {
  if (isCounted(row)) return String(row.count);
  if (row.kind === 'wire cloth')
    return `${units.length(row.width_mm ?? 0)} x ${units.length(row.height_mm ?? 0)} ${units.lengthUnit}`;
  if (row.kind === 'gasket') return `${units.longOf(row.length_mm ?? 0)}, ${units.lengthOf(row.width_mm ?? 0)} wide`;
  const volume = 1000 * (row.volume_mL ?? 0);
  if (row.kind !== 'sealant') return units.smallVolumeOf(volume);
  const cartridges = Math.ceil(volume / CARTRIDGE_MM3);
  return `${units.smallVolumeOf(volume)}, ${cartridges} cartridge${cartridges === 1 ? '' : 's'} of ${units.smallVolumeOf(CARTRIDGE_MM3)}`;
};

const whereText = (row: HardwareRow, units: Units): string => {
  const where = row.where.join(', ');
  if (isCounted(row) || row.kind === 'gasket') return where;
  return row.kind === 'wire cloth' ? `strainer of ${where}` : `${units.longOf(row.length_mm ?? 0)}: ${where}`;
};

const clothText = ({ mesh_per_inch, aperture_mm, wire_mm }: HardwareRow, units: Units): string => {
  const holes =
    mesh_per_inch === null ? `aperture ${units.fineOf(aperture_mm ?? 0)}` : `mesh ${mesh_per_inch} per inch`;
  return wire_mm === null ? holes : `${holes}, wire ${units.fineOf(wire_mm)}`;
};
