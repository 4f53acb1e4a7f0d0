import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { csvFiles, LIST_HEADS } from '../../../src/analysis/export/lists/csv.js';
import { isOwnExport } from '../../../src/files/own-mark.js';
import { BEND_COLUMNS } from '../../../src/analysis/report/making/bends.js';
import { HARDWARE_COLUMNS } from '../../../src/analysis/report/joining/hardware.js';
import { LEAK_COLUMNS, reportLeaks } from '../../../src/analysis/report/leaks.js';
import { PART_COLUMNS } from '../../../src/analysis/report/making/parts.js';
import { SEAM_COLUMNS } from '../../../src/analysis/report/joining/seams.js';
import type { Column } from '../../../src/analysis/report/table.js';
import { analyseText } from '../../support/analyse-text.js';
import { reportOf, reportText } from '../../../src/analysis/report/report.js';
import { textTable } from '../../../src/analysis/report/text-table.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { cornerTray, FLOOR, WALL } from '../../support/tubs/corner-tray.js';
import { tubOf } from '../../support/tub-of.js';

const lShape = createStages(cornerTray);

/** The same floor with two walls that meet at a corner that nothing joins. */
const openTray = tubOf({
  panels: {
    floor: FLOOR,
    back: WALL,
    right: [
      [200, 0, 0],
      [200, 100, 0],
      [200, 100, 50],
      [200, 0, 50],
    ],
  },
  bends: [
    ['floor', 'back'],
    ['floor', 'right'],
  ],
});

describe('report', () => {
  const report = reportOf(lShape);

  it('has the bend with the numbers of a hand calculation', () => {
    // R = T = 1.2, K = 0.325: allowance pi/2 (1.2 + 0.39) = 2.4976; setback on the inside 1.2; deduction 2.4 - 2.4976.
    expect(report.bends).toMatchObject([
      {
        name: 'floor wall',
        between: ['floor', 'wall'],
        angle_deg: 90,
        radius_mm: 1.2,
        k: 0.325,
        k_source: 'DIN 6935',
        allowance_mm: 2.4976,
        setback_mm: 1.2,
        deduction_mm: -0.0976,
        length_mm: 200,
        wet_face: 'inside',
      },
    ]);
  });

  it('has the piece with its flat size, area, length of cut and mass', () => {
    // 100 + 50 + 0.0976 long, 200 wide; 304 at 7930 kg/m3.
    const [part] = report.parts;
    expect(part).toMatchObject({ name: 'floor', sheet: 'skin', material: 'stainless', thickness_mm: 1.2, quantity: 1 });
    expect([...part.panels].sort()).toEqual(['floor', 'wall']);
    expect([part.flat?.width_mm, part.flat?.height_mm].sort()).toEqual([150.0976, 200]);
    expect(part.flat?.area_mm2).toBeCloseTo(200 * 150.0976, 1);
    expect(part.flat?.cut_length_mm).toBeCloseTo(2 * (200 + 150.0976), 3);
    expect(part.flat?.mass_kg).toBeCloseTo(200 * 150.0976 * 1.2 * 7.93e-6, 4);
  });

  it('names the unit of every number in its key', () => {
    const withoutUnit = ['version', 'quantity', 'count', 'mesh_per_inch', 'k', 'step', 'flips', 'turns'];
    const visit = (value: unknown, key: string): void => {
      if (Array.isArray(value)) value.forEach((item) => visit(item, key));
      else if (typeof value === 'object' && value !== null)
        Object.entries(value).forEach(([name, item]) => visit(item, name));
      else if (typeof value === 'number' && !withoutUnit.includes(key))
        expect(key).toMatch(/_(mm|mm2|deg|kg|kN|L|mL|L_min|N|s|h|cSt|kg_m3|mN_m|percent|count|money)$/);
    };
    visit(report, '');
  });

  it('has the keys of the published form', () => {
    expect(Object.keys(report)).toEqual([
      'version',
      'tub',
      'parts',
      'bends',
      'seams',
      'face_joints',
      'clear_distances',
      'plays',
      'ways_out',
      'leaks',
      'leak_level_mm',
      'fill_test',
      'mass',
      'assembly',
      'spot_order',
      'weld_order',
      'mountings',
      'hardware',
      'water',
      'week',
      'taped',
      'made',
      'making',
      'checks',
      'work',
    ]);
  });

  it('prints the bends as a table', () => {
    const text = reportText(report);
    expect(text).toContain('Corner tray\n');
    expect(text).toMatch(/^Bend +Gauge reads deg +Radius mm +K +K from +Allowance mm/m);
    expect(text).toMatch(/^floor wall +90\.00 +1\.20 +0\.325 +DIN 6935 +2\.498 +1\.200 +-0\.098 +200\.0 +inside$/m);
  });

  it('says nothing of sections that are empty', () => {
    const text = reportText(reportOf(createStages(tubOf({ panels: {} }))));
    expect(text).toBe('test tub');
  });
});

