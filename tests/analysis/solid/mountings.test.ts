/** What stands there already and has a mouth: what goes through it, by hand, and the template as another reader sees it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { drawTemplate, templateWords } from '../../../src/analysis/export/flat/template-files.js';
import { dxfOf } from '../../../src/analysis/export/flat/dxf.js';
import { templatesOf } from '../../../src/analysis/export/flat/template.js';
import { reportMountings } from '../../../src/analysis/report/joining/mountings.js';
import { createStages, type Stages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';
import { readDxf } from '../../support/oracles/dxf-reader.js';

const stagesOf = (text: string, files: Record<string, string> = {}): Stages =>
  createStages(analyseText(text, { files, rules: [] }).tub);

const samples = join(import.meta.dirname, '../../../samples');
const read = (name: string): string => readFileSync(join(samples, name), 'utf8');
/** The tub under a deck, whose rails have holes and no seam to the deck. */
const unseamed = stagesOf(
  read('under-deck-rinse-tub.tub')
    .replace(/^seam rail.*$/gm, '')
    .replace(
      'outlet drain',
      'hole bolts in railFront from (60, -15, rim) to (400, -15, rim) count 4 rivetnut M6\noutlet drain',
    ),
  { 'shop.tub': read('shop.tub') },
);

describe('a deck over rails with holes', () => {
  it('is what the template is of: its mouth as stated, the holes of the rails', () => {
    const templates = templatesOf(unseamed);
    expect(templates.map(({ name, hung, side }) => [name, hung, side])).toEqual([['stall.deck', 'from below', 'top']]);
    const [{ cutOut, bolts }] = templates;
    expect(cutOut).toHaveLength(1);
    expect(bolts).toHaveLength(4);
    // As stated: 10 to 450, 10 to 350.
    const file = readDxf(dxfOf(drawTemplate('t', templates[0]), 't'));
    const outer = file.entities.flatMap((entity) =>
      entity.type === 'LWPOLYLINE' && entity.layer === 'CUT_OUTER' ? [entity.vertices] : [],
    );
    const spans = [0, 1].map((k) => {
      const values = outer.flat().map((point) => [point.x, point.y][k]);
      return Math.max(...values) - Math.min(...values);
    });
    expect(spans[0]).toBeCloseTo(440, 6);
    expect(spans[1]).toBeCloseTo(340, 6);
    expect(templateWords(templates[0]).join('\n')).toContain('Nothing of the tub goes through it');
  });

  it('is told in the report', () => {
    expect(reportMountings(unseamed)).toEqual([
      {
        name: 'stall.deck',
        tub_is: 'below',
        lying: ['railBack', 'railFront', 'railLeft', 'railRight'],
        mouths: [{ name: 'mouth', width_mm: 440, height_mm: 340 }],
        through: [],
        bolts_count: 4,
        bolts_in_mouth_count: 0,
      },
    ]);
  });
});

/** A rail on a board of 2 mm whose stated face is at z 100, with a wall down through its mouth. */
const board = (metal: 'up' | 'down', from: string, more = ''): Stages => {
  const top = metal === 'up' ? 102 : 100;
  const z = top + 1.2;
  return stagesOf(`units mm
sheet skin = stainless thickness 1.2 radius 1.2
existing bench {
    sheet plate = steel thickness 2
    panel board of plate metal ${metal} = (-50, -50, 100) (250, -50, 100) (250, 150, 100) (-50, 150, 100)
    cutout mouth in board from ${from} to (202, 120, 100)
}
panel rail of skin = (0, 0, ${z}) (200, 0, ${z}) (200, 40, ${z}) (0, 40, ${z})
panel wall of skin = (0, 40, ${z}) (200, 40, ${z}) (200, 40, 0) (0, 40, 0)
bend rail wall
hole bolt in rail at (30, 10, ${z}) diameter 6.6
hole pin in rail at (170, 15, ${z}) diameter 4
${more}`);
};

