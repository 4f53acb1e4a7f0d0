/** Texts of the language with as many panels as asked for: zigzag strips of eight legs, each closed by two sides. */
const LEGS = [
  ['a', 60, 88],
  ['b', 120, 4],
  ['c', 70, 40],
  ['d', 120, 5],
  ['e', 60, 55],
  ['f', 140, 3],
  ['g', 50, 35],
  ['h', 110, 2],
] as const;

const PANELS_PER_STRIP = LEGS.length + 2;

export const tubText = (panels: number): string => {
  const strips = Math.max(1, Math.round(panels / PANELS_PER_STRIP));
  const blocks = Array.from({ length: strips }, (_, i) => stripText(i));
  return [
    'units mm',
    `tub "Row of ${strips} channels"`,
    'let fall = 3 deg',
    'sheet skin = stainless thickness 1.2  radius 1.2',
    ...blocks,
    '',
  ].join('\n');
};

const stripText = (i: number): string => {
  const legs = LEGS.map(([name, length, falling]) => `  panel ${name} ${length} falling ${falling} deg`);
  return [
    `strip s${i} of skin from (${i * 200}, 700, 500) heading front across right 150 {`,
    ...legs,
    '}',
    `side l${i} of skin closes s${i}.left up to 520`,
    `side r${i} of skin closes s${i}.right up to 520`,
  ].join('\n');
};
