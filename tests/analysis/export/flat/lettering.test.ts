import { describe, expect, it } from 'vitest';
import { drawFlat } from '../../../../src/analysis/export/flat/flat-drawing.js';
import { letteringWidth, strokesOf } from '../../../../src/analysis/export/flat/lettering.js';
import type { FlatPattern } from '../../../../src/analysis/fold/flat-pattern.js';
import { flattenContour } from '../../../../src/analysis/geometry/contour.js';
import { distanceToSegment, isInside, segmentsCross } from '../../../../src/analysis/geometry/polygon.js';
import type { Vec2 } from '../../../../src/analysis/geometry/vec.js';
import { crowdedFlat, handMadeFlat } from '../../../support/flat-of.js';
import { tubOf } from '../../../support/tub-of.js';

const tub = tubOf({ panels: {} });
const letteringOf = (flat: FlatPattern): { text: string; strokes: readonly (readonly Vec2[])[] }[] =>
  drawFlat(tub, flat).entities.flatMap((entity) => (entity.kind === 'lettering' ? [entity] : []));

const CHARACTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.,:-_+=/()±°×Ø';

describe('stroke letters', () => {
  it('every character that names and numbers use has its own drawing', () => {
    const drawings = [...CHARACTERS].map((character) =>
      JSON.stringify(strokesOf(character, { at: [0, 0], along: [1, 0], height: 6 })),
    );
    const unknown = JSON.stringify(strokesOf('ü', { at: [0, 0], along: [1, 0], height: 6 }));
    expect(new Set([...drawings, unknown]).size).toBe(CHARACTERS.length + 1);
  });

  it('capitals stand on the line and are as tall as asked, nothing leaves the stated width', () => {
    for (const character of CHARACTERS) {
      const points = strokesOf(character, { at: [10, 20], along: [1, 0], height: 3 }).flat();
      const width = letteringWidth(character, 3);
      for (const [x, y] of points) {
        expect(x).toBeGreaterThanOrEqual(10 - 1e-9);
        expect(x).toBeLessThanOrEqual(10 + width + 1e-9);
        expect(y).toBeGreaterThanOrEqual(20 - 1 - 1e-9);
        expect(y).toBeLessThanOrEqual(23 + 1e-9);
      }
      if (/[A-Z0-9]/.test(character)) {
        expect(Math.min(...points.map(([, y]) => y))).toBeCloseTo(20, 9);
        expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo(23, 9);
      }
    }
  });

  it('every stroke is a line: two points or more, none twice in a row', () => {
    for (const stroke of strokesOf(CHARACTERS, { at: [0, 0], along: [1, 0], height: 6 })) {
      expect(stroke.length).toBeGreaterThanOrEqual(2);
      stroke.slice(1).forEach((point, i) => expect(point).not.toEqual(stroke[i]));
    }
  });
});

/** Does any stroke cross a cut, a bend or a mark, or lie off the metal? */
const faultsOf = (flat: FlatPattern): string[] => {
  const outline = flattenContour(flat.outline, 0.01);
  const holes = flat.holes.map((hole) => flattenContour(hole.contour, 0.01));
  const ring = (points: readonly Vec2[]): [Vec2, Vec2][] =>
    points.map((point, i) => [point, points[(i + 1) % points.length]]);
  const lines = [
    ...ring(outline),
    ...holes.flatMap(ring),
    ...flat.bends.map(({ start, end }): [Vec2, Vec2] => [start, end]),
  ];
  return letteringOf(flat).flatMap(({ text, strokes }) => {
    const points = strokes.flat();
    if (points.some((point) => !isInside(point, outline))) return [`${text} is off the metal`];
    if (points.some((point) => holes.some((hole) => isInside(point, hole)))) return [`${text} is in a hole`];
    const near = lines.some(([a, b]) =>
      strokes.some((stroke) => stroke.slice(1).some((to, i) => segmentsCross(a, b, stroke[i], to))),
    );
    if (near) return [`${text} crosses a line`];
    return points.some((point) => lines.some(([a, b]) => distanceToSegment(point, a, b) < 0.9))
      ? [`${text} is nearer than 0.9 mm to a line`]
      : [];
  });
};

describe('lettering on a flat pattern', () => {
  it('lies on the metal, clear of cuts, holes, bends and marks', () => {
    expect(faultsOf(handMadeFlat)).toEqual([]);
    expect(faultsOf(crowdedFlat(20))).toEqual([]);
  });

  it('says direction and angle at the bend, the mark, the name, the sheet and the quantity', () => {
    expect(letteringOf(handMadeFlat).map(({ text }) => text)).toEqual([
      'UP 90.0°',
      'c1',
      'floor',
      'stainless 1.2 mm',
      'QTY 2  DRY SIDE',
    ]);
  });

  it('every bend of a crowded strip gets its label, none over another', () => {
    const labels = letteringOf(crowdedFlat(20));
    expect(labels.filter(({ text }) => text.endsWith('°'))).toHaveLength(20);
    const boxes = labels.map(({ strokes }) => {
      const [xs, ys] = [strokes.flat().map(([x]) => x), strokes.flat().map(([, y]) => y)];
      return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
    });
    boxes.forEach((a, i) =>
      boxes.slice(i + 1).forEach((b) => expect(a[0] > b[2] || b[0] > a[2] || a[1] > b[3] || b[1] > a[3]).toBe(true)),
    );
  });

  it('is left out, not drawn over a cut, where there is no room; the words below the part still have it', () => {
    const narrow: FlatPattern = {
      ...handMadeFlat,
      outline: [
        { x: 0, y: 0, bulge: 0 },
        { x: 8, y: 0, bulge: 0 },
        { x: 8, y: 300, bulge: 0 },
        { x: 0, y: 300, bulge: 0 },
      ],
      holes: [],
      marks: [],
      bends: [{ ...handMadeFlat.bends[0], end: [8, 150] }],
      panels: handMadeFlat.panels.map((panel, i) => ({
        ...panel,
        region: [
          { x: 0, y: 151 * i, bulge: 0 },
          { x: 8, y: 151 * i, bulge: 0 },
          { x: 8, y: 149 + 151 * i, bulge: 0 },
          { x: 0, y: 149 + 151 * i, bulge: 0 },
        ],
      })),
    };
    expect(letteringOf(narrow).map(({ text }) => text)).not.toContain('UP 90.0°');
    const words = drawFlat(tub, narrow).entities.flatMap((entity) => (entity.kind === 'text' ? [entity.text] : []));
    expect(words.some((text) => text.startsWith('Bend floor lip: up 90 deg'))).toBe(true);
  });

  it('reads from the left or from below, never upside down', () => {
    const turned = crowdedFlat(3);
    const backwards = { ...turned, bends: turned.bends.map((bend) => ({ ...bend, start: bend.end, end: bend.start })) };
    for (const { text, strokes } of letteringOf(backwards).filter((label) => label.text.endsWith('°'))) {
      expect(strokes[0][0][0]).toBeLessThan((strokes.at(-1)?.[0][0] ?? 0) + 1e-9);
      expect(text).toMatch(/^(UP|DOWN) /);
    }
  });
});
