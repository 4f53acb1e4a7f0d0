/** Things of other files: read, placed, kept off and measured to. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { describe, expect, it } from 'vitest';
import { measureAspect } from '../../../src/analysis/aim/measure.js';
import { stlFiles } from '../../../src/analysis/export/solid/solid-files.js';
import { cross, dot, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { ThingMesh } from '../../../src/analysis/model/around/thing.js';
import { readStl, type MeshFault } from '../../../src/analysis/solid/bodies/read-stl.js';
import { readStlText } from '../../../src/analysis/solid/bodies/read-stl-text.js';
import { createStages, type Stages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A box as text, two triangles a side. */
const boxText = ([x, y, z]: Vec3): string => {
  const corner = (i: number): string => `vertex ${i & 1 ? x : 0} ${i & 2 ? y : 0} ${i & 4 ? z : 0}`;
  const sides = [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]]; // prettier-ignore
  const facets = sides.flatMap(([a, b, c, d]) => [
    [a, b, c],
    [a, c, d],
  ]);
  return `solid box\n${facets.map((f) => `facet normal 0 0 0 outer loop ${f.map(corner).join(' ')} endloop endfacet`).join('\n')}\nendsolid box\n`;
};

/** The same in the binary form. */
const binaryOf = (triangles: readonly (readonly Vec3[])[], stated = triangles.length, heading = ''): Uint8Array => {
  const bytes = new Uint8Array(84 + 50 * triangles.length);
  bytes.set(bytesOf(heading));
  const view = new DataView(bytes.buffer);
  view.setUint32(80, stated, true);
  triangles.forEach((corners, i) =>
    corners.forEach((corner, k) =>
      corner.forEach((value, axis) => view.setFloat32(84 + 50 * i + 12 + 12 * k + 4 * axis, value, true)),
    ),
  );
  return bytes;
};

/** Of which the reader of the disk hands on no more than there may be. */
const fiveMillion = (): Uint8Array => {
  const bytes = new Uint8Array(84 + 50 * 200_001);
  new DataView(bytes.buffer).setUint32(80, 5_000_000, true);
  return bytes;
};

const isMesh = (read: ThingMesh | MeshFault): read is ThingMesh => !('fault' in read);

const volumeOf = ({ positions, triangles }: ThingMesh): number =>
  triangles.reduce((sum, [a, b, c]) => sum + dot(positions[a], cross(positions[b], positions[c])) / 6, 0);

const meshOf = (bytes: Uint8Array): ThingMesh => {
  const read = readStl(bytes);
  if (!isMesh(read)) throw new Error(read.fault);
  return read;
};

