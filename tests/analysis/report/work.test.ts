import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { reportFaces } from '../../../src/analysis/report/joining/faces.js';
import { reportTubMass } from '../../../src/analysis/report/mass.js';
import { reportWork, type WorkRow } from '../../../src/analysis/report/making/work.js';
import { analyseText } from '../../support/analyse-text.js';

const plate = (rates: string): string => `units mm
tub "Plate"
sheet skin = stainless thickness 2  radius 3
point A = (0, 0, 0)  point B = (500, 0, 0)  point C = (500, 400, 0)  point D = (0, 400, 0)
panel base of skin = A B C D
flange lip on base[A B] turned up 90 deg by 60
hole in base at (250, 200, 0) diameter 100
shop "s" { press brake p { force 25 ton  bed 800  die 16  punch radius 1  nose 30 deg  depth 90  opening 180 } ${rates} }
`;

const workOf = (rates: string): ReturnType<typeof reportWork> => reportWork(analyseText(plate(rates)).stages);
const rowOf = (rows: readonly WorkRow[], work: string): WorkRow | undefined => rows.find((row) => row.work === work);

describe('work of a plate with a hole and one bend, by hand', () => {
  test('times and money are amounts by the rates that are stated', () => {
    const { rows, time_s, cost_money, not_reckoned } = workOf(
      'rates { cut 2 m/min  pierce 3 sec  stroke 0.75 min  work 60  metal 4.5 }',
    );
    const cut = rowOf(rows, 'cut');
    const mass = rowOf(rows, 'sheet in the pieces')?.amount_kg ?? 0;
    expect(cut?.time_s).toBeCloseTo((cut?.amount_mm ?? 0) / (2000 / 60), 3);
    // The outline is 500 wide; the hole adds pi times 100.
    expect(cut?.amount_mm).toBeGreaterThan(2 * 500 + 2 * 400 + Math.PI * 100);
    expect(rowOf(rows, 'pierce')).toMatchObject({ amount_count: 2, time_s: 6 });
    expect(rowOf(rows, 'strokes')).toMatchObject({ amount_count: 1, time_s: 45 });
    expect(time_s).toBeCloseTo((cut?.time_s ?? 0) + 6 + 45, 3);
    expect(cost_money).toBeCloseTo(((time_s ?? 0) / 3600) * 60 + mass * 4.5, 2);
    expect(not_reckoned).toEqual([]);
  });

  test('what is not stated is not reckoned, and said', () => {
    const { rows, time_s, cost_money, not_reckoned } = workOf('rates { pierce 3 sec }');
    expect(time_s).toBe(6);
    expect(cost_money).toBeNull();
    expect(rowOf(rows, 'cut')).toMatchObject({ time_s: null, cost_money: null });
    expect(not_reckoned).toEqual(['cut', 'strokes']);
  });

  test('without rates there are amounts alone', () => {
    const { rows, time_s, cost_money } = workOf('');
    expect([time_s, cost_money]).toEqual([null, null]);
    expect(rows.every((row) => row.time_s === null && row.cost_money === null)).toBe(true);
    expect(rows.map(({ work }) => work)).toEqual(['sheet in the pieces', 'cut', 'pierce', 'strokes']);
  });
});

test('every fastener is set once, whatever goes onto it', () => {
  const text = plate('rates { fasteners 20 sec }').replace(
    'shop',
    'hole nuts in base from (100, 100, 0) to (400, 100, 0) count 4  rivetnut M6\nshop',
  );
  const { rows } = reportWork(analyseText(text).stages);
  expect(rowOf(rows, 'fasteners')).toMatchObject({ amount_count: 4, time_s: 80 });
});

test('the sheet that is reckoned is the mass that the tub has', () => {
  const text = readFileSync(join(import.meta.dirname, '../../../samples/herb-wash-basin.tub'), 'utf8');
  const { stages } = analyseText(text);
  const { empty_kg, removable_kg, support_kg } = reportTubMass(stages);
  // Clips weigh so little each that their mass, once rounded, is a mass of their own.
  expect(rowOf(reportWork(stages).rows, 'sheet in the pieces')?.amount_kg).toBe(empty_kg + removable_kg + support_kg);
});

test('sheet in the pieces is the sheet alone: not the screws that hold it', () => {
  const { stages } = analyseText(`units mm
sheet skin = stainless thickness 1.2 radius 1.2
existing bench {
    sheet plate = steel thickness 2
    panel board of plate metal up = (-50, -50, 100) (250, -50, 100) (250, 150, 100) (-50, 150, 100)
}
panel rail of skin = (0, 0, 100) (200, 0, 100) (200, 30, 100) (0, 30, 100)
seam rail bench.board { bolted M6 every 50 heads on bench.board }
`);
  const mass = reportTubMass(stages);
  expect(mass.fasteners_kg).toBeGreaterThan(0.01);
  const sheet = mass.parts.reduce((sum, { mass_kg }) => sum + (mass_kg ?? 0), 0);
  expect(rowOf(reportWork(stages).rows, 'sheet in the pieces')?.amount_kg).toBeCloseTo(sheet, 3);
  expect(reportFaces(stages)[0].heads_on).toBe('bench.board');
});
