import { describe, expect, test } from 'vitest';
import { sceneOf } from '../../src/analysis/scene/scene.js';
import { plus, tintFrom, type SolidPiece } from '../../src/extension/webview/solid/piece.js';
import { pieceOfPlate, pieceOfRoll } from '../../src/extension/webview/solid/pieces.js';
import { analyseText } from '../support/analyse-text.js';
import { BASIN, SHOP } from '../support/tubs/basin-text.js';

const items = sceneOf('folded', analyseText(BASIN, { files: { 'shop.tub': SHOP } }).stages);
const plates = items.flatMap(({ key, item }) =>
  item.kind === 'plate' ? [{ item, piece: pieceOfPlate(key, item) }] : [],
);
const rolls = items.flatMap(({ key, item }) => (item.kind === 'roll' ? [{ item, piece: pieceOfRoll(key, item) }] : []));

/** Of a closed surface with outward triangles (divergence theorem). */
const volumeOf = ({ positions }: SolidPiece): number => {
  let six = 0;
  for (let i = 0; i < positions.length; i += 9) {
    const [ax, ay, az, bx, by, bz, cx, cy, cz] = positions.slice(i, i + 9);
    six += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
  }
  return six / 6;
};

const areaOfTriangle = ([a, b, c]: readonly (readonly number[])[]): number => {
  const [u, v] = [b.map((value, k) => value - a[k]), c.map((value, k) => value - a[k])];
  return Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
};

/** Sum of the area vectors: nothing for a closed surface. */
const openness = ({ positions }: SolidPiece): number => {
  const sum = [0, 0, 0];
  for (let i = 0; i < positions.length; i += 9) {
    const [ax, ay, az, bx, by, bz, cx, cy, cz] = positions.slice(i, i + 9);
    const [ux, uy, uz, vx, vy, vz] = [bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az];
    sum[0] += uy * vz - uz * vy;
    sum[1] += uz * vx - ux * vz;
    sum[2] += ux * vy - uy * vx;
  }
  return Math.hypot(...sum) / 2;
};

test('without a graphics card every plate is wet on its wet side and dry on its dry side', () => {
  for (const { item, piece } of plates) {
    const seenFrom = (away: number): unknown =>
      piece.polygons.map((each) => tintFrom(plus(piece.middle, item.frame.normal, away), each));
    // The normal of its frame points out of its dry face.
    expect(seenFrom(500)).toEqual(['dry']);
    expect(seenFrom(-500)).toEqual([item.purpose ? 'dry' : 'wet']);
  }
});

describe('the folded tub as triangles', () => {
  test.each(plates.map(({ item, piece }) => [item.name, item, piece] as const))(
    'plate %s is closed and as thick as its sheet',
    (_name, item, piece) => {
      const areaOf = (ring: (typeof item.rings)[number]): number =>
        ring.reduce(
          (sum, [x, y], i) => sum + x * ring[(i + 1) % ring.length][1] - ring[(i + 1) % ring.length][0] * y,
          0,
        ) / 2;
      const area = item.rings.reduce((sum, ring) => sum + areaOf(ring), 0);
      expect(openness(piece)).toBeLessThan(1e-6 * area);
      // Scenes are rounded for drawing: to 0.001 mm, frames to 1e-6; triangles are in single precision.
      expect(volumeOf(piece) / (area * item.thickness)).toBeCloseTo(1, 4);
    },
  );

  test.each(rolls.map(({ item, piece }) => [item.name, item, piece] as const))(
    'bend %s has its true radii and its true area',
    (_name, item, piece) => {
      const { origin, normal } = item.axis;
      const corners = Array.from({ length: piece.positions.length / 3 }, (_, i) => [
        ...piece.positions.slice(3 * i, 3 * i + 3),
      ]);
      for (const corner of corners) {
        const [x, y, z] = corner.map((value, k) => value - origin[k]);
        const along = x * normal[0] + y * normal[1] + z * normal[2];
        const radius = Math.sqrt(Math.max(0, x * x + y * y + z * z - along * along));
        expect(Math.min(Math.abs(radius - item.innerRadius), Math.abs(radius - item.outerRadius))).toBeLessThan(2e-3);
      }
      const round = piece.tints.reduce(
        (sum, tint, i) => sum + (tint === 'bent' ? areaOfTriangle(corners.slice(3 * i, 3 * i + 3)) : 0),
        0,
      );
      const length = (item.far[0] + item.far[1] - item.near[0] - item.near[1]) / 2;
      // Steps of at most 10 deg: a chord is 0.13 % shorter than its arc.
      expect(round / (item.sweep * (item.innerRadius + item.outerRadius) * length)).toBeGreaterThan(0.998);
      expect(round / (item.sweep * (item.innerRadius + item.outerRadius) * length)).toBeLessThan(1.002);
    },
  );

  test.each(rolls.map(({ item, piece }) => [item.name, item, piece] as const))(
    'bend %s is painted in few strips that nowhere lie far off it, from its one edge to its other',
    (_name, item, { polygons }) => {
      const radius = item.wet === 'inside' ? item.innerRadius : item.outerRadius;
      const chords = polygons.map(({ points: [a, b] }) => Math.hypot(...a.map((value, k) => b[k] - value)));
      const turns = chords.map((chord) => 2 * Math.asin(chord / 2 / radius));
      for (const turn of turns) expect(item.outerRadius * (1 - Math.cos(turn / 2))).toBeLessThan(0.6);
      const length = (item.far[0] + item.far[1] - item.near[0] - item.near[1]) / 2;
      if (item.near.length + item.far.length === 4 && length > 0)
        expect(turns.reduce((sum, turn) => sum + turn, 0)).toBeCloseTo(item.sweep, 1);
      expect(polygons.length).toBeLessThan(8);
    },
  );

  test('a bend whose ends are curved is drawn along them', () => {
    const near = [0, 3, 4, 3, 0];
    const far = [100, 101, 102, 103, 104];
    const piece = pieceOfRoll('curved', { ...rolls[0].item, sweep: Math.PI / 3, near, far });
    const { origin, normal } = rolls[0].item.axis;
    const along: number[] = [];
    for (let i = 0; i < piece.positions.length; i += 3) {
      const [x, y, z] = [0, 1, 2].map((k) => piece.positions[i + k] - origin[k]);
      along.push(x * normal[0] + y * normal[1] + z * normal[2]);
    }
    // Six steps of 10 deg: the middle one stands on the third level, the second a third of the way from the second to it.
    for (const level of [0, 4, 3 + 1 / 3, 100, 102, 104])
      expect(Math.min(...along.map((value) => Math.abs(value - level)))).toBeLessThan(1e-3);
    expect(Math.max(...along)).toBeCloseTo(104, 3);
  });

  test('the same item gives the same piece, so that nothing is made twice', () => {
    const [{ item, piece }] = plates;
    expect(pieceOfPlate(piece.key, item)).toBe(piece);
  });
});
