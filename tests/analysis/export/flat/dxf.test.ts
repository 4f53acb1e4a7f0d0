import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dxfOf } from '../../../../src/analysis/export/flat/dxf.js';
import { drawFlat, drawingLayers, type DrawingEntity } from '../../../../src/analysis/export/flat/flat-drawing.js';
import type { FlatPattern } from '../../../../src/analysis/fold/flat-pattern.js';
import { areaOfContour, extentOfContour, lengthOfContour } from '../../../../src/analysis/geometry/contour.js';
import {
  measuredArea,
  measuredBox,
  measuredLength,
  readDxf,
  type DxfEntity,
  type DxfVertex,
} from '../../../support/oracles/dxf-reader.js';
import { handMadeFlat } from '../../../support/flat-of.js';
import { readWithDxf, readWithDxfParser } from '../../../support/oracles/read-with-libraries.js';
import { tubOf } from '../../../support/tub-of.js';

const tub = tubOf({ panels: {}, name: 'Rinse tray' });
const write = (flat: FlatPattern): string => dxfOf(drawFlat(tub, flat), 'flat');

type Polyline = Extract<DxfEntity, { type: 'LWPOLYLINE' }>;
const polylines = (entities: readonly DxfEntity[], layer: string): Polyline[] =>
  entities.filter((entity): entity is Polyline => entity.type === 'LWPOLYLINE' && entity.layer === layer);

const outlineOf = (text: string): readonly DxfVertex[] =>
  polylines(readDxf(text, { isRough: true }).entities, 'CUT_OUTER')[0].vertices;

describe('a flat pattern written as DXF', () => {
  const text = write(handMadeFlat);
  const file = readDxf(text);

  it('says its version, millimetres, metric and its extents', () => {
    expect(file.header.$ACADVER).toEqual([{ code: 1, value: 'AC1021' }]);
    expect(file.header.$INSUNITS).toEqual([{ code: 70, value: '4' }]);
    expect(file.header.$MEASUREMENT).toEqual([{ code: 70, value: '1' }]);
    expect(file.header.$EXTMIN.map((tag) => Number(tag.value))).toEqual([0, -52, 0]);
    expect(Number(file.header.$EXTMAX[1].value)).toBe(220);
  });

  it('has exactly the documented layers', () => {
    expect([...file.layers].sort()).toEqual(['0', ...drawingLayers.map((layer) => layer.name)].sort());
    for (const layer of file.layers) expect(layer).toMatch(/^[A-Z0-9_]+$/);
  });

  it('puts every operation on its own layer, and nothing on layer 0', () => {
    const count = (layer: string): number => file.entities.filter((entity) => entity.layer === layer).length;
    expect(count('0')).toBe(0);
    expect(count('CUT_OUTER')).toBe(1);
    expect(count('CUT_INNER')).toBe(3);
    expect(count('PEN_BEND')).toBe(1);
    expect(count('PEN_PLACE')).toBe(2);
    expect(count('SCALE_100MM')).toBe(1);
    expect(count('READ_TEXT')).toBe(4);
    expect(count('PEN_LETTERS')).toBeGreaterThan(20);
  });

  it('has the area, the length and the box of the pattern, arcs re-evaluated from their bulges', () => {
    const outline = outlineOf(text);
    expect(measuredArea(outline)).toBeCloseTo(areaOfContour(handMadeFlat.outline), 5);
    expect(measuredLength(outline)).toBeCloseTo(lengthOfContour(handMadeFlat.outline), 5);
    const box = extentOfContour(handMadeFlat.outline);
    measuredBox(outline).forEach((edge, i) => expect(edge).toBeCloseTo([...box.min, ...box.max][i], 4));
    // By hand: 300 x 220 less the notch 60 x 60, less the corner 40^2 (1 - pi / 4).
    expect(measuredArea(outline)).toBeCloseTo(300 * 220 - 3600 - 1600 * (1 - Math.PI / 4), 5);
    expect(measuredLength(outline)).toBeCloseTo(2 * (300 + 220) - 80 + 20 * Math.PI, 5);
  });

  it('cuts closed contours without a repeated or doubled point, the outer counter-clockwise, inner ones clockwise', () => {
    const contours = [...polylines(file.entities, 'CUT_OUTER'), ...polylines(file.entities, 'CUT_INNER')];
    for (const { vertices, closed } of contours) {
      expect(closed).toBe(true);
      expect(vertices.length).toBeGreaterThanOrEqual(2);
      vertices.forEach((vertex, i) => {
        const next = vertices[(i + 1) % vertices.length];
        expect(Math.hypot(next.x - vertex.x, next.y - vertex.y)).toBeGreaterThan(1e-3);
      });
    }
    expect(measuredArea(contours[0].vertices)).toBeGreaterThan(0);
    for (const { vertices } of contours.slice(1)) expect(measuredArea(vertices)).toBeLessThan(0);
  });

  it('keeps a round hole a circle and a slot two half rounds', () => {
    expect(file.entities.find((entity) => entity.type === 'CIRCLE')).toMatchObject({
      center: [60, 60],
      radius: 26,
      layer: 'CUT_INNER',
    });
    const slot = polylines(file.entities, 'CUT_INNER').find(({ vertices }) =>
      vertices.some((vertex) => vertex.bulge !== 0),
    );
    expect(measuredArea(slot?.vertices ?? [])).toBeCloseTo(-(40 * 8 + Math.PI * 16), 5);
  });

  it('shows the scale by one line of exactly 100 mm', () => {
    const line = file.entities.find((entity) => entity.layer === 'SCALE_100MM');
    expect(line?.type).toBe('LINE');
    if (line?.type === 'LINE') expect(Math.hypot(line.to[0] - line.from[0], line.to[1] - line.from[1])).toBe(100);
  });

  it('names part, tub, sheet, quantity and each bend with direction and angle in readable text', () => {
    const words = file.entities.flatMap((entity) => (entity.type === 'TEXT' ? [entity.text] : []));
    expect(words).toContain('Part floor of Rinse tray');
    expect(words).toContain('Sheet skin: stainless 1.2 mm, quantity 2');
    expect(words).toContain('Bend floor lip: up 90 deg, inside radius 1.2 mm, K 0.325, allowance 3 mm');
  });

  it('is the same, byte for byte, when written again and after other drawings', () => {
    write({ ...handMadeFlat, holes: [] });
    expect(write(handMadeFlat)).toBe(text);
  });

  it('carries the mark by which its own export is known', () => {
    expect(file.comments).toEqual([expect.stringMatching(/^tubwright-export [0-9a-f]{16}; file [0-9a-f]{16};$/)]);
  });
});

