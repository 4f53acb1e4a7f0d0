/** What is made of sheet, and things of other files. */
import type { PlateItem, RollItem, ThingItem } from '../../../language/protocol.js';
import {
  cross,
  finish,
  madeOnce,
  minus,
  plus,
  Soup,
  triangulate,
  unit,
  type Polygon3,
  type SolidPiece,
  type V3,
} from './piece.js';

export const pieceOfPlate = madeOnce((key, plate: PlateItem): SolidPiece => {
  const { origin, u, v, normal } = plate.frame;
  const dry = plate.rings.map((ring) => ring.map(([x, y]) => plus(plus(origin, u, x), v, y)));
  const wet = dry.map((ring) => ring.map((point) => plus(point, normal, -plate.thickness)));
  const soup = new Soup();
  // What stands there already is told by broken edges, not by colour alone.
  const isDashed = plate.purpose?.role === 'existing';
  // Neither that nor a support has a side that is meant to be wet.
  const wetTint = plate.purpose && plate.purpose.role !== 'removable' ? 'dry' : 'wet';
  const [flat, dryPoints, wetPoints] = [plate.rings.flat(), dry.flat(), wet.flat()];
  const under: V3 = [-normal[0], -normal[1], -normal[2]];
  const triangles = triangulate(plate.rings);
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [triangles[i], triangles[i + 1], triangles[i + 2]];
    // earcut keeps no promise about the turn of its triangles.
    const up = turnOf(flat, a, b, c) > 0;
    const [p, q, r] = up ? [a, b, c] : [a, c, b];
    soup.triangle(dryPoints[p], dryPoints[q], dryPoints[r], normal, 'dry');
    soup.triangle(wetPoints[p], wetPoints[r], wetPoints[q], under, wetTint);
  }
  dry.forEach((ring, k) => {
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length];
      const [c, d] = [wet[k][(i + 1) % ring.length], wet[k][i]];
      soup.quad(a, d, c, b, 'edge');
      soup.edge(a, b, isDashed);
      soup.edge(d, c, isDashed);
    });
  });
  const other = { tint: 'dry', towards: normal } as const;
  return finish(key, plate.part, soup, [
    { key, points: wet[0], holes: wet.slice(1), tint: wetTint, other, outlined: true },
  ]);
});

const turnOf = (points: readonly (readonly [number, number])[], a: number, b: number, c: number): number =>
  (points[b][0] - points[a][0]) * (points[c][1] - points[a][1]) -
  (points[b][1] - points[a][1]) * (points[c][0] - points[a][0]);

export const pieceOfRoll = madeOnce((key, roll: RollItem): SolidPiece => {
  const { origin, u, v, normal: axis } = roll.axis;
  const steps = Math.min(24, Math.max(3, Math.ceil(roll.sweep / (Math.PI / 18))));
  const rows = Array.from({ length: steps + 1 }, (_, i) => {
    const t = i / steps;
    const angle = roll.sweep * t;
    const out = plus([u[0] * Math.cos(angle), u[1] * Math.cos(angle), u[2] * Math.cos(angle)], v, Math.sin(angle));
    const [near, far] = [levelAt(roll.near, t), levelAt(roll.far, t)];
    const point = (radius: number, along: number): V3 => plus(plus(origin, axis, along), out, radius);
    return {
      out,
      inward: [-out[0], -out[1], -out[2]] as V3,
      innerNear: point(roll.innerRadius, near),
      innerFar: point(roll.innerRadius, far),
      outerNear: point(roll.outerRadius, near),
      outerFar: point(roll.outerRadius, far),
    };
  });
  const soup = new Soup();
  const polygons: Polygon3[] = [];
  for (let i = 0; i < steps; i++) {
    const [a, b] = [rows[i], rows[i + 1]];
    soup.smooth([a.outerNear, b.outerNear, b.outerFar], [a.out, b.out, b.out], 'bent');
    soup.smooth([a.outerNear, b.outerFar, a.outerFar], [a.out, b.out, a.out], 'bent');
    soup.smooth([a.innerNear, b.innerFar, b.innerNear], [a.inward, b.inward, b.inward], 'bent');
    soup.smooth([a.innerNear, a.innerFar, b.innerFar], [a.inward, a.inward, b.inward], 'bent');
    soup.quad(a.innerNear, b.innerNear, b.outerNear, a.outerNear, 'edge');
    soup.quad(a.innerFar, a.outerFar, b.outerFar, b.innerFar, 'edge');
    for (const [p, q] of [
      [a.innerNear, b.innerNear],
      [a.outerNear, b.outerNear],
      [a.innerFar, b.innerFar],
      [a.outerFar, b.outerFar],
    ])
      soup.line(p, q);
  }
  const strips = Math.min(steps, stripsOf(roll));
  for (let i = 0; i < strips; i++) {
    const [a, b] = [rows[Math.round((i * steps) / strips)], rows[Math.round(((i + 1) * steps) / strips)]];
    const wet =
      roll.wet === 'inside'
        ? [a.innerNear, b.innerNear, b.innerFar, a.innerFar]
        : [a.outerNear, b.outerNear, b.outerFar, a.outerFar];
    polygons.push({ key, points: wet, holes: [], tint: 'bent', outlined: false });
  }
  return finish(key, roll.part, soup, polygons);
});

/** mm by which a flat strip may lie off a bend that is painted: more strips cost as many more at every frame. */
const OFF = 0.3;

const stripsOf = ({ sweep, outerRadius }: RollItem): number =>
  Math.max(1, Math.ceil(sweep / (2 * Math.acos(Math.max(0, 1 - OFF / outerRadius)))));

const levelAt = (levels: readonly number[], t: number): number => {
  const place = t * (levels.length - 1);
  const i = Math.min(Math.floor(place), levels.length - 2);
  return levels[i] + (levels[i + 1] - levels[i]) * (place - i);
};

/** A thing of another file: broken lines where its surface turns. */
export const pieceOfThing = madeOnce((key, thing: ThingItem): SolidPiece => {
  const soup = new Soup();
  const polygons: Polygon3[] = [];
  for (const triangle of thing.triangles) {
    const [a, b, c] = triangle.map((corner) => thing.positions[corner]);
    soup.triangle(a, b, c, unit(cross(minus(b, a), minus(c, a))), 'edge');
    polygons.push({ key, points: [a, b, c], holes: [], tint: 'edge', outlined: false });
  }
  for (const [a, b] of thing.creases) soup.edge(a, b, true);
  return finish(key, thing.part, soup, polygons);
});
