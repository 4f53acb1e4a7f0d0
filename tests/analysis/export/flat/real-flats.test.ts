/** The flats of whole tubs through the exporters and back through independent readers. */
import { describe, expect, it } from 'vitest';
import { dxfFiles, svgFiles } from '../../../../src/analysis/export/flat/flat-files.js';
import type { FlatPattern } from '../../../../src/analysis/fold/flat-pattern.js';
import type { Contour } from '../../../../src/analysis/geometry/contour.js';
import { flatsToCut } from '../../../../src/analysis/stages/flats-to-cut.js';
import {
  areaOfContour,
  extentOfContour,
  flattenContour,
  lengthOfContour,
} from '../../../../src/analysis/geometry/contour.js';
import { distanceToSegment, isInside } from '../../../../src/analysis/geometry/polygon.js';
import type { Vec2 } from '../../../../src/analysis/geometry/vec.js';
import { analyseText } from '../../../support/analyse-text.js';
import {
  measuredArea,
  measuredBox,
  measuredLength,
  readDxf,
  type DxfEntity,
  type DxfFile,
} from '../../../support/oracles/dxf-reader.js';
import { readWithDxf, readWithDxfParser } from '../../../support/oracles/read-with-libraries.js';
import { readPath } from '../../../support/oracles/svg-path.js';

const BASIN = `
units mm
tub "Herb-wash basin"
let rim = 250
let fall = 3 deg
sheet skin = stainless 18 ga  radius 1.2
strip floor of skin from (0, 640, rim) heading front across right 460 {
  panel back    60   falling 90 deg
  panel shelf  310   falling fall
  panel chute  120   falling 38 deg
  panel sump   110   falling fall
  panel front  to z rim  rising 80 deg
}
side leftCheek  of skin closes floor.left  up to rim
side rightCheek of skin closes floor.right up to rim
seam leftCheek floor  { tabs loose 18 wide 14 deep every 70 inset 0.8 spots 1 }
seam rightCheek floor { sealant 3 }
outlet drain in sump at center(sump) diameter 52 { lip 15 }
`;

const FUNNEL = `
units mm
tub "Off-centre hopper"
sheet skin = aluminium thickness 1.5  radius 2
point A = (0, 0, 200)    point B = (300, 0, 200)   point C = (300, 250, 200)   point D = (0, 250, 200)
point E = (120, 80, 0)   point F = (180, 80, 0)    point G = (180, 130, 0)     point H = (120, 130, 0)
panel front of skin = A B F E
panel right of skin = B C G F
panel back of skin = C D H G
panel left of skin = D A E H
bend front right
bend right back
bend back left
seam left front { weld tig }
hole in front at mid(A, F) diameter 9
`;

/** With a bottom that closes the lower ends of the bends: arcs across their zones. */
const CLOSED = `${FUNNEL.replace('Off-centre', 'Closed')}
panel bottom of skin = E F G H
seam bottom front { weld tig }
seam bottom right { weld tig }
seam bottom back { weld tig }
seam bottom left { weld tig }
`;

type Polyline = Extract<DxfEntity, { type: 'LWPOLYLINE' }>;
const isPolyline = (entity: DxfEntity): entity is Polyline => entity.type === 'LWPOLYLINE';

/** Absolute areas and lengths of all cuts: outline and holes. */
const cutsOf = (contours: readonly Contour[]): { area: number; length: number } => ({
  area: contours.reduce((sum, contour) => sum + Math.abs(areaOfContour(contour)), 0),
  length: contours.reduce((sum, contour) => sum + lengthOfContour(contour), 0),
});

const cutsRead = ({ entities }: DxfFile): { area: number; length: number } => {
  let [area, length] = [0, 0];
  for (const entity of entities) {
    if (!entity.layer.startsWith('CUT_')) continue;
    if (entity.type === 'CIRCLE') {
      area += Math.PI * entity.radius ** 2;
      length += 2 * Math.PI * entity.radius;
    } else if (isPolyline(entity)) {
      area += Math.abs(measuredArea(entity.vertices));
      length += measuredLength(entity.vertices);
    }
  }
  return { area, length };
};

const onContour = (point: Vec2, contour: Contour): number => {
  const ring = flattenContour(contour, 1e-4);
  return Math.min(...ring.map((from, i) => distanceToSegment(point, from, ring[(i + 1) % ring.length])));
};

const tubs = { basin: analyseText(BASIN), funnel: analyseText(FUNNEL), closed: analyseText(CLOSED) };
const cases = Object.values(tubs).flatMap(({ stages }) => {
  const dxf = [...dxfFiles(stages)];
  const svg = [...svgFiles(stages)];
  return flatsToCut(stages).map((flat, i): [string, FlatPattern, string, string] => [
    dxf[i].name,
    flat,
    String(dxf[i].content),
    String(svg[i].content),
  ]);
});

