/**
 * Texts of the language with as many panels as asked for: a row of basins, each a zigzag strip of eight legs closed by two
 * sides, tabbed and welded.
 */
const LEGS = [
  'a 90 falling 88 deg',
  'b 120 falling 4 deg',
  'c 70 falling 40 deg',
  'd 120 falling 5 deg',
  'e 60 falling 55 deg',
  'f 140 falling 3 deg',
  'g 50 falling 35 deg',
  'h to z 500 rising 80 deg',
] as const;

const PANELS_PER_BASIN = LEGS.length + 2;
const JOINED = '{ tabs loose 18 wide 14 deep every 70  weld tig }';

export const tubText = (panels: number): string => {
  const basins = Math.max(1, Math.round(panels / PANELS_PER_BASIN));
  return [
    'units mm',
    `tub "Row of ${basins} basins"`,
    'sheet skin = stainless thickness 1.2  radius 1.6',
    ...Array.from({ length: basins }, (_, i) => basinText(i)),
    '',
  ].join('\n');
};

const basinText = (i: number): string =>
  [
    `strip s${i} of skin from (${i * 200}, 700, 500) heading front across right 150 {`,
    ...LEGS.map((leg) => `  panel ${leg}`),
    '}',
    `side l${i} of skin closes s${i}.left up to 500`,
    `side r${i} of skin closes s${i}.right up to 500`,
    `seam l${i} s${i} ${JOINED}`,
    `seam r${i} s${i} ${JOINED}`,
    `outlet o${i} in s${i}.g at center(s${i}.g) diameter 30 { lip 12 }`,
  ].join('\n');
