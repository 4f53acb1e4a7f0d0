/** Faces of a roll: its two skins, its two ends, and a lid where no plate meets it. */
import type { Roll, ZoneEnd } from '../fold/flat-pattern.js';
import { breaksOf, levelAt, partOfEnd } from '../fold/zone-end.js';
import type { Frame } from '../geometry/frame.js';
import { add, addScaled, cross, scale, subtract, unit } from '../geometry/vec.js';
import { SAME_DIRECTION } from '../geometry/tolerance.js';
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

/** Of a roll whose ends are a single line or arc each. */
const turnedFaces = (build: Build, roll: Roll, first: RollEnd, last: RollEnd): BoundaryFace[] => {
  const chordRadius = chordRadiusOf(roll);
  const rail = (side: 'inner' | 'outer', which: 'near' | 'far'): EdgeUse | undefined => {
    const pick = (end: RollEnd): number => (which === 'near' ? end[side][0] : end[side][end[side].length - 1]);
    if (pick(first) === pick(last)) return undefined;
    return build.coil(
      pick(first),
      pick(last),
      coilOf(roll, side === 'inner' ? roll.innerRadius : roll.outerRadius, roll[which], chordRadius),
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
      axis: raised(roll.axis, roll[which][0].y),
      climb: climbOf(roll[which]),
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
