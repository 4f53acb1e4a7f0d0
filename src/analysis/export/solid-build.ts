/** Binds the plates and rolls of a folded part into one closed boundary. */
import type { FoldedPart, Roll } from '../fold/flat-pattern.js';
import { pieceOf } from '../geometry/contour.js';
import { toSpace, type Frame } from '../geometry/frame.js';
import { addScaled, cross, scale, subtract, unit, type Vec3 } from '../geometry/vec.js';
import { ROUND_OFF, SAME_POINT } from '../tolerance.js';
import type { Boundary, BoundaryEdge, BoundaryFace, Coil, EdgeUse, Loop } from './solid-boundary.js';
import {
  dryRadius,
  rollPoint,
  seatRolls,
  type PlateRings,
  type RingNode,
  type Seat,
  type SeatedRoll,
} from './solid-rings.js';

/**
 * The boundary of the folded part in the tub's frame, mm. One closed shell when every roll meets its plates (which
 * `foldFlat` sees to); a roll that meets none on a side is closed there by an end face of its own.
 */
export const boundPart = (folded: FoldedPart): Boundary => {
  const { plates, rolls } = seatRolls(folded);
  const build = createBuild();
  const corners = new Map<RingNode, Corner>();
  for (const { plate, rings } of plates) {
    for (const node of rings.flat()) {
      const dry = toSpace(plate.frame, node.at);
      corners.set(node, {
        dry: build.vertex(dry),
        wet: build.vertex(addScaled(dry, plate.frame.normal, -folded.thickness)),
      });
    }
  }
  for (const roll of rolls) closeFold(roll, corners);
  const cornerOf = (node: RingNode): Corner => corners.get(node) ?? unreachable();
  const faces = [
    ...plates.flatMap((plate) => plateFaces(build, plate, folded.thickness, cornerOf)),
    ...rolls.flatMap((roll) => rollFaces(build, roll, cornerOf)),
  ];
  return { name: folded.name, vertices: build.vertices, edges: build.edges, faces };
};

/**
 * A fold without radius has no inner skin: its two plates meet in a line on the axis, so they share its vertices.
 * Only where the line is the same one for both; else the inner skin stays, as a strip without width.
 */
const closeFold = ({ roll, seats: [parent, child] }: SeatedRoll, corners: Map<RingNode, Corner>): void => {
  if (!parent || !child || !isClosedFold(roll)) return;
  if (parent.nodes.length !== 2 || child.nodes.length !== 2) return;
  const side = roll.wet === 'inside' ? 'wet' : 'dry';
  parent.nodes.forEach((node, i) => {
    const [kept, merged] = [corners.get(node), corners.get(child.nodes[i])];
    if (kept && merged) corners.set(child.nodes[i], { ...merged, [side]: kept[side] });
  });
};

const isClosedFold = (roll: Roll): boolean =>
  roll.innerRadius <= SAME_POINT && [roll.near, roll.far].every(([from, to]) => Math.abs(from - to) <= SAME_POINT);

/** The two vertices of a corner of a plate. */
interface Corner {
  readonly dry: number;
  readonly wet: number;
}

interface Build {
  readonly vertices: Vec3[];
  readonly edges: BoundaryEdge[];
  readonly vertex: (at: Vec3) => number;
  /** The straight edge between two vertices, the same one for both faces that ask. */
  readonly line: (from: number, to: number) => EdgeUse;
  readonly coil: (from: number, to: number, coil: Coil) => EdgeUse;
}

