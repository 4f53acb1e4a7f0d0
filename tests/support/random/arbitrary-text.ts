import fc from 'fast-check';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { arbitraryDrainedTub } from './arbitrary-tub.js';

const whole = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max });
const half = (min: number, max: number): fc.Arbitrary<number> => whole(2 * min, 2 * max).map((n) => n / 2);

const arbitrarySeam = fc.oneof(
  fc
    .record({ wide: whole(4, 40), deep: whole(4, 20), every: whole(20, 120), spots: whole(1, 4), bead: half(0, 2) })
    .map(
      ({ wide, deep, every, spots, bead }) =>
        `tabs loose ${wide} wide ${deep} deep every ${every} spots ${spots}${bead > 0 ? ` sealant ${bead}` : ''}`,
    ),
  fc
    .record({ lap: whole(6, 24), rivets: whole(12, 60) })
    .map(({ lap, rivets }) => `lap ${lap} rivets every ${rivets} sealant 2`),
  whole(1, 9).map((tenths) => `weld tig gap at most ${tenths / 10}`),
);

/** A basin as builders write one, with most of its numbers drawn at random: some of them will not do. */
const arbitraryBasin = fc
  .record({
    thickness: fc.constantFrom(0.8, 1, 1.2, 1.5, 2),
    radius: fc.constantFrom(0.5, 0.8, 1.2, 2, 3),
    across: whole(120, 700),
    rim: whole(180, 320),
    fall: half(0, 6),
    shelf: whole(120, 400),
    step: whole(5, 120),
    steep: whole(15, 80),
    base: whole(60, 160),
    seam: arbitrarySeam,
    diameter: whole(8, 60),
    lip: whole(0, 20),
    hem: fc.option(whole(2, 14)),
    flow: whole(1, 60),
    strainer: fc.option(fc.record({ mesh: whole(10, 80), blocked: whole(10, 80) })),
    tank: fc.option(fc.record({ capacity: whole(2, 60), working: whole(1, 60) })),
    hole: fc.option(fc.record({ x: whole(4, 400), z: whole(90, 240), diameter: whole(2, 20) })),
  })
  .map((t) =>
    [
      'units mm',
      `sheet skin = stainless thickness ${t.thickness} radius ${t.radius}`,
      `let fall = ${t.fall} deg`,
      `let rim = ${t.rim}`,
      `strip floor of skin from (0, 600, rim) heading front across right ${t.across} {`,
      '  panel back 60 falling 90 deg',
      `  panel shelf ${t.shelf} falling fall`,
      `  panel chute ${t.step} falling ${t.steep} deg`,
      `  panel base ${t.base} falling fall`,
      '  panel front to z rim rising 85 deg',
      '}',
      'side left of skin closes floor.left up to rim',
      'side right of skin closes floor.right up to rim',
      `seam left floor { ${t.seam} }`,
      `seam right floor { ${t.seam} }`,
      `outlet drain in floor.base at center(floor.base) diameter ${t.diameter} { lip ${t.lip}${t.strainer ? ` strainer mesh ${t.strainer.mesh} size 90 by 60 blocked ${t.strainer.blocked} %` : ''} }`,
      ...(t.hem === null ? [] : [`rim floor.front.end hem closed ${t.hem}`]),
      ...(t.hole ? [`hole in left at (0, ${t.hole.x}, ${t.hole.z}) diameter ${t.hole.diameter}`] : []),
      'liquid water',
      `inflow ${t.flow} L/min on floor.shelf`,
      'path floor.shelf floor.chute floor.base drain at least 1.5 deg',
      ...(t.tank ? [`tank catch ${t.tank.capacity} L working ${t.tank.working} L under drain`] : []),
      '',
    ].join('\n'),
  );

/** A tub by its corners, to a tenth of a millimetre. */
const textOf = (tub: Tub): string => {
  const number = (value: number): string => String(Number(value.toFixed(1)) + 0);
  return [
    'units mm',
    'sheet skin = steel thickness 1.2 radius 1.2',
    ...tub.panels.map(
      ({ name, corners }) =>
        `panel ${name} of skin = ${corners.map((corner) => `(${corner.map(number).join(', ')})`).join(' ')}`,
    ),
    ...tub.bends.map(({ panels: [a, b] }) => `bend ${tub.panels[a].name} ${tub.panels[b].name}`),
    ...tub.outlets.map(
      ({ name, panel, center, diameter }) =>
        `outlet ${name} in ${tub.panels[panel].name} at (${center.map(number).join(', ')}) diameter ${number(diameter)}`,
    ),
    '',
  ].join('\n');
};

/** Random tubs as texts: most stated as builders do, the others by the corners of all their panels. */
export const arbitraryText: fc.Arbitrary<string> = fc.oneof(
  { arbitrary: arbitraryBasin, weight: 3 },
  { arbitrary: arbitraryDrainedTub.map(({ tub }) => textOf(tub)), weight: 1 },
);
