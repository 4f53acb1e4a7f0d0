/** Corners round which a joint of faces goes on: a trough that lies in another, along the bends of both. */
import { middleOf } from '../../geometry/polygon.js';
import { addScaled, angleBetween, cross, distance, dot, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { weldVertices } from '../../geometry/weld-vertices.js';
import type { Tub } from '../../model/tub.js';
import type { FaceIndex, Shape, Stretch } from '../shape.js';
import { stretchAt, type LaidEdge } from './laid-edges.js';
import type { LaidPair, OnBoth } from './laid-pairs.js';

export interface LaidCorner {
  /** Indices among the pairs. */
  readonly pairs: readonly [number, number];
  /** On which of their faces the lines end in one place. */
  readonly sides: readonly [0 | 1, 0 | 1];
  /** Where the line of the one and of the other contact ends. */
  readonly ends: readonly [OnBoth, OnBoth];
  /** What closes the corner between both lines, in turn. */
  readonly ring: readonly Vec3[];
  /** Along which the faces meet that turn away: on them lies nothing between contact and corner. */
  readonly turning: readonly [Stretch, Stretch];
  /** What is covered there beyond the contacts. */
  readonly covered: readonly { readonly on: FaceIndex; readonly ring: readonly Vec3[] }[];
}

/**
 * What is open between two sheets in the middle of a corner that both turn round, mm. With what lies between their flats g, the turn
 * t and the radii of the skins that face one another, i of the inner and o of the outer one: g / cos(t/2) + (i - o) (1 / cos(t/2) - 1),
 * as each round leaves r (1 / cos(t/2) - 1) of its sharp corner. Source: derived.
 */
export const cornerGap = (
  tub: Tub,
  { bends }: Pick<Shape, 'bends'>,
  pairs: readonly LaidPair[],
  { pairs: [one, other], sides: [p], ring, turning }: LaidCorner,
): number => {
  const { faces, facing } = pairs[one];
  const thicknessOf = (side: Side): number => tub.sheets[tub.panels[faces[side].panel].sheet]?.thickness ?? 0;
  const metal = SIDES.reduce<number>((sum, side) => sum + (facing[side] === 'dry' ? thicknessOf(side) : 0), 0);
  const flat = distance(ring[0], ring[1]) - metal;
  const away = (1 - p) as Side;
  const [{ frame }, second] = [
    faces[away],
    pairs[other].faces.find(({ panel }) => turning[1].mates.some((m) => m.face === panel)),
  ];
  const turn = second ? angleBetween(frame.normal, second.frame.normal) : 0;
  const radii = ([p, away] as const).map((side, i) => {
    const bend = turning[i].bend === undefined ? undefined : bends[turning[i].bend];
    if (!bend) return 0;
    return bend.radius + ((bend.wet === 'outside') === (facing[side] === 'wet') ? bend.thickness : 0);
  });
  // The sheet on which the others lie in a hollow is the outer one.
  const isHollow = dot(subtract(ring[0], ring[2]), subtract(second ? middleOf(second.corners) : ring[2], ring[2])) > 0;
  const [inner, outer] = isHollow ? radii : [radii[1], radii[0]];
  const stretch = 1 / Math.cos(turn / 2);
  return flat * stretch + (inner - outer) * (stretch - 1);
};

const SIDES = [0, 1] as const;

interface End {
  readonly pair: number;
  readonly places: OnBoth;
}

/**
 * Two contacts whose lines end in one place on one of their sheets, and on two faces of the other that meet along an edge
 * there. `passages`: edges over which the liquid would get from face to face. Cost: O(n) in ends.
 */
export const laidCornersOf = (
  pairs: readonly LaidPair[],
  edges: readonly LaidEdge[],
  passages: readonly LaidEdge[],
): readonly LaidCorner[] => {
  const ends = passages.flatMap(({ pair, from, to }): readonly End[] => [
    { pair, places: from },
    { pair, places: to },
  ]);
  const { indexOf } = weldVertices();
  const before = new Map<number, End[]>();
  return ends.flatMap((one) => {
    const found = one.places.flatMap((place) => before.get(indexOf(place)) ?? []);
    for (const place of one.places) before.set(indexOf(place), [...(before.get(indexOf(place)) ?? []), one]);
    return [...new Set(found)].flatMap((other) => {
      if (one.pair === other.pair) return [];
      for (const p of [0, 1] as const) {
        for (const q of [0, 1] as const) {
          const corner =
            distance(one.places[p], other.places[q]) <= SAME_POINT &&
            distance(one.places[1 - p], other.places[1 - q]) > SAME_POINT
              ? cornerOf(pairs, edges, [one, other], [p, q])
              : undefined;
          if (corner) return [corner];
        }
      }
      return [];
    });
  });
};

type Side = 0 | 1;

const cornerOf = (
  pairs: readonly LaidPair[],
  edges: readonly LaidEdge[],
  [one, other]: readonly [End, End],
  [p, q]: readonly [Side, Side],
): LaidCorner | undefined => {
  const [first, second] = [pairs[one.pair].faces[1 - p], pairs[other.pair].faces[1 - q]];
  const shared = first.stretches.flat().find(({ mates }) => mates.some(({ face }) => face === second.panel));
  const common = stretchBetween(pairs[one.pair].faces[p], pairs[other.pair].faces[q], one.places[p]);
  if (!shared || !common) return undefined;
  const [a, b] = [one.places[1 - p], other.places[1 - q]];
  const foot = footOn(shared, a);
  return {
    pairs: [one.pair, other.pair],
    sides: [p, q],
    ends: [one.places, other.places],
    ring: [one.places[p], a, foot, b],
    turning: [common, shared],
    covered: [
      ...besideOf(edges, one, (1 - p) as Side).map((line) => between(pairs, one, (1 - p) as Side, line, shared)),
      ...besideOf(edges, other, (1 - q) as Side).map((line) => between(pairs, other, (1 - q) as Side, line, shared)),
    ],
  };
};

/** The stretch of one face at a place, along which the other lies. */
const stretchBetween = (one: LaidPair['faces'][0], other: LaidPair['faces'][0], place: Vec3): Stretch | undefined => {
  if (one.panel === other.panel) return undefined;
  const own = one.stretches.flat().filter(({ mates }) => mates.some(({ face }) => face === other.panel));
  return own.find((stretch) => stretchAt({ ...one, stretches: [[stretch]] }, place));
};

const footOn = ({ start, end }: Pick<Stretch, 'start' | 'end'>, place: Vec3): Vec3 => {
  const along = unit(subtract(end, start));
  return addScaled(start, along, dot(subtract(place, start), along));
};

/** The edge of the contact that runs along the corner from an end of its line. */
const besideOf = (
  edges: readonly LaidEdge[],
  { pair, places }: End,
  side: Side,
): readonly (readonly [Vec3, Vec3])[] => {
  const beside = edges.filter(
    (edge) =>
      edge.pair === pair &&
      edge.along[side] === undefined &&
      edge.along[1 - side] !== undefined &&
      [edge.from, edge.to].some((end) => distance(end[side], places[side]) <= SAME_POINT),
  );
  return beside.map(({ from, to }) => [from[side], to[side]]);
};

const between = (
  pairs: readonly LaidPair[],
  { pair }: End,
  side: Side,
  [from, to]: readonly [Vec3, Vec3],
  shared: Stretch,
): LaidCorner['covered'][number] => {
  const { panel, frame } = pairs[pair].faces[side];
  const ring = [from, to, footOn(shared, to), footOn(shared, from)];
  const turn = cross(subtract(ring[1], ring[0]), subtract(ring[2], ring[1]));
  return { on: panel, ring: dot(turn, frame.normal) > 0 ? ring : [...ring].reverse() };
};
