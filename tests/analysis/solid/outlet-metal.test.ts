/** Lips, strainer frames and their screws: they take room, and weigh. */
import { expect, it } from 'vitest';
import { metalInMetal } from '../../../src/analysis/rules/shape/metal-in-metal.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';

const tray = (outlet: string, more = ''): string => `units mm
sheet skin = stainless thickness 1.5 radius 1.5
panel bed of skin = (0, 0, 0) (300, 0, 0) (300, 200, 0) (0, 200, 0)
outlet drain in bed at (150, 100, 0) diameter 40 { ${outlet} }
${more}`;

const told = (outlet: string, more: string): readonly string[] =>
  analyseText(tray(outlet, more), { rules: [metalInMetal] }).findings.map(({ message }) => message.split(' take')[0]);

const standing = (corners: string): string => `support stand { panel post of skin = ${corners} }`;

it('a lip and a frame take the room that they are in, and no more', () => {
  const below = (z: number): string =>
    standing(`(100, 100, ${z}) (200, 100, ${z}) (200, 100, ${z - 40}) (100, 100, ${z - 40})`);
  expect(told('lip 20', below(-4))).toEqual(['`stand.post` and the lip of `drain`']);
  // The lip ends 21.5 mm below the wet face.
  expect(told('lip 20', below(-21.6))).toEqual([]);
  const strainer = 'strainer mesh 20 wire 0.4 size 90 by 56 blocked 50 % bolted M5 sealed';
  const above = (y: number): string => standing(`(140, ${y}, 0.4) (160, ${y}, 0.4) (160, ${y}, 60) (140, ${y}, 60)`);
  expect(told(strainer, above(140))).toContain('`stand.post` and the strainer frame of `drain`');
  // The frame is 96 mm deep.
  expect(told(strainer, above(160))).toEqual([]);
});

it('a lip weighs what its pipe does, and screws of a frame weigh', () => {
  const massOf = (text: string): ReturnType<ReturnType<typeof createStages>['mass']> =>
    createStages(analyseText(text, { rules: [] }).tub).mass();
  // By hand: a pipe of 20 mm, bore 40, wall 1.5, of stainless: 8000 kg/m3 (EN 10088-1 tells 7.9 to 8.0).
  const volume = Math.PI * (21.5 ** 2 - 20 ** 2) * 20;
  const more = massOf(tray('lip 20')).empty.mass - massOf(tray('')).empty.mass;
  expect(more / (volume * 1e-9)).toBeGreaterThan(7850);
  expect(more / (volume * 1e-9)).toBeLessThan(8050);
  const { fasteners } = massOf(tray('strainer mesh 20 wire 0.4 size 90 by 56 blocked 50 % bolted M5 sealed'));
  expect(fasteners.mass).toBeGreaterThan(0.01);
});