describe('flats of whole tubs', () => {
  it('are one file each, floor, cheeks, clip and hopper', () => {
    expect(cases.length).toBeGreaterThanOrEqual(5);
    expect(cases.map(([name]) => name)).toEqual(
      expect.arrayContaining([
        'Herb-wash-basin-floor.dxf',
        'Herb-wash-basin-leftCheek.dxf',
        'Herb-wash-basin-rightCheek.dxf',
      ]),
    );
    const arcs = cases.map(([name, flat]) => [name, flat.outline.filter(({ bulge }) => bulge !== 0).length] as const);
    // The hopper, and its bottom, rounded where it closes the bends.
    expect(arcs.filter(([name, count]) => name.startsWith('Closed') && count >= 3)).toHaveLength(2);
    expect(arcs.filter(([name, count]) => name.startsWith('Off') && count > 0)).toEqual([]);
  });

  it.each(cases)('%s has the area, length of cut, box and layers of its flat pattern', (_name, flat, text) => {
    const file = readDxf(text);
    const outline = file.entities.filter(isPolyline).find((entity) => entity.layer === 'CUT_OUTER');
    const expected = cutsOf([flat.outline, ...flat.holes.map((hole) => hole.contour)]);
    const read = cutsRead(file);
    expect(read.area / expected.area).toBeCloseTo(1, 8);
    expect(read.length / expected.length).toBeCloseTo(1, 8);
    const { min, max } = extentOfContour(flat.outline);
    measuredBox(outline?.vertices ?? []).forEach((edge, i) => expect(edge).toBeCloseTo([...min, ...max][i], 4));
    const count = (layer: string): number => file.entities.filter((entity) => entity.layer === layer).length;
    expect(count('CUT_OUTER')).toBe(1);
    const nicks = file.entities.filter(({ layer, type }) => layer === 'CUT_INNER' && type === 'LINE').length;
    expect(count('CUT_INNER') - nicks).toBe(flat.holes.length);
    expect(count('PEN_BEND')).toBe(flat.bends.length);
    expect(count('PEN_PLACE')).toBe(flat.marks.length);
    expect(count('SCALE_100MM')).toBe(1);
  });

  it.each(cases)(
    '%s is cut from one closed outline, counter-clockwise, holes clockwise and inside',
    (_name, _flat, text) => {
      const polylines = readDxf(text).entities.filter(isPolyline);
      const [outline] = polylines.filter((entity) => entity.layer === 'CUT_OUTER');
      const ring = outline.vertices.map((vertex): Vec2 => [vertex.x, vertex.y]);
      expect(outline.closed).toBe(true);
      expect(measuredArea(outline.vertices)).toBeGreaterThan(0);
      for (const hole of polylines.filter((entity) => entity.layer === 'CUT_INNER')) {
        expect(hole.closed).toBe(true);
        expect(measuredArea(hole.vertices)).toBeLessThan(0);
        for (const { x, y } of hole.vertices) expect(isInside([x, y], ring)).toBe(true);
      }
      for (const { vertices } of polylines.filter((entity) => entity.layer.startsWith('CUT_'))) {
        vertices.forEach((a, i) => {
          const b = vertices[(i + 1) % vertices.length];
          expect(Math.hypot(b.x - a.x, b.y - a.y)).toBeGreaterThan(1e-4);
        });
      }
    },
  );

  it.each(cases)('%s marks its bends from edge to edge of the outline', (_name, flat, text) => {
    for (const entity of readDxf(text).entities) {
      if (entity.type !== 'LINE' || entity.layer !== 'PEN_BEND') continue;
      expect(onContour(entity.from, flat.outline)).toBeLessThan(1e-3);
      expect(onContour(entity.to, flat.outline)).toBeLessThan(1e-3);
    }
  });

  it.each(cases)('%s reads the same in two libraries, and its SVG has the same outline', (_name, flat, text, svg) => {
    const area = areaOfContour(flat.outline);
    for (const read of [readWithDxf(text), readWithDxfParser(text)]) {
      expect(measuredArea(read.contoursOn('CUT_OUTER')[0]) / area).toBeCloseTo(1, 8);
      expect([...read.layers].sort()).toEqual(
        readDxf(text)
          .entities.map((entity) => entity.layer)
          .sort(),
      );
    }
    const path = svg.match(/<g id="CUT_OUTER"[^>]*>\s*<desc>[^<]*<\/desc>\s*<path d="([^"]+)"/)?.[1] ?? '';
    expect(readPath(path).area / area).toBeCloseTo(1, 6);
  });
});
