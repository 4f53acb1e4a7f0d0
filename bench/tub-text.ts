/**
 * Texts of the language with as many panels as asked for: a row of basins, each a zigzag strip of eight legs closed by two
 * sides, tabbed and welded.
 */
const LEGS = [
  'c 70 falling 40 deg',
  'd 120 falling 5 deg',
  'e 60 falling 55 deg',
  'f 140 falling 3 deg',
  'g 50 falling 35 deg',
  'h to z 500 rising 80 deg',
] as const;

const PANELS_PER_BASIN = LEGS.length + 4;
const JOINED = '{ tabs loose 18 wide 14 deep every 70  weld tig }';

export interface Variant {
  /** Width of all basins, mm. */
  readonly across?: number;
  /** Shelf of the basin in the middle, mm. */
  readonly shelf?: number;
}

export const tubText = (panels: number, { across = 150, shelf = 120 }: Variant = {}): string => {
  const basins = Math.max(1, Math.round(panels / PANELS_PER_BASIN));
  return [
    'units mm',
    `tub "Row of ${basins} basins"`,
    'sheet skin = stainless thickness 1.2  radius 1.6',
    ...Array.from({ length: basins }, (_, i) => basinText(i, across, i === Math.floor(basins / 2) ? shelf : 120)),
    '',
  ].join('\n');
};

const basinText = (i: number, across: number, shelf: number): string =>
  [
    `strip s${i} of skin from (${i * 200}, 700, 500) heading front across right ${across} {`,
    `  panel a 90 falling 88 deg`,
    `  panel b ${shelf} falling 4 deg`,
    ...LEGS.map((leg) => `  panel ${leg}`),
    '}',
    `side l${i} of skin closes s${i}.left up to 500`,
    `side r${i} of skin closes s${i}.right up to 500`,
    `seam l${i} s${i} ${JOINED}`,
    `seam r${i} s${i} ${JOINED}`,
    `outlet o${i} in s${i}.g at center(s${i}.g) diameter 30 { lip 12 }`,
  ].join('\n');
