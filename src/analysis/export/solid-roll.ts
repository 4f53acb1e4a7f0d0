/** Faces of a roll: its two skins, its two ends, and a lid where no plate meets it. */
import type { Roll } from '../fold/flat-pattern.js';
import type { Frame } from '../geometry/frame.js';
import { addScaled, cross, scale, subtract, unit } from '../geometry/vec.js';
import { ROUND_OFF } from '../tolerance.js';
import type { BoundaryFace, Coil, EdgeUse, Loop } from './solid-boundary.js';
import { reversedLoop, type Build, type Corner } from './solid-edges.js';
import { dryRadius, rollPoint, type RingNode, type Seat, type SeatedRoll } from './solid-rings.js';

interface RollEnd {
  /** Vertices from near to far. */
  readonly inner: readonly number[];
  readonly outer: readonly number[];
}

export const rollFaces = (
  build: Build,
  { roll, seats }: SeatedRoll,
  cornerOf: (node: RingNode) => Corner,
): BoundaryFace[] => {
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
