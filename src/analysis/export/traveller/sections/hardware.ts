import type { Strainer } from '../../../model/tub.js';
import { fastenerName, hardwareOf, type HardwareItem } from '../../lists/hardware.js';
import { BOX, type Section } from '../block.js';
import type { Job } from '../job.js';
import type { Units } from '../units.js';

/** Undefined: nothing has to be bought. */
export const hardwareSection = (job: Job): Section | undefined => {
  const items = hardwareOf(job.stages);
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

const BEADS = { 'weld filler': 'Filler metal in the weld', solder: 'Solder', sealant: 'Sealant' } as const;

const rowOf = (item: HardwareItem, units: Units): readonly [string, string, string] => {
  if (item.kind === 'fastener') return [fastenerName(item.fastener), String(item.count), item.where.join(', ')];
  if (item.kind === 'wire cloth') {
    const [w, h] = item.strainer.size;
    return [
      `Wire cloth, ${clothText(item.strainer, units)}`,
      `${units.length(w)} x ${units.length(h)} ${units.lengthUnit}`,
      `strainer of ${item.outlet}`,
    ];
  }
  const cartridges = Math.ceil(item.volumeMm3 / CARTRIDGE_MM3);
  const more =
    item.kind === 'sealant'
      ? `, ${cartridges} cartridge${cartridges === 1 ? '' : 's'} of ${units.smallVolumeOf(CARTRIDGE_MM3)}`
      : '';
  return [
    BEADS[item.kind],
    `${units.smallVolumeOf(item.volumeMm3)}${more}`,
    `${units.longOf(item.length)}: ${item.where.join(', ')}`,
  ];
};

const clothText = ({ meshPerInch, aperture, wire }: Strainer, units: Units): string => {
  const holes = meshPerInch === undefined ? `aperture ${units.fineOf(aperture ?? 0)}` : `mesh ${meshPerInch} per inch`;
  return wire === undefined ? holes : `${holes}, wire ${units.fineOf(wire)}`;
};
