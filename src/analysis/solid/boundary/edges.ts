/** Vertices and edges of a boundary while it is bound: every edge is made once and shared by its two faces. */
import type { Vec3 } from '../../geometry/vec.js';
import type { BoundaryEdge, Coil, EdgeUse, Loop } from './boundary.js';

/** The two vertices of a corner of a plate. */
export interface Corner {
  readonly dry: number;
  readonly wet: number;
}

export interface Build {
  readonly vertices: Vec3[];
  readonly edges: BoundaryEdge[];
  readonly vertex: (at: Vec3) => number;
  /** The straight edge between two vertices, the same one for both faces that ask. */
  readonly line: (from: number, to: number) => EdgeUse;
  readonly coil: (from: number, to: number, coil: Coil) => EdgeUse;
}

export const createBuild = (): Build => {
  const vertices: Vec3[] = [];
  const edges: BoundaryEdge[] = [];
  const lines = new Map<string, number>();
  const push = (edge: BoundaryEdge): number => edges.push(edge) - 1;
  const line = (from: number, to: number): EdgeUse => {
    const key = `${Math.min(from, to)} ${Math.max(from, to)}`;
    const known = lines.get(key) ?? push({ start: from, end: to, coil: undefined });
    lines.set(key, known);
    return { edge: known, forward: edges[known].start === from };
  };
  return {
    vertices,
    edges,
    line,
    vertex: (at) => vertices.push(at) - 1,
    coil: (from, to, coil) => ({ edge: push({ start: from, end: to, coil }), forward: true }),
  };
};

export const reversed = (use: EdgeUse): EdgeUse => ({ edge: use.edge, forward: !use.forward });
export const reversedLoop = (loop: Loop): Loop => [...loop].reverse().map(reversed);
