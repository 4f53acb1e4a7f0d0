/** The edges over which water runs from one hollow of a surface to another, or off it. */
import { NOISE } from '../../geometry/tolerance.js';
import { addScaled, dot, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import type { Stretch } from '../../shape/shape.js';
import { listOf } from '../surface/mesh.js';
import type { Surface } from '../surface/surface.js';
import type { CrestPiece } from './crest-law.js';
import type { Regions } from './regions.js';

export interface Crest extends CrestPiece {
  /** Of the surface. */
  readonly edge: number;
  /** The triangles on the sides of both hollows; the second undefined at a free edge. */
  readonly beside: readonly [number, number | undefined];
}

/** All crests between two hollows; `to` -1: off the surface. */
export interface CrestLine {
  readonly between: readonly [number, number];
  readonly crests: readonly Crest[];
}

/**
 * Crests between neighbouring hollows, each once, and free edges. Edges along a wall that goes on
 * rising are no crests. `isKept`: free edges that are counted. Cost: O(n).
 */
export const crestLines = (
  surface: Surface,
  regions: Regions,
  isKept: (stretch: Stretch) => boolean,
): readonly CrestLine[] => {
  const found = new Map<string, { between: readonly [number, number]; crests: Crest[] }>();
  const add = (between: readonly [number, number], crest: Crest): void => {
    if (crest.length <= 0) return;
    const key = between.join(' ');
    const known = found.get(key);
    if (known) known.crests.push(crest);
    else found.set(key, { between, crests: [crest] });
  };
  const { mesh } = surface;
  for (let edge = 0; edge < mesh.ends.length / 2; edge++) {
    const triangles = listOf(mesh.trianglesOfEdge, edge);
    if (triangles.length > 1) {
      const ridge = ridgeAt(surface, regions, edge, triangles);
      if (ridge) add(ridge.between, ridge.crest);
      continue;
    }
    const border = mesh.borders.get(edge);
    if (border?.kind !== 'free' || regions.ofTriangle[triangles[0]] < 0 || !isKept(border.stretch)) continue;
    for (const { region, crest } of freePieces(surface, regions, edge)) add([region, -1], crest);
  }
  return [...found.values()];
};

const pieceOf = ({ mesh, points }: Surface, edge: number): CrestPiece => {
  const [a, b] = [points[mesh.ends[2 * edge]], points[mesh.ends[2 * edge + 1]]];
  return { from: a[2], to: b[2], length: Math.hypot(a[0] - b[0], a[1] - b[1]) };
};

/** An edge from which a triangle of one hollow and one of another fall away, or lie level. */
const ridgeAt = (
  surface: Surface,
  { ofTriangle }: Regions,
  edge: number,
  triangles: Int32Array,
): { readonly between: readonly [number, number]; readonly crest: Crest } | undefined => {
  const first = ofTriangle[triangles[0]];
  if (triangles.every((t) => ofTriangle[t] === first)) return undefined;
  const falling = [...triangles].filter((t) => !rises(surface, t, edge));
  const sides = [...new Set(falling.map((t) => ofTriangle[t]))].sort((p, q) => q - p);
  if (sides.length < 2 || sides[0] < 0) return undefined;
  const [p, q] = sides[1] < 0 ? [sides[0], -1] : [sides[1], sides[0]];
  const on = (region: number): number => falling.find((t) => ofTriangle[t] === region)!;
  return { between: [p, q], crest: { ...pieceOf(surface, edge), edge, beside: [on(p), on(q)] } };
};

/** Does a triangle go up from one of its edges, square to it? */
const rises = ({ mesh, points }: Surface, t: number, edge: number): boolean => {
  const ends = [mesh.ends[2 * edge], mesh.ends[2 * edge + 1]];
  const apex = [0, 1, 2].map((i) => mesh.corners[3 * t + i]).find((corner) => !ends.includes(corner))!;
  const [a, b] = ends.map((end) => points[end]);
  const along = unit(subtract(b, a));
  const off = subtract(points[apex], a);
  const across: Vec3 = addScaled(off, along, -dot(off, along));
  return across[2] > NOISE * Math.hypot(...across);
};

/** A free edge that two hollows share is parted above the end of the crest between them. */
const freePieces = (
  surface: Surface,
  { ofTriangle, ofPoint }: Regions,
  edge: number,
): readonly { readonly region: number; readonly crest: Crest }[] => {
  const { mesh, points } = surface;
  const [a, b] = [mesh.ends[2 * edge], mesh.ends[2 * edge + 1]];
  const [t] = listOf(mesh.trianglesOfEdge, edge);
  const whole = pieceOf(surface, edge);
  const [p, q] = [ofPoint[a], ofPoint[b]];
  const apex = [0, 1, 2].map((i) => mesh.corners[3 * t + i]).find((corner) => corner !== a && corner !== b)!;
  const around = new Set([...listOf(mesh.trianglesAt, apex)].map((each) => ofTriangle[each]));
  if (p === q || p < 0 || q < 0 || !around.has(p) || !around.has(q))
    return [{ region: ofTriangle[t], crest: { ...whole, edge, beside: [t, undefined] } }];
  const way = subtract(points[b], points[a]);
  const share = Math.min(1, Math.max(0, dot(subtract(points[apex], points[a]), way) / dot(way, way)));
  const middle = whole.from + (whole.to - whole.from) * share;
  return [
    { region: p, crest: { ...whole, to: middle, length: whole.length * share, edge, beside: [t, undefined] } },
    { region: q, crest: { ...whole, from: middle, length: whole.length * (1 - share), edge, beside: [t, undefined] } },
  ];
};