const createBuild = (): Build => {
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

const reversed = (use: EdgeUse): EdgeUse => ({ edge: use.edge, forward: !use.forward });
const reversedLoop = (loop: Loop): Loop => [...loop].reverse().map(reversed);
const unreachable = (): never => {
  throw new Error('a corner of the folded part has no vertex');
};

const plateFaces = (
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
  const { center, radius, sweep } = pieceOf(node.at, next.at, node.bulge);
  if (!center) return { dry: build.line(from.dry, to.dry), wet: build.line(from.wet, to.wet), coil: undefined };
  const origin = toSpace(frame, center);
  const normal = scale(frame.normal, Math.sign(sweep));
  const u = unit(subtract(toSpace(frame, node.at), origin));
  const coil: Coil = {
    axis: { origin, u, v: cross(normal, u), normal },
    radius,
    sweep: Math.abs(sweep),
    rise: 0,
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

interface RollEnd {
  /** Vertices from near to far. */
  readonly inner: readonly number[];
  readonly outer: readonly number[];
}

const rollFaces = (build: Build, { roll, seats }: SeatedRoll, cornerOf: (node: RingNode) => Corner): BoundaryFace[] => {
  const isWetInside = dryRadius(roll) === roll.outerRadius;
  const endOn = (seat: Seat): RollEnd => {
    const dry = seat.nodes.map((node) => cornerOf(node).dry);
    const wet = seat.nodes.map((node) => cornerOf(node).wet);
    return isWetInside ? { inner: wet, outer: dry } : { inner: dry, outer: wet };
  };
  const freeEnd = (end: 0 | 1): RollEnd => {
    const at = (radius: number): number[] =>
      [roll.near[end], roll.far[end]].map((level) => build.vertex(rollPoint(roll, radius, end * roll.sweep, level)));
    return { inner: at(roll.innerRadius), outer: at(roll.outerRadius) };
  };
  const first = seats[0] ? endOn(seats[0]) : freeEnd(0);
  const last = seats[1] ? endOn(seats[1]) : freeEnd(1);
  const lids = [
    ...(seats[0] ? [] : [lidOf(build, roll, first, 0)]),
    ...(seats[1] ? [] : [lidOf(build, roll, last, 1)]),
  ];
  return [...turnedFaces(build, roll, first, last), ...lids];
};

const turnedFaces = (build: Build, roll: Roll, first: RollEnd, last: RollEnd): BoundaryFace[] => {
  const rail = (side: 'inner' | 'outer', which: 'near' | 'far'): EdgeUse | undefined => {
    const pick = (end: RollEnd): number => (which === 'near' ? end[side][0] : end[side][end[side].length - 1]);
    if (pick(first) === pick(last)) return undefined;
    return build.coil(
      pick(first),
      pick(last),
      coilOf(roll, side === 'inner' ? roll.innerRadius : roll.outerRadius, roll[which]),
    );
  };
  const rails = {
    nearInner: rail('inner', 'near'),
    nearOuter: rail('outer', 'near'),
    farInner: rail('inner', 'far'),
    farOuter: rail('outer', 'far'),
  };
  const chain = (vertices: readonly number[]): Loop => vertices.slice(1).map((to, i) => build.line(vertices[i], to));
  const back = (vertices: readonly number[]): Loop => chain([...vertices].reverse());
  const radial = (end: RollEnd, which: 'near' | 'far', from: 'inner' | 'outer'): Loop => {
    const i = which === 'near' ? 0 : end.inner.length - 1;
    const [a, b] = [end.inner[i], end.outer[i]];
    return [from === 'inner' ? build.line(a, b) : build.line(b, a)];
  };
  const radii = [roll.innerRadius, roll.outerRadius] as const;
  const blade = (which: 'near' | 'far'): BoundaryFace => {
    const from = which === 'near' ? 'outer' : 'inner';
    const surface = {
      kind: 'blade',
      axis: raised(roll.axis, roll[which][0]),
      rise: roll[which][1] - roll[which][0],
      sweep: roll.sweep,
      facing: which,
      radii,
    } as const;
    const pair = [rails[`${which}Inner`], rails[`${which}Outer`]] as const;
    return {
      kind: 'turned',
      surface,
      first: radial(first, which, from),
      last: radial(last, which, from),
      rails: which === 'near' ? [pair[1], pair[0]] : [pair[0], pair[1]],
    };
  };
  const innerSkin: BoundaryFace[] =
    rails.nearInner === undefined
      ? []
      : [
          {
            kind: 'turned',
            surface: { kind: 'cylinder', axis: roll.axis, radius: roll.innerRadius, sweep: roll.sweep, convex: false },
            first: chain(first.inner),
            last: chain(last.inner),
            rails: [rails.nearInner, rails.farInner],
          },
        ];
  return [
    ...innerSkin,
    {
      kind: 'turned',
      surface: { kind: 'cylinder', axis: roll.axis, radius: roll.outerRadius, sweep: roll.sweep, convex: true },
      first: back(first.outer),
      last: back(last.outer),
      rails: [rails.farOuter, rails.nearOuter],
    },
    blade('near'),
    blade('far'),
  ];
};

const raised = (axis: Frame, level: number): Frame => ({ ...axis, origin: addScaled(axis.origin, axis.normal, level) });

const coilOf = (roll: Roll, radius: number, [level, end]: readonly [number, number]): Coil => ({
  axis: raised(roll.axis, level),
  radius,
  sweep: roll.sweep,
  chordRadius: roll.outerRadius,
  rise: Math.abs(end - level) <= ROUND_OFF ? 0 : end - level,
});

/** Closes a roll that ends in the air. */
const lidOf = (build: Build, roll: Roll, end: RollEnd, side: 0 | 1): BoundaryFace => {
  const [nearInner, farInner] = [end.inner[0], end.inner[end.inner.length - 1]];
  const [nearOuter, farOuter] = [end.outer[0], end.outer[end.outer.length - 1]];
  const loop = [
    build.line(nearInner, nearOuter),
    build.line(nearOuter, farOuter),
    build.line(farOuter, farInner),
    build.line(farInner, nearInner),
  ];
  const u = unit(subtract(build.vertices[nearOuter], build.vertices[nearInner]));
  const normal = scale(cross(roll.axis.normal, u), side === 0 ? -1 : 1);
  return {
    kind: 'flat',
    frame: { origin: build.vertices[nearInner], u, v: cross(normal, u), normal },
    loops: [side === 0 ? loop : reversedLoop(loop)],
  };
};
