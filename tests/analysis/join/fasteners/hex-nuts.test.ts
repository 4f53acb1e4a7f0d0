/** Rivet nuts with hexagonal bodies: holes in flats, bodies, and what is to be bought. */
import { expect, it } from 'vitest';
import { areaOfContour } from '../../../../src/analysis/geometry/contour.js';
import { fastenerGrip } from '../../../../src/analysis/rules/join/fastener-grip.js';
import { reportHardware } from '../../../../src/analysis/report/joining/hardware.js';
import { createStages } from '../../../../src/analysis/stages/stages.js';
import { analyseText, codesOf } from '../../../support/analyse-text.js';

const text = (nuts: string, thickness = 1.5): string => `units mm
sheet skin = stainless thickness 1.5 radius 1.5
sheet back = steel thickness ${thickness} radius 1.5
panel base of skin = (0, 0, 0) (200, 0, 0) (200, 100, 0) (0, 100, 0)
panel rail of back = (0, 0, ${-thickness}) (200, 0, ${-thickness}) (200, 40, ${-thickness}) (0, 40, ${-thickness})
seam base rail { bolted M6 every 60 ${nuts} in rail }
hole in base from (30, 80, 0) to (170, 80, 0) count 3 ${nuts} M5 sealed
`;

const stages = createStages(analyseText(text('rivetnut hex'), { rules: [] }).tub);
const holesOf = (part: string): readonly number[] =>
  (stages.flats().find((flat) => flat?.name === part)?.holes ?? []).map(({ contour }) =>
    Math.abs(areaOfContour(contour)),
  );

// By hand: a hexagon of width f from side to side has sqrt(3) / 2 f^2. Widths of 9 and 7 mm: the usual metric series, from memory.
const hexagon = (flats: number): number => (Math.sqrt(3) / 2) * flats ** 2;
const round = (diameter: number): number => (Math.PI / 4) * diameter ** 2;

it('cuts hexagons for the nuts and circles for the screws', () => {
  expect(holesOf('rail')).toHaveLength(4);
  for (const area of holesOf('rail')) expect(area).toBeCloseTo(hexagon(9), 6);
  const inBase = [...holesOf('base')].sort((a, b) => a - b);
  expect(inBase).toHaveLength(7);
  for (const area of inBase.slice(0, 4)) expect(area).toBeCloseTo(round(6.6), 6);
  for (const area of inBase.slice(4)) expect(area).toBeCloseTo(hexagon(7), 6);
});

it('has hexagonal bodies', () => {
  const nuts = stages.fasteners().filter(({ name }) => name.includes('rivet nut'));
  expect(nuts).toHaveLength(4);
  for (const { plates } of nuts) expect(Math.abs(areaOfContour(plates[0].contour))).toBeCloseTo(hexagon(9), 6);
});

it('lists them apart from round ones', () => {
  const items = reportHardware(stages).map(({ item, count }) => `${count} ${item}`);
  expect(items).toContain('4 Hexagonal rivet nut M6');
  expect(items).toContain('3 Hexagonal rivet nut M5, sealed');
});

it('judges the grip of the sheet that carries them', () => {
  const codes = (thickness: number): readonly string[] =>
    codesOf(analyseText(text('rivetnut', thickness), { rules: [fastenerGrip] }));
  expect(codes(3)).toEqual([]);
  expect(codes(12)).toEqual(['join/fastener-grip']);
});
