/** Faces of a plate: both sides, and a wall along every edge from which no roll goes on. */
import { segmentOf } from '../../geometry/contour.js';
import { toSpace, type Frame } from '../../geometry/frame.js';
import { addScaled, cross, scale, subtract, unit } from '../../geometry/vec.js';
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
  const sides: Sides = { build, frame, thickness };
  const walls: BoundaryFace[] = [];
  const dryLoops: EdgeUse[][] = [];
  const wetLoops: EdgeUse[][] = [];
  for (const ring of rings) {
    const border = ring.map((node, i) => {
      const next = ring[(i + 1) % ring.length];
      const ends = [cornerOf(node), cornerOf(next)] as const;
      const made = edgePair(sides, node, next, ends);
      if (node.walled) walls.push(wallOf(sides, ends, made, node.bulge > 0));
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

/** Both sides of a plate; `frame`: of its dry one. */
interface Sides {
  readonly build: Build;
  readonly frame: Frame;
  readonly thickness: number;
}

type Ends = readonly [Corner, Corner];

const edgePair = ({ build, frame, thickness }: Sides, node: RingNode, next: RingNode, [from, to]: Ends): EdgePair => {
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
const wallOf = ({ build, frame }: Sides, [from, to]: Ends, edge: EdgePair, convex: boolean): BoundaryFace => {
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
        convex,
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