describe('two independent readers agree with the strict one', () => {
  const text = write(handMadeFlat);
  const own = readDxf(text).entities;
  const perLayer = (layers: readonly string[]): Record<string, number> => {
    const counts: Record<string, number> = {};
    for (const layer of layers) counts[layer] = (counts[layer] ?? 0) + 1;
    return counts;
  };
  const expected = perLayer(own.map((entity) => entity.layer));

  it.each([
    ['dxf-parser', readWithDxfParser],
    ['dxf', readWithDxf],
  ])('%s', (_name, read) => {
    const file = read(text);
    expect(perLayer(file.layers)).toEqual(expected);
    expect(file.unitCode).toBe(4);
    const [outline] = file.contoursOn('CUT_OUTER');
    expect(measuredArea(outline)).toBeCloseTo(areaOfContour(handMadeFlat.outline), 5);
    expect(measuredLength(outline)).toBeCloseTo(lengthOfContour(handMadeFlat.outline), 5);
    expect(file.contoursOn('CUT_INNER')).toHaveLength(2);
  });
});

describe('awkward input', () => {
  it('text with line breaks, control characters and format codes stays one harmless line', () => {
    const odd = tubOf({ panels: {}, name: 'a\r\nb\u0000c^d%%e Ø90°\u2028f' });
    const words = readDxf(dxfOf(drawFlat(odd, handMadeFlat), 'flat')).entities.flatMap((entity) =>
      entity.type === 'TEXT' ? [entity.text] : [],
    );
    expect(words).toContain('Part floor of a b c^ d% %e Ø90° f');
    expect(readWithDxfParser(dxfOf(drawFlat(odd, handMadeFlat), 'flat')).layers).toHaveLength(
      readDxf(write(handMadeFlat)).entities.length,
    );
  });

  it('a coordinate that is not a number is refused rather than written', () => {
    const broken = { ...handMadeFlat, outline: [{ x: NaN, y: 0, bulge: 0 }, ...handMadeFlat.outline] };
    expect(() => write(broken)).toThrow(RangeError);
  });

  it('no number is ever written with an exponent, whatever the size', () => {
    const coordinate = fc.oneof(
      fc.double({ min: -1e5, max: 1e5, noNaN: true }),
      fc.double({ min: -1e-5, max: 1e-5, noNaN: true }),
    );
    const vertex = fc.record({
      x: coordinate,
      y: coordinate,
      bulge: fc.oneof(
        fc.constant(0),
        fc.double({ min: -2, max: 2, noNaN: true }),
        fc.double({ min: -1e-8, max: 1e-8, noNaN: true }),
      ),
    });
    fc.assert(
      fc.property(fc.array(vertex, { minLength: 3, maxLength: 8 }), (outline) => {
        const entities: DrawingEntity[] = [{ kind: 'contour', layer: 'CUT_OUTER', contour: outline }];
        const read = outlineOf(dxfOf({ name: 'p', tub: 't', entities, extent: { min: [0, 0], max: [1, 1] } }, 'p'));
        read.forEach((point, i) => {
          expect(Math.abs(point.x - outline[i].x)).toBeLessThanOrEqual(1e-6);
          expect(Math.abs(point.bulge - outline[i].bulge)).toBeLessThanOrEqual(1e-6);
        });
      }),
      { seed: 7, numRuns: 100 },
    );
  });
});
