import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import { drawFlat, drawingLayers } from '../../../../src/analysis/export/flat/flat-drawing.js';
import { svgOf } from '../../../../src/analysis/export/flat/svg.js';
import { areaOfContour, lengthOfContour } from '../../../../src/analysis/geometry/contour.js';
import { handMadeFlat } from '../../../support/flat-of.js';
import { readPath } from '../../../support/oracles/svg-path.js';
import { tubOf } from '../../../support/tub-of.js';

const tub = tubOf({ panels: {}, name: 'Rinse <tray> & "lid"' });
const text = svgOf(drawFlat(tub, handMadeFlat), 'flat');

interface Element {
  readonly [name: string]: unknown;
}
const parser = new XMLParser({
  ignoreAttributes: false,
  attributeNamePrefix: '',
  isArray: (name) => ['g', 'path', 'circle', 'text'].includes(name),
});
const svg = (parser.parse(text) as { svg: Element }).svg;
const groups = svg.g as Element[];
const group = (id: string): Element => groups.find((element) => element.id === id) ?? {};
const pathsOf = (id: string): string[] => ((group(id).path ?? []) as { d: string }[]).map((path) => path.d);

describe('a flat pattern written as SVG', () => {
  it('is well-formed whatever the names hold', () => {
    expect(XMLValidator.validate(text)).toBe(true);
    expect(svg.title).toContain('Rinse <tray> & "lid"');
  });

  it('is drawn at true size: width and height in mm equal the view box', () => {
    const [, , width, height] = String(svg.viewBox).split(' ').map(Number);
    expect(svg.width).toBe(`${width}mm`);
    expect(svg.height).toBe(`${height}mm`);
    expect(height).toBeCloseTo(220 + 52 + 10, 6);
  });

  it('has one group for each documented layer', () => {
    expect(groups.map((element) => element.id)).toEqual(drawingLayers.map((layer) => layer.name));
  });

  it('has the area and the length of the pattern, arcs read as arcs', () => {
    const outline = readPath(pathsOf('CUT_OUTER')[0]);
    expect(outline.closed).toBe(true);
    expect(outline.area).toBeCloseTo(areaOfContour(handMadeFlat.outline), 4);
    expect(outline.length).toBeCloseTo(lengthOfContour(handMadeFlat.outline), 4);
    const slot = pathsOf('CUT_INNER')
      .map(readPath)
      .find((path) => path.arcs > 0);
    expect(slot?.area).toBeCloseTo(-(40 * 8 + Math.PI * 16), 4);
    expect((group('CUT_INNER').circle as Element[])[0]).toMatchObject({ cx: '60', cy: '-60', r: '26' });
  });

  it('names its lettering for those who cannot see the strokes', () => {
    const labels = (group('PEN_LETTERS').path as { 'aria-label': string }[]).map((path) => path['aria-label']);
    expect(labels).toEqual(expect.arrayContaining(['UP 90.0°', 'c1', 'floor', 'QTY 2  DRY SIDE']));
  });

  it('is the same when written again, holds no exponent and its mark', () => {
    expect(svgOf(drawFlat(tub, handMadeFlat), 'flat')).toBe(text);
    expect(text.match(/ d="[^"]*e[^"]*"/)).toBeNull();
    expect(text).toMatch(/<!-- tubwright-export [0-9a-f]{16}; file [0-9a-f]{16}; -->/);
  });
});
