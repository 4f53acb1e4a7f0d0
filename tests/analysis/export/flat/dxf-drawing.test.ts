/** What the DXF library would do to a drawing if it were left to itself: read back by readers that share no code with it. */
import { describe, expect, it } from 'vitest';
import { dxfText, type DxfDrawing } from '../../../../src/analysis/export/flat/dxf-drawing.js';
import { measuredArea, measuredLength, readDxf } from '../../../support/oracles/dxf-reader.js';
import { readWithDxfParser } from '../../../support/oracles/read-with-libraries.js';

const drawing = (entities: DxfDrawing['entities']): DxfDrawing => ({
  comment: 'a comment',
  extent: { min: [-10, -10], max: [10, 10] },
  layers: [
    { name: 'CUT', color: 7 },
    { name: 'PEN', color: 5 },
  ],
  entities,
});

/** Two half turns round the origin: a full circle of radius 10. */
const ROUND = drawing([
  {
    kind: 'polyline',
    layer: 'CUT',
    closed: true,
    vertices: [
      { x: -10, y: 0, bulge: 1 },
      { x: 10, y: 0, bulge: 1 },
    ],
  },
]);
const LINE = drawing([{ kind: 'line', layer: 'PEN', from: [0, 0], to: [3, 4] }]);

/** Values of a group code, in the order of the file. */
const tags = (text: string, code: number): string[] =>
  text
    .split('\n')
    .flatMap((line, i, all) => (i % 2 === 0 && Number(line) === code && i + 1 < all.length ? [all[i + 1]] : []));

describe('a DXF drawing', () => {
  it('starts its handles anew: two drawings in one process have the bytes of each alone', () => {
    const first = [dxfText(ROUND), dxfText(LINE)];
    expect([dxfText(LINE), dxfText(ROUND)].reverse()).toEqual(first);
    const handles = tags(first[1], 5).map((handle) => parseInt(handle, 16));
    expect(new Set(handles).size).toBe(handles.length);
    expect(Math.min(...handles)).toBeLessThan(16);
  });

  it('keeps arcs as arcs', () => {
    const text = dxfText(ROUND);
    expect(tags(text, 42)).toEqual(expect.arrayContaining(['1', '1']));
    const [outline] = readDxf(text, { isRough: true }).entities;
    if (outline.type !== 'LWPOLYLINE') throw new Error(`a ${outline.type} stands for the outline`);
    expect(measuredArea(outline.vertices)).toBeCloseTo(100 * Math.PI, 6);
    expect(measuredLength(outline.vertices)).toBeCloseTo(20 * Math.PI, 6);
  });

  it('draws everything on the layer that it names', () => {
    const both = drawing([...LINE.entities, ...ROUND.entities, ...LINE.entities]);
    const layers = readDxf(dxfText(both), { isRough: true }).entities.map(({ layer }) => layer);
    expect(layers.sort()).toEqual(['CUT', 'PEN', 'PEN']);
  });

  it('is the comment, then a file that another reader takes', () => {
    const text = dxfText(LINE);
    expect(text.split('\n').slice(0, 2)).toEqual(['999', 'a comment']);
    expect(readWithDxfParser(text).layers).toEqual(['PEN']);
  });

  it('holds a text that would break the file, in one line', () => {
    const at = { layer: 'PEN', at: [0, 0], height: 5 } as const;
    const text = dxfText(drawing([{ kind: 'text', ...at, text: 'up\n0\nEOF ^J 5%%d' }]));
    expect(tags(text, 1)).toContain('up 0 EOF ^ J 5% %d');
    expect(readDxf(text, { isRough: true }).entities).toHaveLength(1);
  });

  it.each([NaN, Infinity])('refuses %s as a place or an arc', (bad) => {
    expect(() => dxfText(drawing([{ kind: 'line', layer: 'PEN', from: [bad, 0], to: [0, 0] }]))).toThrow(RangeError);
    const vertices = [{ x: 0, y: 0, bulge: bad }];
    expect(() => dxfText(drawing([{ kind: 'polyline', layer: 'CUT', vertices, closed: false }]))).toThrow(RangeError);
  });
});
