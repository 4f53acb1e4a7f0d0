/** The boundary of a part as faces, edges and corners of the solid file. */
import { addScaled, scale, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import type { Frame } from '../../geometry/frame.js';
import type {
  Boundary,
  BoundaryEdge,
  BoundaryFace,
  Coil,
  EdgeUse,
  Loop,
  TurnedFace,
} from '../../solid/boundary/boundary.js';
import { isLevel } from '../../solid/boundary/climb.js';
import { writeBlade, writeHelix } from './step-coil.js';
import { direction, flag, list, placement, point, real, text, type EntityList, type Ref } from './step-entities.js';

/** Writes the solid and returns it. Every edge and corner is written once and shared by the faces that meet there. */
export const writeSolid = (out: EntityList, boundary: Boundary): Ref => {
  const points = boundary.vertices.map((at) => point(out, at));
  const corners = points.map((ref) => out.add(`VERTEX_POINT('',${ref})`));
  const edges = boundary.edges.map((edge) => {
    const curve = edge.coil ? writeCoil(out, edge.coil) : writeLine(out, points[edge.start], boundary, edge);
    return out.add(`EDGE_CURVE('',${corners[edge.start]},${corners[edge.end]},${curve},.T.)`);
  });
  const use = ({ edge, forward }: EdgeUse): Ref => out.add(`ORIENTED_EDGE('',*,*,${edges[edge]},${flag(forward)})`);
  const faces = boundary.faces.map((face) => writeFace(out, face, use));
  const shell = out.add(`CLOSED_SHELL('',${list(faces)})`);
  return out.add(`MANIFOLD_SOLID_BREP(${text(boundary.name)},${shell})`);
};

const writeLine = (out: EntityList, start: Ref, boundary: Boundary, edge: BoundaryEdge): Ref => {
  const along = direction(out, unit(subtract(boundary.vertices[edge.end], boundary.vertices[edge.start])));
  return out.add(`LINE('',${start},${out.add(`VECTOR('',${along},1.)`)})`);
};

const writeCoil = (out: EntityList, coil: Coil): Ref =>
  isLevel(coil.climb)
    ? out.add(`CIRCLE('',${placement(out, coil.axis.origin, coil.axis.normal, coil.axis.u)},${real(coil.radius)})`)
    : writeHelix(out, coil);

const writeFace = (out: EntityList, face: BoundaryFace, use: (use: EdgeUse) => Ref): Ref => {
  const loops = face.kind === 'flat' ? face.loops : [loopOf(face)];
  const bounds = loops.map((loop, i) => {
    const ring = out.add(`EDGE_LOOP('',${list(loop.map(use))})`);
    return out.add(`${i === 0 ? 'FACE_OUTER_BOUND' : 'FACE_BOUND'}('',${ring},.T.)`);
  });
  const { surface, sameSense } = writeSurface(out, face);
  return out.add(`ADVANCED_FACE('',${list(bounds)},${surface},${flag(sameSense)})`);
};

const loopOf = ({ first, last, rails }: TurnedFace): Loop => {
  const back = (uses: Loop): Loop => [...uses].reverse().map(({ edge, forward }) => ({ edge, forward: !forward }));
  const rail = (use: EdgeUse | undefined): Loop => (use ? [use] : []);
  return [...first, ...rail(rails[1]), ...back(last), ...back(rail(rails[0]))];
};

interface WrittenSurface {
  readonly surface: Ref;
  /** Does the surface's own normal point out of the metal? */
  readonly sameSense: boolean;
}

const writeSurface = (out: EntityList, face: BoundaryFace): WrittenSurface => {
  if (face.kind === 'flat') return writePlane(out, face.frame.origin, face.frame.normal, face.frame.u);
  const { surface } = face;
  if (surface.kind === 'cylinder') {
    const { origin, normal } = surface.axis;
    const at = placement(out, origin, normal, awayFrom(surface.axis, surface.sweep));
    return { surface: out.add(`CYLINDRICAL_SURFACE('',${at},${real(surface.radius)})`), sameSense: surface.convex };
  }
  const { axis, climb, sweep, radii, facing } = surface;
  const outward = facing === 'far' ? axis.normal : scale(axis.normal, -1);
  if (isLevel(climb)) return writePlane(out, axis.origin, outward, axis.u);
  const coil: Coil = { axis, radius: radii[1], sweep, climb, chordRadius: radii[1] };
  return { surface: writeBlade(out, coil, radii), sameSense: facing === 'near' };
};

const writePlane = (out: EntityList, origin: Vec3, normal: Vec3, along: Vec3): WrittenSurface => ({
  surface: out.add(`PLANE('',${placement(out, origin, normal, along)})`),
  sameSense: true,
});

/** Direction opposite to the middle of the turn: there the surface's own seam stays clear of the face. */
const awayFrom = (axis: Frame, sweep: number): Vec3 => {
  const turn = sweep / 2 + Math.PI;
  return addScaled(scale(axis.u, Math.cos(turn)), axis.v, Math.sin(turn));
};
