import { describe, expect, test } from 'vitest';
import { dxfOf } from '../../../../src/analysis/export/flat/dxf.js';
import { areaOfContour } from '../../../../src/analysis/geometry/contour.js';
import { drawSheet } from '../../../../src/analysis/export/flat/draw-sheet.js';
import { isFile } from '../../../../src/analysis/export/exporter.js';
import { nestFiles } from '../../../../src/analysis/export/flat/nest-files.js';
import { analyseText } from '../../../support/analyse-text.js';
import { finishNest, nestFlats } from '../../../../src/analysis/nest/nest-tub.js';
import { measuredArea, readDxf, type DxfEntity } from '../../../support/oracles/dxf-reader.js';
import { handMadeFlat } from '../../../support/flat-of.js';
import { stockOf, tubWith } from '../../nest/random-flats.js';

const tub = tubWith([stockOf([800, 1000])]);
const nest = finishNest(nestFlats(tub, [handMadeFlat]));
const file = readDxf(dxfOf(drawSheet(tub, nest.sheets[0], 1), 'sheet'));

describe('the drawing of a nested sheet, read back', () => {
  test('every piece has its outline and holes on their layers, with the area of the flat', () => {
    const outlines = file.entities.filter((entity) => entity.layer === 'CUT_OUTER') as Extract<
      DxfEntity,
      { type: 'LWPOLYLINE' }
    >[];
    expect(outlines).toHaveLength(handMadeFlat.quantity);
    for (const { vertices, closed } of outlines) {
      expect(closed).toBe(true);
      expect(measuredArea(vertices)).toBeCloseTo(areaOfContour(handMadeFlat.outline), 3);
    }
    expect(file.entities.filter((entity) => entity.layer === 'CUT_INNER')).toHaveLength(
      handMadeFlat.quantity * handMadeFlat.holes.length,
    );
    expect(file.entities.filter((entity) => entity.layer === 'PEN_BEND')).toHaveLength(
      handMadeFlat.quantity * handMadeFlat.bends.length,
    );
  });

  test('the edge of the blank and the words are on a layer that is not worked', () => {
    const words = file.entities.filter((entity) => entity.type === 'TEXT');
    expect(words.every((entity) => entity.layer === 'READ_TEXT')).toBe(true);
    expect(words.map((entity) => (entity.type === 'TEXT' ? entity.text : ''))[0]).toContain('blank 1000 by 800 mm');
    expect(file.entities.some((entity) => entity.layer === 'READ_TEXT' && entity.type === 'LWPOLYLINE')).toBe(true);
  });

  test('the scale line is 100 mm long', () => {
    const [line] = file.entities.filter((entity) => entity.layer === 'SCALE_100MM');
    expect(line).toMatchObject({ type: 'LINE' });
    if (line.type === 'LINE')
      expect(Math.hypot(line.to[0] - line.from[0], line.to[1] - line.from[1])).toBeCloseTo(100, 9);
  });
});

test('a piece that lies on no sheet is named, with its size and the reason', () => {
  const { stages } = analyseText(`units mm
tub "t"
sheet skin = stainless thickness 1 radius 1
panel large of skin = (0, 0, 0) (880, 0, 0) (880, 400, 0) (0, 400, 0)
panel small of skin = (0, 0, 50) (80, 0, 50) (80, 40, 50) (0, 40, 50)
shop "s" { stock stainless thickness 1 600 by 800 }
`);
  const made = [...nestFiles(stages, { paper: 'A4', units: 'metric', nestTries: 0 })];
  expect(made.flatMap((step) => (isFile(step) ? [] : (step.notHeld ?? [])))).toEqual([
    'Part large (880.0 by 400.0 mm) lies on no sheet: larger than every blank that fits the cutter',
  ]);
});