describe('lists for a spreadsheet', () => {
  it('hold the same numbers, units in the heads, the tub in every row, and are known as exports of it', () => {
    const [parts, bends] = [...csvFiles(lShape)];
    const [{ machine: name, die_mm, force_kN, load_percent, min_flange_mm, bend_to_deg }] = reportOf(lShape).bends;
    const machine = [name, die_mm, force_kN, load_percent, min_flange_mm, bend_to_deg].join(',');
    expect(parts.name).toBe('Corner-tray-parts.csv');
    expect(bends.content).toBe(
      'tub,name,between,angle_deg,radius_mm,k,k_source,allowance_mm,setback_mm,deduction_mm,length_mm,wet_edge_mm,wet_face,machine,die_mm,force_kN,load_percent,min_flange_mm,bend_to_deg\r\n' +
        `Corner tray,floor wall,floor; wall,90,1.2,0.325,DIN 6935,2.4976,1.2,-0.0976,200,200,inside,${machine}\r\n`,
    );
    for (const { content } of csvFiles(lShape)) {
      const bytes = Buffer.from(content);
      expect(isOwnExport(bytes, 'Corner tray', LIST_HEADS), String(content)).toBe(true);
      expect(isOwnExport(bytes, 'Corner', LIST_HEADS)).toBe(String(content).split('\r\n').length === 2);
    }
  });
});

describe('columns', () => {
  const stages = analyseText(
    readFileSync(join(import.meta.dirname, '../../../samples/clay-rinse-basin.tub'), 'utf8'),
  ).stages;
  const report = reportOf(stages);
  const tables = {
    parts: [PART_COLUMNS, report.parts],
    bends: [BEND_COLUMNS, report.bends],
    seams: [SEAM_COLUMNS, report.seams],
    leaks: [LEAK_COLUMNS, reportLeaks(createStages(openTray))],
    hardware: [HARDWARE_COLUMNS, report.hardware],
  } as unknown as Readonly<Record<string, readonly [readonly Column<unknown>[], readonly unknown[]]>>;

  it.each(Object.entries(tables))(
    'of %s take from a row of JSON what stands there under their key',
    (_, [columns, rows]) => {
      expect(rows.length).toBeGreaterThan(0);
      for (const row of rows) {
        for (const { key, value } of columns) {
          const [group, name] = key.includes('.') ? key.split('.') : [undefined, key];
          const holder = (group === undefined ? row : (row as Record<string, unknown>)[group]) as Record<
            string,
            unknown
          > | null;
          expect(value(row) || null, key).toEqual(holder === null ? null : holder[name] || null);
          if (holder !== null) expect(Object.keys(holder), key).toContain(name);
        }
      }
    },
  );
});

describe('tables for a terminal', () => {
  it('set words to the left and numbers to the right', () => {
    expect(
      textTable(
        ['Name', 'mm'],
        [
          ['a', '1.5'],
          ['long one', '10.0'],
        ],
      ),
    ).toBe('Name        mm\na          1.5\nlong one  10.0');
  });
});
