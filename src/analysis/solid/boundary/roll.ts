/** Faces of a roll: its two skins, its two ends, and a lid where no plate meets it. */
import type { Roll, ZoneEnd } from '../../fold/flat-pattern.js';
import { breaksOf, levelAt, partOfEnd } from '../../fold/zone/zone-end.js';
import type { Frame } from '../../geometry/frame.js';
import { add, addScaled, cross, scale, subtract, unit } from '../../geometry/vec.js';
import { SAME_DIRECTION } from '../../geometry/tolerance.js';
import type { BoundaryFace, Coil, EdgeUse, Loop } from './boundary.js';
import { climbAt, climbOf } from './climb.js';
import { reversedLoop, type Build, type Corner } from './edges.js';
import { dryRadius, rollPoint, type RingNode, type Seat, type SeatedRoll } from './rings.js';

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
  const freeEnd = (share: number): RollEnd => {
    const at = (radius: number): number[] =>
      [roll.near, roll.far].map((line) =>
        build.vertex(rollPoint(roll, radius, share * roll.sweep, levelAt(line, share))),
      );
    return { inner: at(roll.innerRadius), outer: at(roll.outerRadius) };
  };
  const first = seats[0] ? endOn(seats[0]) : freeEnd(0);
  const last = seats[1] ? endOn(seats[1]) : freeEnd(1);
  const lids = [
    ...(seats[0] ? [] : [lidOf(build, roll, first, 0)]),
    ...(seats[1] ? [] : [lidOf(build, roll, last, 1)]),
  ];
  const slices = slicesOf(roll);
  const cuts = [first, ...slices.slice(1).map(({ from }) => freeEnd(from)), last];
  return [...slices.flatMap(({ slice }, i) => turnedFaces(build, slice, cuts[i], cuts[i + 1])), ...lids];
};

/** The roll cut where its ends go over from one arc to the next, with the share of the turn from which each slice runs. */
const slicesOf = (roll: Roll): readonly { readonly from: number; readonly slice: Roll }[] => {
  const breaks = [...breaksOf(roll.near), ...breaksOf(roll.far)].sort((a, b) => a - b);
  if (breaks.length === 0) return [{ from: 0, slice: roll }];
  const starts = [0, ...breaks.filter((share, i) => i === 0 || share - breaks[i - 1] > SAME_DIRECTION)];
  return starts.map((from, i) => {
    const to = starts[i + 1] ?? 1;
    const [near, far] = [roll.near, roll.far].map((end) => partOfEnd(end, from, to));
    return {
      from,
      slice: { ...roll, axis: turned(roll.axis, from * roll.sweep), sweep: (to - from) * roll.sweep, near, far },
    };
  });
};

const turned = (axis: Frame, turn: number): Frame => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return { ...axis, u: add(scale(axis.u, c), scale(axis.v, s)), v: add(scale(axis.v, c), scale(axis.u, -s)) };
};

type Skin = 'inner' | 'outer';
type Side = 'near' | 'far';

/** Of a roll whose ends are a single line or arc each: what its faces are made from. */
interface Turn {
  readonly build: Build;
  readonly roll: Roll;
  readonly first: RollEnd;
  readonly last: RollEnd;
  /** Undefined where the inner radius is none, so that both ends share the vertex. */
  readonly rails: Readonly<Record<Side, Readonly<Record<Skin, EdgeUse | undefined>>>>;
}

const turnedFaces = (build: Build, roll: Roll, first: RollEnd, last: RollEnd): BoundaryFace[] => {
  const chordRadius = chordRadiusOf(roll);
  const rail = (side: Side, skin: Skin): EdgeUse | undefined => {
    const pick = (end: RollEnd): number => (side === 'near' ? end[skin][0] : end[skin][end[skin].length - 1]);
    if (pick(first) === pick(last)) return undefined;
    const radius = skin === 'inner' ? roll.innerRadius : roll.outerRadius;
    return build.coil(pick(first), pick(last), coilOf(roll, radius, roll[side], chordRadius));
  };
  const near = { inner: rail('near', 'inner'), outer: rail('near', 'outer') };
  const far = { inner: rail('far', 'inner'), outer: rail('far', 'outer') };
  const turn: Turn = { build, roll, first, last, rails: { near, far } };
  return [
    ...(near.inner === undefined ? [] : [skinOf(turn, 'inner')]),
    skinOf(turn, 'outer'),
    bladeOf(turn, 'near'),
    bladeOf(turn, 'far'),
  ];
};

const skinOf = ({ build, roll, first, last, rails }: Turn, skin: Skin): BoundaryFace => {
  const convex = skin === 'outer';
  const radius = convex ? roll.outerRadius : roll.innerRadius;
  const loop = (end: RollEnd): Loop => {
    const vertices = convex ? [...end.outer].reverse() : end.inner;
    return vertices.slice(1).map((to, i) => build.line(vertices[i], to));
  };
  const { near, far } = rails;
  return {
    kind: 'turned',
    surface: { kind: 'cylinder', axis: roll.axis, radius, sweep: roll.sweep, convex },
    first: loop(first),
    last: loop(last),
    rails: convex ? [far.outer, near.outer] : [near.inner, far.inner],
  };
};

const bladeOf = ({ build, roll, first, last, rails }: Turn, side: Side): BoundaryFace => {
  const isNear = side === 'near';
  const radial = (end: RollEnd): Loop => {
    const i = isNear ? 0 : end.inner.length - 1;
    const [a, b] = [end.inner[i], end.outer[i]];
    return [isNear ? build.line(b, a) : build.line(a, b)];
  };
  const { inner, outer } = rails[side];
  return {
    kind: 'turned',
    surface: {
      kind: 'blade',
      axis: raised(roll.axis, roll[side][0].y),
      climb: climbOf(roll[side]),
      sweep: roll.sweep,
      facing: side,
      radii: [roll.innerRadius, roll.outerRadius],
    },
    first: radial(first),
    last: radial(last),
    rails: isNear ? [outer, inner] : [inner, outer],
  };
};

const raised = (axis: Frame, level: number): Frame => ({ ...axis, origin: addScaled(axis.origin, axis.normal, level) });

const coilOf = (roll: Roll, radius: number, end: ZoneEnd, chordRadius: number): Coil => ({
  axis: raised(roll.axis, end[0].y),
  radius,
  sweep: roll.sweep,
  chordRadius,
  climb: climbOf(end),
});

/** The radius of a turn that bends as much as the outer rails do: around the axis, and along it where an end is an arc. */
const chordRadiusOf = ({ outerRadius, near, far, sweep }: Roll): number => {
  const bowed = [near, far].filter(([{ bulge }]) => bulge !== 0);
  const bends = bowed.map((end) => Math.abs(climbAt(climbOf(end), 0.5)[2]) / sweep ** 2);
  return Math.hypot(outerRadius, ...bends);
};

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
