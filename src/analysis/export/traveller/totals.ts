/** Sums for the cover. */
import { metalWords } from '../../model/wording.js';
import { lengthOfContour } from '../../geometry/contour.js';
import { cutParts } from '../../stages/flats-to-cut.js';
import { reportHardware } from '../../report/joining/hardware.js';
import { strokesOf, type Job } from './job.js';

export interface BeadTotal {
  readonly length: number;
  /** mm3. */
  readonly volume: number;
}

export interface Totals {
  /** Of what is still to be cut; so are the sums of its cuts and bends. */
  readonly pieces: number;
  /** Names of what is cut already. */
  readonly cut: readonly string[];
  /** Outlines and holes of all pieces, mm. */
  readonly cutLength: number;
  /** Bend lines of all pieces. */
  readonly bends: number;
  readonly strokes: number;
  readonly spots: number;
  readonly weld: BeadTotal;
  readonly solder: BeadTotal;
  readonly sealant: BeadTotal;
  /** What is taken from stock, one line for each kind of sheet. */
  readonly sheets: readonly { readonly name: string; readonly value: string }[];
}

export const totalsOf = (job: Job): Totals => {
  const { stages } = job;
  const cut = cutParts(stages);
  const flats = job.flats.filter(({ part }) => !cut.has(part ?? -1));
  const over = (value: (flat: (typeof flats)[number]) => number): number =>
    flats.reduce((sum, flat) => sum + flat.quantity * value(flat), 0);
  const runs = stages.joints().seams.flatMap((seam) => seam.runs);
  const items = reportHardware(stages);
  const bead = (kind: 'weld filler' | 'solder' | 'sealant'): BeadTotal => {
    const item = items.find((one) => one.kind === kind);
    return { length: item?.length_mm ?? 0, volume: 1000 * (item?.volume_mL ?? 0) };
  };
  return {
    pieces: over(() => 1),
    cut: job.flats.filter((flat) => !flats.includes(flat)).map(({ name }) => name),
    cutLength: over(
      (flat) =>
        lengthOfContour(flat.outline) + flat.holes.reduce((sum, { contour }) => sum + lengthOfContour(contour), 0),
    ),
    bends: over((flat) => flat.bends.length),
    strokes: over((flat) => strokesOf(job, flat).length),
    spots: runs.reduce((sum, { spots }) => sum + spots.length, 0),
    weld: bead('weld filler'),
    solder: bead('solder'),
    sealant: bead('sealant'),
    sheets: sheetTotals(job),
  };
};

const sheetTotals = (job: Job): Totals['sheets'] => {
  const { tub, units, nest } = job;
  return tub.sheets.flatMap((sheet, index) => {
    if (!job.flats.some((flat) => flat.sheet === index)) return [];
    const blanks = nest.sheets.filter((blank) => blank.placed.some(({ flat }) => flat.sheet === index));
    const gauge = sheet.gauge === undefined ? '' : ` (${sheet.gauge} ga)`;
    const sizes = new Map<string, number>();
    for (const { size } of blanks) {
      const key = `${units.length(size[0])} x ${units.length(size[1])} ${units.lengthUnit}`;
      sizes.set(key, (sizes.get(key) ?? 0) + 1);
    }
    const from = [...sizes].map(([size, count]) => `${count} blank${count === 1 ? '' : 's'} of ${size}`).join(', ');
    return [
      {
        name: sheet.name,
        value: `${metalWords(sheet)} ${units.fineOf(sheet.thickness)}${gauge}${from === '' ? '' : `, ${from}`}`,
      },
    ];
  });
};