describe('a file of triangles', () => {
  const whole = meshOf(bytesOf(boxText([60, 40, 30])));
  const corners = whole.triangles.map((triangle) => triangle.map((corner) => whole.positions[corner]));

  it('is read as text: eight corners, closed, of its volume', () => {
    expect(whole.positions).toHaveLength(8);
    expect(whole.isClosed).toBe(true);
    expect(volumeOf(whole)).toBeCloseTo(60 * 40 * 30, 6);
  });

  it('is read alike in its binary form', () => {
    expect(meshOf(binaryOf(corners))).toEqual(whole);
  });

  it('without one triangle is open', () => {
    expect(meshOf(binaryOf(corners.slice(1))).isClosed).toBe(false);
  });

  it('is read with numbers in any form, keywords in capitals and lines of another system', () => {
    const text = boxText([60, 40, 30]).replaceAll(' 60 ', ' 6.000000e+01 ').replaceAll(' 40 ', ' +.4E2 ');
    expect(meshOf(bytesOf(text.toUpperCase().replaceAll('\n', '\r\n')))).toEqual(whole);
  });

  // Oracle: the platform's own reading of a number.
  it('is read to the last bit of every number', () => {
    const anyNumber = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e30, max: 1e30 }).map(String),
      fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e4, max: 1e4 }).map((x) => x.toExponential(6)),
      fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e4, max: 1e4 }).map((x) => x.toFixed(5)),
    );
    fc.assert(
      fc.property(fc.array(anyNumber, { minLength: 9, maxLength: 9 }), (numbers) => {
        const corner = (i: number): string => `vertex ${numbers.slice(i, i + 3).join(' ')}`;
        const text = `solid x\nfacet normal 0 0 1 outer loop ${corner(0)} ${corner(3)} ${corner(6)} endloop endfacet\nendsolid x\n`;
        expect([...(readStlText(bytesOf(text)) as Float64Array)]).toEqual(numbers.map((n) => Number(n)));
      }),
    );
  });

  const text = boxText([60, 40, 30]);

  it.each([
    ['nothing', new Uint8Array(0), 'is empty'],
    ['a heading alone', binaryOf([]), 'holds no triangles'],
    ['a text without triangles', bytesOf('solid box\nendsolid box\n'), 'holds no triangles'],
    ['fewer than it says', binaryOf(corners, 20), 'is cut off: it says that it holds 20 triangles, and has 12'],
    ['five million', fiveMillion(), 'holds 5000000 triangles'],
    [
      'the heading of five million alone',
      binaryOf(corners, 5_000_000),
      'is cut off: where a binary one has its count it says 5000000',
    ],
    [
      'half a text',
      bytesOf(text.slice(0, 500)),
      'is cut off: it ends in line 7 after 5 whole triangles, without `endsolid`',
    ],
    ['the first line of a text', bytesOf('solid box\n'), 'is cut off: it ends in line 2 after 0 whole triangles'],
    [
      'a text without its last line',
      bytesOf(text.slice(0, text.indexOf('endsolid'))),
      'after 12 whole triangles, without',
    ],
    [
      'a comma for a point',
      bytesOf(text.replace('60', '60,5')),
      'has `60,5` in line 2, where a number with a decimal point is due',
    ],
    [
      'a word that is none',
      bytesOf(text.replace('endloop', 'endlop')),
      'has `endlop` in line 2, where `endloop` is due',
    ],
    ['another kind of file', bytesOf('%PDF-1.7'), 'is no STL file'],
    [
      'a letter',
      bytesOf('Dear workshop, the stand that we spoke of is to be 300 mm high. '.repeat(9)),
      'is no STL file: it is a text',
    ],
    [
      'a heading that begins as a text does',
      binaryOf(corners, 20, 'solid by a program'),
      'is cut off: it says that it holds 20',
    ],
    [
      'corners that are no numbers',
      binaryOf([
        [
          [NaN, 0, 0],
          [1, 0, 0],
          [0, 1, 0],
        ],
      ]),
      'a corner that is no number',
    ],
  ])('with %s says so', (_, bytes, fault) => {
    const read = readStl(bytes);
    expect(isMesh(read)).toBe(false);
    expect((read as MeshFault).fault).toContain(fault);
  });

  // Oracle: the STL reader of three.js, which shares no code with ours, on the exported basin.
  it('of an exported tub is read as an independent reader reads it', () => {
    const text = readFileSync(join(import.meta.dirname, '../../../samples/drip-pan.tub'), 'utf8');
    const [file] = [...stlFiles(createStages(analyseText(text, { rules: [] }).tub))];
    const bytes = typeof file.content === 'string' ? bytesOf(file.content) : file.content;
    const mesh = meshOf(bytes);
    const theirs = new STLLoader().parse(bytes.slice().buffer).getAttribute('position');
    const least = (axis: number): number => Math.min(...mesh.positions.map((point) => point[axis]));
    const theirLeast = (axis: 0 | 1 | 2): number =>
      Array.from({ length: theirs.count }, (_, i) => theirs.getComponent(i, axis)).reduce((a, b) => Math.min(a, b));
    expect(Math.abs(theirs.count / 3 - mesh.triangles.length)).toBeLessThanOrEqual(0.01 * mesh.triangles.length);
    for (const axis of [0, 1, 2] as const) expect(least(axis)).toBeCloseTo(theirLeast(axis), 3);
  });
});

const SHEET = `units mm
sheet skin = stainless thickness 1.2 radius 1.2
panel base of skin = (0, 0, 100) (200, 0, 100) (200, 150, 100) (0, 150, 100)
`;
const stagesWith = (statement: string, size: Vec3 = [60, 40, 30]): Stages =>
  createStages(analyseText(SHEET + statement, { files: { 'box.stl': boxText(size) }, rules: [] }).tub);

