/** What is bought rather than cut: fasteners, wire cloth, sealant, filler. */
import type { Fastener } from '../../model.js';
import type { Job } from './job.js';
import { totalsOf } from './totals.js';

export interface HardwareRow {
  readonly item: string;
  readonly quantity: string;
  readonly where: string;
}

/** mm3. A cartridge: 310 mL, the common size. Common practice, no source. */
const CARTRIDGE_MM3 = 310_000;

export const hardwareOf = (job: Job): HardwareRow[] => [...fasteners(job), ...cloths(job), ...beads(job)];

const nameOf = ({ kind, thread, sealed }: Fastener): string =>
  `${kind === 'rivetnut' ? 'Rivet nut' : 'Screw with nut'} M${thread}${sealed ? ', sealed' : ''}`;

const fasteners = ({ tub }: Job): HardwareRow[] => {
  const counted = new Map<string, { count: number; where: Set<string> }>();
  for (const { fastener, panel } of tub.openings) {
    if (!fastener) continue;
    const known = counted.get(nameOf(fastener)) ?? { count: 0, where: new Set<string>() };
    known.count++;
    known.where.add(tub.panels[panel].name);
    counted.set(nameOf(fastener), known);
  }
  return [...counted].map(([item, { count, where }]) => ({ item, quantity: String(count), where: [...where].join(', ') }));
};

const cloths = ({ tub, units }: Job): HardwareRow[] =>
  tub.outlets.flatMap(({ name, strainer }): HardwareRow[] => {
    if (!strainer) return [];
    const mesh = strainer.meshPerInch === undefined ? `aperture ${units.fineOf(strainer.aperture ?? 0)}` : `mesh ${strainer.meshPerInch} per inch`;
    const wire = strainer.wire === undefined ? '' : `, wire ${units.fineOf(strainer.wire)}`;
    const [w, h] = strainer.size;
    return [{ item: `Wire cloth, ${mesh}${wire}`, quantity: `${units.length(w)} x ${units.length(h)} ${units.lengthUnit}`, where: `strainer of ${name}` }];
  });

const beads = (job: Job): HardwareRow[] => {
  const { weld, solder, sealant } = totalsOf(job);
  const { units } = job;
  const row = (item: string, { length, volume }: { readonly length: number; readonly volume: number }, more = ''): HardwareRow[] =>
    length > 0 ? [{ item, quantity: `${units.smallVolumeOf(volume)}${more}`, where: `${units.longOf(length)} of seams` }] : [];
  const cartridges = Math.ceil(sealant.volume / CARTRIDGE_MM3);
  return [
    ...row('Filler metal in the weld', weld),
    ...row('Solder', solder),
    ...row('Sealant', sealant, `, ${cartridges} cartridge${cartridges === 1 ? '' : 's'} of ${units.smallVolumeOf(CARTRIDGE_MM3)}`),
  ];
};
