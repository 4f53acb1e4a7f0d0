import { reportHardware, type HardwareRow } from '../../../report/hardware.js';
import { BOX, type Section } from '../block.js';
import type { Job } from '../job.js';
import type { Units } from '../units.js';

/** Undefined: nothing has to be bought. */
export const hardwareSection = (job: Job): Section | undefined => {
  const items = reportHardware(job.stages);
  if (items.length === 0) return undefined;
  return {
    title: 'Hardware and supplies',
    starts: 'follows',
    blocks: [
      {
        kind: 'table',
        columns: [
          { head: 'Item', align: 'left', share: 62 },
          { head: 'Quantity', align: 'right', share: 48 },
          { head: 'Where', align: 'left', share: 50 },
          { head: 'Here', align: 'middle', share: 16 },
        ],
        rows: items.map((item) => [...rowOf(item, job.units), BOX]),
      },
      {
        kind: 'text',
        text: 'Amounts are those in the finished joints; add what starting, stopping and wiping take. Hole sizes for rivet nuts differ by maker: the data sheet of the part in hand governs.',
      },
    ],
  };
};

/** mm3. A cartridge: 310 mL, the common size. Common practice, no source. */
const CARTRIDGE_MM3 = 310_000;

const rowOf = (row: HardwareRow, units: Units): readonly [string, string, string] => {
  const where = row.where.join(', ');
  if (row.kind === 'fastener') return [row.item, String(row.count), where];
  if (row.kind === 'wire cloth') {
    const size = `${units.length(row.width_mm ?? 0)} x ${units.length(row.height_mm ?? 0)} ${units.lengthUnit}`;
    return [`${row.item}, ${clothText(row, units)}`, size, `strainer of ${where}`];
  }
  const volume = 1000 * (row.volume_mL ?? 0);
  const cartridges = Math.ceil(volume / CARTRIDGE_MM3);
  const more =
    row.kind === 'sealant'
      ? `, ${cartridges} cartridge${cartridges === 1 ? '' : 's'} of ${units.smallVolumeOf(CARTRIDGE_MM3)}`
      : '';
  return [row.item, `${units.smallVolumeOf(volume)}${more}`, `${units.longOf(row.length_mm ?? 0)}: ${where}`];
};

const clothText = ({ mesh_per_inch, aperture_mm, wire_mm }: HardwareRow, units: Units): string => {
  const holes =
    mesh_per_inch === null ? `aperture ${units.fineOf(aperture_mm ?? 0)}` : `mesh ${mesh_per_inch} per inch`;
  return wire_mm === null ? holes : `${holes}, wire ${units.fineOf(wire_mm)}`;
};