describe('a thing beside the tub', () => {
  const clear = (stages: Stages): number | undefined => measureAspect(stages, { kind: 'clear', bodies: [-1, 0] });

  // By hand: the base's dry side is at 98.8 (its wet side up) or 101.2; the box is 30 high.
  it('is measured to', () => {
    const below = clear(stagesWith('existing box from "box.stl" at (50, 50, 40)'))!;
    const above = clear(stagesWith('existing box from "box.stl" at (50, 50, 150)'))!;
    expect(below + above).toBeCloseTo(98.8 - 70 + (150 - 100), 6);
    expect(stagesWith('existing box from "box.stl" at (50, 50, 40)').sharedRoom()).toEqual([]);
  });

  it('is turned about its own axes before it is moved', () => {
    const turned = stagesWith('existing box from "box.stl" at (50, 50, 40) turned 90 deg about x');
    const heights = turned.tub.things![0].mesh.positions.map(([, , z]) => z);
    expect([Math.min(...heights), Math.max(...heights)].map((z) => Number(z.toFixed(9)))).toEqual([40, 80]);
  });

  it('that touches is clear, and one that reaches into the sheet is not', () => {
    expect(stagesWith('existing box from "box.stl" at (50, 50, 101.2)').sharedRoom()).toEqual([]);
    const [shared] = stagesWith('existing box from "box.stl" at (50, 50, 99.5)').sharedRoom();
    expect(shared.takers.map(({ kind }) => kind)).toEqual(['panel', 'thing']);
  });

  it('is in the sheet by as much as it must be moved, however fine its triangles are', () => {
    // A ball of 40 mm whose lowest place is 15 mm below the upper face: up by that it is clear.
    const at = (i: number, k: number): Vec3 => {
      const [turn, rise] = [(i * Math.PI) / 24, (k * Math.PI) / 24];
      return [40 * Math.sin(rise) * Math.cos(turn), 40 * Math.sin(rise) * Math.sin(turn), -40 * Math.cos(rise)];
    };
    const facets = Array.from({ length: 48 * 24 }, (_, n) => [n % 48, Math.floor(n / 48)] as const).flatMap(
      ([i, k]) => [
        ...(k > 0 ? [[at(i, k), at(i + 1, k), at(i, k + 1)]] : []),
        ...(k < 23 ? [[at(i + 1, k), at(i + 1, k + 1), at(i, k + 1)]] : []),
      ],
    );
    const ball = `solid ball\n${facets.map((f) => `facet normal 0 0 0 outer loop ${f.map((p) => `vertex ${p.map((x) => x.toFixed(5)).join(' ')}`).join(' ')} endloop endfacet`).join('\n')}\nendsolid ball\n`;
    const top = stagesWith('').shape().faces[0].frame.normal[2] > 0 ? 100 : 101.2;
    const text = `${SHEET}existing ball from "ball.stl" at (100, 75, ${top - 15 + 40})\nclear tub ball at least 1\n`;
    const { stages } = analyseText(text, { files: { 'ball.stl': ball }, rules: [] });
    expect(stages.tub.things![0].mesh.triangles.length).toBeGreaterThan(2000);
    expect(stages.sharedRoom().map(({ depth }) => Math.round(10 * depth) / 10)).toEqual([15]);
    expect(stages.clears()[0].nearest.gap).toBeCloseTo(-15, 1);
  });

  it('that swallows all of the tub is found by its inside', () => {
    const [shared] = stagesWith('existing box from "box.stl" at (-100, -100, 0)', [400, 400, 300]).sharedRoom();
    expect(shared.takers.map(({ kind }) => kind)).toEqual(['panel', 'thing']);
    expect(shared.depth).toBeGreaterThan(90);
  });

  it('may be another tub, as it is folded', () => {
    const files = { 'stand.tub': SHEET };
    const text = `${SHEET}existing stand from "stand.tub" at (0, 0, -60)`;
    const stages = createStages(analyseText(text, { files, rules: [] }).tub);
    expect(stages.tub.things).toHaveLength(1);
    expect(clear(stages)).toBeCloseTo(60 - 1.2, 6);
    expect(stages.parts()).toHaveLength(1);
  });

  it('that is the text itself is told', () => {
    const { findings } = analyseText(`${SHEET}existing me from "main.tub"`, { rules: [] });
    expect(findings.map(({ code }) => code)).toEqual(['existing/not-readable']);
  });
});