describe('a tub dropped in from above', () => {
  // By hand: the wall's dry face at 38.8, its bend of 1.2 begins 1.2 to the front of it and is met 0.1 below the surface:
  // 38.8 - (1.2 - sqrt(1.2^2 - 1.1^2)) = 38.0796. At the ends of the rail 2 mm are left.
  it.each(['up', 'down'] as const)('goes through with what is left of the mouth, metal %s', (metal) => {
    const [row] = reportMountings(board(metal, '(-2, 20, 100)'));
    expect(row.tub_is).toBe('above');
    expect(row.lying).toEqual(['rail']);
    expect(row.through.map(({ part }) => part)).toEqual(['wall']);
    expect(row.through[0].room_mm).toBeCloseTo(2, 3);
    const [tight] = reportMountings(board(metal, '(-2, 37, 100)'));
    expect(tight.through[0].room_mm).toBeCloseTo(38.0796 - 37, 1);
    const [stopped] = reportMountings(board(metal, '(3, 20, 100)'));
    expect(stopped.through[0].room_mm).toBeCloseTo(-3, 3);
  });

  // Seen from above, x right and y back, whichever side of the board is stated.
  it.each(['up', 'down'] as const)('has its holes as seen from above, metal %s', (metal) => {
    const [template] = templatesOf(board(metal, '(-2, 20, 100)'));
    expect(template.hung).toBe('from above');
    const [bolt, pin] = template.bolts;
    expect(pin.center[0] - bolt.center[0]).toBeCloseTo(140, 6);
    expect(pin.center[1] - bolt.center[1]).toBeCloseTo(5, 6);
  });

  it('is told holes that lie over the open mouth', () => {
    // The rounds of 6.6 and 4 reach to y 13.3 and 17.
    expect(reportMountings(board('down', '(-2, 17.1, 100)'))[0].bolts_in_mouth_count).toBe(0);
    expect(reportMountings(board('down', '(-2, 16.9, 100)'))[0].bolts_in_mouth_count).toBe(1);
    expect(reportMountings(board('down', '(-2, 13.2, 100)'))[0].bolts_in_mouth_count).toBe(2);
  });
});

describe('a mouth that nothing lies beside', () => {
  const wall = (more: string): Stages =>
    stagesOf(`units mm
sheet skin = stainless thickness 1.2 radius 1.2
existing house {
    sheet plate = steel thickness 2
    panel wall of plate metal front = (-50, 100, 0) (250, 100, 0) (250, 100, 200) (-50, 100, 200)
    cutout gap in wall from (20, 100, 50) to (180, 100, 90)
}
${more}`);

  it('has what stands in its sheet between its edges', () => {
    // A plate 1.2 thick from z 58.8 to 60, x 30 to 150: 8.8 below, 10 on the left.
    const [row] = reportMountings(wall('panel chute of skin = (30, 0, 60) (150, 0, 60) (150, 300, 60) (30, 300, 60)'));
    expect(row).toMatchObject({ tub_is: 'beside', lying: [], bolts_count: 0 });
    expect(row.through.map(({ part }) => part)).toEqual(['chute']);
    expect(row.through[0].room_mm).toBeCloseTo(8.8, 1);
  });

  it('far from the tub is none of its matters', () => {
    const far = wall('panel chute of skin = (30, 0, 60) (150, 0, 60) (150, 80, 60) (30, 80, 60)');
    expect(reportMountings(far)).toEqual([]);
    expect(templatesOf(far)).toEqual([]);
  });
});

describe('holes that hold nothing', () => {
  const rim = 'panel rail of skin = (0, 0, 100) (200, 0, 100) (200, 40, 100) (0, 40, 100)\n';
  const tub = (more: string): Stages =>
    stagesOf(`units mm\nsheet skin = stainless thickness 1.2 radius 1.2\n${rim}${more}`);

  it('those of what comes out again have no template', () => {
    const grid = (group: string): Stages =>
      tub(
        `${group} {\n    panel lid of skin = (0, 100, 90) (200, 100, 90) (200, 300, 90) (0, 300, 90)\n    hole in lid from (20, 200, 90) to (180, 200, 90) count 5 diameter 12\n}`,
      );
    expect(templatesOf(grid('removable grid'))).toEqual([]);
    expect(templatesOf(grid('support stand'))).toHaveLength(1);
  });

  it('nor those of a divider, which let water by', () => {
    const basin = tub(`strip box of skin from (400, 400, 200) heading front across right 300 {
    panel back  to z 20  falling 90 deg
    panel bed   400      falling 1.5 deg
    panel front to z 200 rising 90 deg
}
panel weir of skin stands on box.bed at 200 up to 120
seam weir box.bed { weld tig }
hole passage in weir at (550, 200, 80) diameter 20`);
    expect(templatesOf(basin)).toEqual([]);
  });
});
