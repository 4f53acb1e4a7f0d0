/** Drawings of existing things, against areas by hand and an independent solid modeller. */
import { describe, expect, it } from 'vitest';
import ManifoldModule from 'manifold-3d';
import type { ThingMesh } from '../../../src/analysis/model/around/thing.js';
import { readDxf } from '../../../src/language/workspace/read-dxf.js';
import { analyseText } from '../../support/analyse-text.js';

const drawing = (entities: readonly string[], units = 4): string =>
  `0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n${units}\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n${entities.join('')}0\nENDSEC\n0\nEOF\n`;
type P = readonly [number, number];
const line = (layer: string, a: P, b: P): string => `0\nLINE\n8\n${layer}\n10\n${a[0]}\n20\n${a[1]}\n11\n${b[0]}\n21\n${b[1]}\n`; // prettier-ignore
const rectangle = (layer: string, [x, y]: P, [w, h]: P): string => {
  const corners: P[] = [[x, y], [x + w, y], [x + w, y + h], [x, y + h]]; // prettier-ignore
  // One side is drawn the other way round, as happens.
  return corners.map((a, i) => (i === 2 ? line(layer, corners[3], a) : line(layer, a, corners[(i + 1) % 4]))).join('');
};
const circle = (layer: string, [x, y]: P, r: number): string =>
  `0\nCIRCLE\n8\n${layer}\n10\n${x}\n20\n${y}\n40\n${r}\n`;
const arc = (layer: string, [x, y]: P, r: number, from: number, to: number): string => `0\nARC\n8\n${layer}\n10\n${x}\n20\n${y}\n40\n${r}\n50\n${from}\n51\n${to}\n`; // prettier-ignore
const polyline = (layer: string, points: readonly (readonly [number, number, number])[]): string =>
  `0\nLWPOLYLINE\n8\n${layer}\n90\n${points.length}\n70\n1\n${points.map(([x, y, b]) => `10\n${x}\n20\n${y}\n42\n${b}\n`).join('')}`; // prettier-ignore

const thingOf = (
  file: string,
  rest = 'layer "A" by 40',
): { mesh: ThingMesh | undefined; codes: string[]; messages: string[] } => {
  const text = `units mm\nsheet s = steel thickness 2 radius 2\npanel base of s metal up = (0, 0, 400) (200, 0, 400) (200, 150, 400)\nexisting block from "plate.dxf" ${rest}\n`; // prettier-ignore
  const { tub, findings } = analyseText(text, { files: { 'plate.dxf': file }, rules: [] });
  return { mesh: tub.things?.[0]?.mesh, codes: findings.map(({ code }) => code), messages: findings.map(({ message }) => message) }; // prettier-ignore
};

const volumeOf = async (mesh: ThingMesh): Promise<number> => {
  const kernel = await ManifoldModule();
  kernel.setup();
  const solid = kernel.Manifold.ofMesh(
    new kernel.Mesh({
      numProp: 3,
      vertProperties: new Float32Array(mesh.positions.flat()),
      triVerts: new Uint32Array(mesh.triangles.flat()),
    }),
  );
  return solid.volume();
};

describe('a drawing of what stands there already', () => {
  it('is drawn out: lines with a hole, arcs that close lines, an island in the hole', async () => {
    const file = drawing([
      rectangle('A', [0, 0], [200, 100]),
      circle('A', [60, 50], 30),
      circle('A', [60, 50], 10),
      line('A', [300, 0], [400, 0]),
      line('A', [400, 40], [300, 40]),
      arc('A', [400, 20], 20, 270, 90),
      arc('A', [300, 20], 20, 90, 270),
      rectangle('B', [900, 0], [10, 10]),
    ]);
    const { mesh, codes } = thingOf(file);
    expect(codes).toEqual([]);
    expect(mesh?.isClosed).toBe(true);
    const area = 200 * 100 - Math.PI * 900 + Math.PI * 100 + 100 * 40 + Math.PI * 400;
    expect(Math.abs((await volumeOf(mesh!)) / 40 - area) / area).toBeLessThan(0.002);
    expect(Math.max(...mesh!.positions.map(([, , z]) => z))).toBe(40);
  });

  it('takes polylines with arcs, in inches where the file says so, also downwards', async () => {
    const half = polyline('A', [[0, 0, 0], [4, 0, 1], [4, 2, 0], [0, 2, 0]]); // prettier-ignore
    const { mesh } = thingOf(drawing([half], 1), 'by -1/2 in');
    const area = 4 * 2 + Math.PI / 2;
    expect(Math.abs((await volumeOf(mesh!)) / 25.4 ** 3 / 0.5 - area) / area).toBeLessThan(0.002);
    expect(Math.min(...mesh!.positions.map(([, , z]) => z))).toBeCloseTo(-12.7, 9);
  });

  it.each<[string, string, string, string]>([
    ['no depth', drawing([rectangle('A', [0, 0], [9, 9])]), 'layer "A"', 'has no depth; it needs one such as `by 90`'],
    ['two layers and none named', drawing([rectangle('A', [0, 0], [9, 9]), rectangle('B', [0, 0], [9, 9])]), 'by 5', 'they are on "A", "B"'],
    ['another layer', drawing([rectangle('A', [0, 0], [90, 90])]), 'layer "B" by 5', 'has no closed lines on layer "B"; they are on "A"'],
    ['open lines alone', drawing([line('A', [0, 0], [9, 9])]), 'layer "A" by 5', 'it has none on any layer'],
    ['empty', '', 'by 5', 'is empty'],
    ['cut off', drawing([rectangle('A', [0, 0], [90, 90])]).slice(0, -5), 'by 5', 'is cut off'],
    ['another kind of file', 'PNG', 'by 5', 'is no DXF file'],
  ])('with %s is told, and the rest analysed', (_, file, rest, message) => {
    const { mesh, messages } = thingOf(file, rest);
    expect(messages).toContainEqual(expect.stringContaining(message));
    expect(mesh).toBeUndefined();
  }); // prettier-ignore

  it('never throws for what bytes may hold', () => {
    const whole = drawing([rectangle('A', [0, 0], [90, 90]), circle('A', [5, 5], 2)]);
    for (let at = 0; at < whole.length; at += 7)
      expect(() => readDxf(new TextEncoder().encode(`${whole.slice(0, at)}x\n${whole.slice(at + 3)}`))).not.toThrow();
  });

  it('of no depth is told', () => {
    const { mesh, codes } = thingOf(drawing([rectangle('A', [0, 0], [200, 100])]), 'layer "A" by 0');
    expect(mesh).toBeUndefined();
    expect(codes).toEqual(['value/out-of-range']);
  });
});
