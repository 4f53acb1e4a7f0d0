/** Faces of a plate: both sides, and a wall along every edge from which no roll goes on. */
import { segmentOf } from '../geometry/contour.js';
import { toSpace, type Frame } from '../geometry/frame.js';
import { addScaled, cross, scale, subtract, unit } from '../geometry/vec.js';
import type { BoundaryFace, Coil, EdgeUse } from './boundary.js';
import { LEVEL } from './climb.js';
import { reversed, reversedLoop, type Build, type Corner } from './edges.js';
import type { PlateRings, RingNode } from './rings.js';

export const plateFaces = (
  build: Build,
  { plate, rings }: PlateRings,
  thickness: number,
  cornerOf: (node: RingNode) => Corner,
): BoundaryFace[] => {
  const { frame } = plate;
  const walls: BoundaryFace[] = [];
  const dryLoops: EdgeUse[][] = [];
  const wetLoops: EdgeUse[][] = [];
  for (const ring of rings) {
    const border = ring.map((node, i) => {
      const next = ring[(i + 1) % ring.length];
      const made = edgePair(build, frame, thickness, node, next, cornerOf);
      if (node.walled) walls.push(wallOf(build, frame, node, next, cornerOf, made));
      return made;
    });
    dryLoops.push(border.map(({ dry }) => dry));
    wetLoops.push([...reversedLoop(border.map(({ wet }) => wet))]);
  }
  const dry: Frame = frame;
  const wet: Frame = {
    origin: addScaled(frame.origin, frame.normal, -thickness),
    u: frame.v,
    v: frame.u,
    normal: scale(frame.normal, -1),
  };
  return [{ kind: 'flat', frame: dry, loops: dryLoops }, { kind: 'flat', frame: wet, loops: wetLoops }, ...walls];
};

interface EdgePair {
  readonly dry: EdgeUse;
  readonly wet: EdgeUse;
  readonly coil: Coil | undefined;
}

const edgePair = (
  build: Build,
  frame: Frame,
  thickness: number,
  node: RingNode,
  next: RingNode,
  cornerOf: (node: RingNode) => Corner,
): EdgePair => {
  const [from, to] = [cornerOf(node), cornerOf(next)];
  const { center, radius, sweep } = segmentOf(node.at, next.at, node.bulge);
  if (!center) return { dry: build.line(from.dry, to.dry), wet: build.line(from.wet, to.wet), coil: undefined };
  const origin = toSpace(frame, center);
  const normal = scale(frame.normal, Math.sign(sweep));
  const u = unit(subtract(toSpace(frame, node.at), origin));
  const coil: Coil = {
    axis: { origin, u, v: cross(normal, u), normal },
    radius,
    sweep: Math.abs(sweep),
    climb: LEVEL,
    chordRadius: radius,
  };
  const below = { ...coil, axis: { ...coil.axis, origin: addScaled(origin, frame.normal, -thickness) } };
  return { dry: build.coil(from.dry, to.dry, coil), wet: build.coil(from.wet, to.wet, below), coil };
};

/** The cut edge of the sheet between two corners. */
const wallOf = (
  build: Build,
  frame: Frame,
  node: RingNode,
  next: RingNode,
  cornerOf: (node: RingNode) => Corner,
  edge: EdgePair,
): BoundaryFace => {
  const [from, to] = [cornerOf(node), cornerOf(next)];
  const first = build.line(from.dry, from.wet);
  const last = build.line(to.dry, to.wet);
  if (edge.coil) {
    return {
      kind: 'turned',
      first: [first],
      last: [last],
      rails: [edge.dry, edge.wet],
      surface: {
        kind: 'cylinder',
        axis: edge.coil.axis,
        radius: edge.coil.radius,
        sweep: edge.coil.sweep,
        convex: node.bulge > 0,
      },
    };
  }
  const u = unit(subtract(build.vertices[to.dry], build.vertices[from.dry]));
  const normal = cross(u, frame.normal);
  return {
    kind: 'flat',
    frame: { origin: build.vertices[from.dry], u, v: cross(normal, u), normal },
    loops: [[reversed(edge.dry), first, edge.wet, reversed(last)]],
  };
};
