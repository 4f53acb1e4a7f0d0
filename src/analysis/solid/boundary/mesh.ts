/** The folded part as a closed mesh: for the preview, for STL and for glTF. */
import type { FoldedPart, Triangles } from '../../fold/flat-pattern.js';
import { toPlane } from '../../geometry/frame.js';
import { add, addScaled, scale, type Vec3 } from '../../geometry/vec.js';
import { triangulateRings, type Triangle } from '../../geometry/triangles/triangulate-rings.js';
import type { Boundary, Coil, EdgeUse, FlatFace, Loop, TurnedFace } from './boundary.js';
import { climbAt } from './climb.js';
import { boundPart } from './build-solid.js';

/**
 * Mesh of a folded part in the tub's frame, mm: closed, oriented outwards, every edge shared by two triangles. No chord
 * is farther than `tolerance` mm from its arc; flat faces are exact.
 */
export const meshOf = (folded: FoldedPart, tolerance: number): Triangles => meshBoundary(boundPart(folded), tolerance);

/** The same from the boundary. */
export const meshBoundary = (boundary: Boundary, tolerance: number): Triangles => {
  const positions: Vec3[] = [...boundary.vertices];
  const chains = boundary.edges.map(({ start, end, coil }) => {
    const between = coil ? chordPoints(coil, tolerance).map((point) => positions.push(point) - 1) : [];
    return [start, ...between, end];
  });
  const chainOf = ({ edge, forward }: EdgeUse): readonly number[] =>
    forward ? chains[edge] : [...chains[edge]].reverse();
  const triangles = boundary.faces.flatMap((face) =>
    face.kind === 'flat' ? flatTriangles(face, positions, chainOf) : turnedTriangles(face, chainOf),
  );
  return { positions, triangles };
};

/** A chord never spans more than this, so that a coarse mesh still shows a bend as round. rad */
const LONGEST_CHORD_TURN = Math.PI / 6;

/** Points on a coil between its ends. */
const chordPoints = (coil: Coil, tolerance: number): Vec3[] => {
  const turn = tolerance < coil.chordRadius ? 2 * Math.acos(1 - tolerance / coil.chordRadius) : LONGEST_CHORD_TURN;
  const count = Math.ceil(coil.sweep / Math.min(turn, LONGEST_CHORD_TURN));
  return Array.from({ length: count - 1 }, (_, i) => coilPoint(coil, (i + 1) / count));
};

/** Point of a coil at that share of its turn. */
export const coilPoint = (coil: Coil, share: number): Vec3 => {
  const { origin, u, v, normal } = coil.axis;
  const turn = coil.sweep * share;
  const arm = add(scale(u, coil.radius * Math.cos(turn)), scale(v, coil.radius * Math.sin(turn)));
  return addScaled(add(origin, arm), normal, climbAt(coil.climb, share)[0]);
};

type ChainOf = (use: EdgeUse) => readonly number[];

/** The vertices of an open or closed loop; a closed one does not repeat its first. */
const verticesOf = (loop: Loop, chainOf: ChainOf): number[] => loop.flatMap((use) => chainOf(use).slice(0, -1));

const flatTriangles = (face: FlatFace, positions: readonly Vec3[], chainOf: ChainOf): Triangle[] => {
  const loops = face.loops.map((loop) => verticesOf(loop, chainOf));
  const indices = loops.flat();
  const rings = loops.map((loop) => loop.map((i) => toPlane(face.frame, positions[i])));
  return triangulateRings(rings).map(([a, b, c]): Triangle => [indices[a], indices[b], indices[c]]);
};

const turnedTriangles = (face: TurnedFace, chainOf: ChainOf): Triangle[] => {
  const rails = face.rails.map((rail) => rail && chainOf(rail));
  const steps = Math.max(...rails.map((rail) => rail?.length ?? 0)) - 1;
  const first = rowOf(face.first, chainOf) ?? rails.flatMap((rail) => (rail ? [rail[0]] : []));
  const standing = [first[0], first[first.length - 1]];
  const at = (rail: 0 | 1, step: number): number => rails[rail]?.[step] ?? standing[rail];
  const rowAt = (step: number): readonly number[] => {
    if (step === 0) return first;
    return (step === steps && rowOf(face.last, chainOf)) || [at(0, step), at(1, step)];
  };
  return Array.from({ length: steps }, (_, step) => zipRows(rowAt(step), rowAt(step + 1))).flat();
};

/** The vertices of a straight end of a turned face, both ends included; undefined when it has no length. */
const rowOf = (loop: Loop, chainOf: ChainOf): readonly number[] | undefined =>
  loop.length === 0 ? undefined : [chainOf(loop[0])[0], ...loop.flatMap((use) => chainOf(use).slice(1))];

/** Triangles between two rows that run side by side, `to` on the left of `from` seen from outside. */
const zipRows = (from: readonly number[], to: readonly number[]): Triangle[] => {
  const triangles: Triangle[] = [];
  let [i, j] = [0, 0];
  while (i < from.length - 1 || j < to.length - 1) {
    // The row that is less far along takes the next step, so that the triangles stay upright.
    const stepFrom =
      j === to.length - 1 || (i < from.length - 1 && (i + 1) / (from.length - 1) <= (j + 1) / (to.length - 1));
    if (stepFrom) triangles.push([from[i], from[++i], to[j]]);
    else triangles.push([from[i], to[j + 1], to[j++]]);
  }
  return triangles.filter(([a, b, c]) => a !== b && b !== c && c !== a);
};
