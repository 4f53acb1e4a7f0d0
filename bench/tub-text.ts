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
const joined = (every: number): string => `{ tabs loose 18 wide 14 deep every ${every}  weld tig }`;

export interface Variant {
  /** Width of all basins, mm. */
  readonly across?: number;
  /** Shelf of the basin in the middle, mm. */
  readonly shelf?: number;
  /** Clips along the seams stand so far apart at most, mm. */
  readonly every?: number;
}

export const tubText = (panels: number, { across = 150, shelf = 120, every = 70 }: Variant = {}): string => {
  const basins = Math.max(1, Math.round(panels / PANELS_PER_BASIN));
  return [
    'units mm',
    `tub "Row of ${basins} basins"`,
    'sheet skin = stainless thickness 1.2  radius 1.6',
    ...Array.from({ length: basins }, (_, i) =>
      basinText(i, { across, shelf: i === Math.floor(basins / 2) ? shelf : 120, every }),
    ),
    '',
  ].join('\n');
};

const basinText = (i: number, { across, shelf, every }: Required<Variant>): string =>
  [
    `strip s${i} of skin from (${i * 200}, 700, 500) heading front across right ${across} {`,
    `  panel a 90 falling 88 deg`,
    `  panel b ${shelf} falling 4 deg`,
    ...LEGS.map((leg) => `  panel ${leg}`),
    '}',
    `side l${i} of skin closes s${i}.left up to 500`,
    `side r${i} of skin closes s${i}.right up to 500`,
    `seam l${i} s${i} ${joined(every)}`,
    `seam r${i} s${i} ${joined(every)}`,
    `outlet o${i} in s${i}.g at center(s${i}.g) diameter 30 { lip 12 }`,
  ].join('\n');

/** The same with three dividers to a hundred panels, in a long box behind the basins: of any height, so that some of them are drowned. */
export const chambersText = (panels: number): string => {
  const count = Math.max(1, Math.round((3 * panels) / 100));
  const long = 100 * count + 200;
  return [
    tubText(Math.max(1, panels - count)),
    `strip box of skin from (0, ${2000 + long}, 400) heading front across right 300 {`,
    `  panel back to z 0 falling 90 deg`,
    `  panel bed ${long} level`,
    `  panel front to z 400 rising 90 deg`,
    '}',
    'side boxLeft of skin closes box.left up to 400',
    'side boxRight of skin closes box.right up to 400',
    ...Array.from({ length: count }, (_, i) => {
      const top = 100 + ((i * 7919) % 211);
      const seams = ['box.bed', 'boxLeft', 'boxRight'].map((on) => `seam d${i} ${on} { weld tig }`);
      return [`panel d${i} of skin stands on box.bed at ${2000 + 100 * (i + 1)} up to ${top}`, ...seams].join('\n');
    }),
    'outlet boxDrain in box.bed at (150, 2060, 0) diameter 40 { lip 15 }',
    `inflow 20 L/min on box.bed at (150, ${1950 + long}, 0)`,
    '',
  ].join('\n');
};
