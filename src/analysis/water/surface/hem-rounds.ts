/** Edges that are turned back on themselves: the liquid meets the round of the hem, and the lip of one turned to the wet side. */
import { NO_CROSS, SAME_POINT, SAME_WAY } from '../../geometry/tolerance.js';
import {
  add,
  addScaled,
  cross,
  distance,
  dot,
  lengthOf,
  scale,
  subtract,
  unit,
  type Vec3,
} from '../../geometry/vec.js';
import type { Hem, Tub } from '../../model/tub.js';
import type { Dividers } from '../../shape/account/dividers.js';
import type { Face, Shape, Stretch } from '../../shape/shape.js';
import { highestNormal, type Facet, type Rounding } from './crests.js';

/** A flat piece of a hem. */
export interface HemPiece extends Facet {
  /** What is turned back. */
  readonly rim: Stretch;
  /** Along which the sheet ends there. */
  readonly end: { readonly start: Vec3; readonly end: Vec3 } | undefined;
}

export interface HemRounds {
  readonly facets: readonly HemPiece[];
  readonly roundings: readonly Rounding[];
}

/**
 * The stated edge is the outermost line of the finished hem, so the round begins R + T before it and its top lies up to
 * 0.41 (R + T) below it on a wall that leans outward, above it on one that leans inward. A hem turned to the wet side
 * stands on the face with its gap and its sheet, from where its lip ends; what is between lip and face counts as full,
 * as no liquid is sure to get in there. Its ends are closed: by what the edge beside it is joined to, two hems in a corner by
 * their mitre. Those of dividers, of broken edges, and those without room for lip and round stay sharp. Cost: O(n) in edges.
 */
export const hemRoundsOf = (tub: Tub, shape: Shape, dividers: Dividers): HemRounds => {
  const facets: HemPiece[] = [];
  const roundings: Rounding[] = [];
  for (const face of shape.faces) {
    if (!face.usable || dividers.has(face.panel)) continue;
    for (const stretches of face.stretches) {
      const hemmed = hemmedEdge(tub, face, stretches);
      const pair = hemmed && endsOf(tub, shape, hemmed);
      if (!pair) continue;
      facets.push(...pair[0].line.slice(1).map((_, i) => pieceOf(hemmed, pair, i)));
      for (const { fillers } of pair) facets.push(...fillers);
      roundings.push(...pair.flatMap((end) => end.roundings));
    }
  }
  return { facets, roundings };
};

interface HemmedEdge {
  readonly face: Face;
  readonly rim: Stretch;
  readonly hem: Hem;
  readonly thickness: number;
  readonly along: Vec3;
  /** Out over the edge, in the plane of the face. */
  readonly out: Vec3;
  readonly section: Section;
}

/** How far out over the edge and above the face; begins on the face and ends where the liquid runs off. */
type Section = readonly (readonly [out: number, above: number])[];

/** Undefined where it has no hem, or the round does not reach above where it begins. */
const hemmedEdge = (tub: Tub, face: Face, stretches: readonly Stretch[]): HemmedEdge | undefined => {
  const [rim] = stretches;
  const hem = rim?.rim === undefined ? undefined : tub.rims[rim.rim].hem;
  const thickness = tub.sheets[tub.panels[face.panel].sheet]?.thickness ?? 0;
  if (!hem || stretches.length !== 1 || rim.mates.length > 0 || thickness <= 0) return undefined;
  if (hem.length <= hem.gap / 2 + thickness) return undefined;
  const along = unit(subtract(rim.end, rim.start));
  const out = cross(along, face.frame.normal);
  const section = sectionOf(hem, thickness, highestTurn(face.frame.normal, along, out));
  return section && { face, rim, hem, thickness, along, out, section };
};

/** From the normal of the face outward to the normal of the round where it is highest, rad. */
const highestTurn = (normal: Vec3, along: Vec3, out: Vec3): number => {
  const highest = highestNormal(along);
  return highest ? Math.atan2(dot(highest, out), dot(highest, normal)) : 0;
};

const sectionOf = (hem: Hem, thickness: number, turn: number): Section | undefined => {
  const inside = hem.kind === 'closed' ? 0 : hem.gap / 2;
  const radius = inside + thickness;
  // Midway it stands out as far as gives two flats the area of the round; the highest place is on it.
  const bulge = turn / 2 / Math.sin(turn / 2);
  const at = (angle: number, above: number, out: number): Section[number] => [
    -radius + out * radius * Math.sin(angle),
    above + out * radius * Math.cos(angle),
  ];
  const round = (above: number): Section => (turn <= SAME_WAY ? [] : [at(turn / 2, above, bulge), at(turn, above, 1)]);
  if (hem.turned === 'dry') return turn <= SAME_WAY ? undefined : [[-radius, 0], ...round(-radius)];
  const top = inside + radius;
  return [[-hem.length, 0], [-hem.length, top], [-radius, top], ...round(inside)];
};

const pieceOf = ({ face, rim }: HemmedEdge, [{ line: first }, { line: last }]: HemLineEnds, i: number): HemPiece => {
  const corners = [last[i], first[i], first[i + 1], last[i + 1]];
  const end = i + 2 < first.length ? undefined : { start: first[i + 1], end: last[i + 1] };
  return { panel: face.panel, corners, normal: ringNormal(corners), rim, end };
};

/** Twice its area, along its normal. */
const turnOf = (ring: readonly Vec3[]): Vec3 => {
  let turn: Vec3 = [0, 0, 0];
  for (let i = 1; i + 1 < ring.length; i++)
    turn = add(turn, cross(subtract(ring[i], ring[0]), subtract(ring[i + 1], ring[0])));
  return turn;
};

const ringNormal = (ring: readonly Vec3[]): Vec3 => unit(turnOf(ring));

const areaOfRing = (ring: readonly Vec3[]): number => lengthOf(turnOf(ring)) / 2;

interface HemLineEnd {
  /** The section, at this end of the hem. */
  readonly line: readonly Vec3[];
  readonly fillers: readonly HemPiece[];
  readonly roundings: readonly Rounding[];
}

type HemLineEnds = readonly [HemLineEnd, HemLineEnd];

/** Both ends of a hem; undefined without room for them, or where they would cross. */
const endsOf = (tub: Tub, shape: Shape, hemmed: HemmedEdge): HemLineEnds | undefined => {
  const [first, last] = ([0, 1] as const).map((end) => endOf(tub, shape, hemmed, end));
  if (!first || !last) return undefined;
  const isOpen = first.line.every((place, i) => dot(subtract(last.line[i], place), hemmed.along) > SAME_POINT);
  return isOpen ? [first, last] : undefined;
};

const endOf = (tub: Tub, shape: Shape, hemmed: HemmedEdge, end: 0 | 1): HemLineEnd | undefined => {
  const { face, rim } = hemmed;
  const at = end === 0 ? rim.start : rim.end;
  const n = face.corners.length;
  const beside = end === 0 ? (rim.edge + n - 1) % n : (rim.edge + 1) % n;
  const next = face.corners[end === 0 ? beside : (beside + 1) % n];
  const way = unit(subtract(next, at));
  const reach = -hemmed.section[0][0];
  const inward = -dot(way, hemmed.out);
  // Edges that run on straight, or nearly, end the hem square.
  if (inward < SAME_WAY) return plainEnd(hemmed, at, scale(hemmed.out, -1));
  if (inward * distance(next, at) <= reach + SAME_POINT) return undefined;
  const closing = closedBy(shape, face, beside, at);
  if (!closing) return plainEnd(hemmed, at, way);
  const other = hemmedBeside(tub, closing, at);
  return other ? mitredEnd(hemmed, other, { at, way, end }) : closedEnd(hemmed, closing, at, way);
};

const plainEnd = (hemmed: HemmedEdge, at: Vec3, way: Vec3): HemLineEnd | undefined => {
  const line = lineIn(hemmed, at, way, hemmed.face.frame.normal);
  return line && { line, fillers: [], roundings: [{ face: hemmed.face.panel, at, by: [line[0]], foot: line[0] }] };
};

/** The section in the plane of two ways that leave the end of the edge; undefined where the edge lies in it. */
const lineIn = (
  { section, out, along, face }: HemmedEdge,
  at: Vec3,
  way: Vec3,
  other: Vec3,
): readonly Vec3[] | undefined => {
  const across = cross(way, other);
  const slant = dot(across, along);
  if (Math.abs(slant) < SAME_WAY) return undefined;
  return section.map(([o, above]) => {
    const off = add(scale(out, o), scale(face.frame.normal, above));
    return addScaled(add(at, off), along, -dot(off, across) / slant);
  });
};

/** A face that goes up to the end of the hem beside its panel, and its corner there. */
interface Closing {
  readonly face: Face;
  readonly corner: number;
}

const closedBy = ({ faces }: Shape, { stretches }: Face, edge: number, at: Vec3): Closing | undefined => {
  for (const { face } of stretches[edge].flatMap(({ mates }) => mates)) {
    const corner = faces[face].corners.findIndex((each) => distance(each, at) <= SAME_POINT);
    if (faces[face].usable && corner >= 0) return { face: faces[face], corner };
  }
  return undefined;
};

const hemmedBeside = (tub: Tub, { face, corner }: Closing, at: Vec3): HemmedEdge | undefined => {
  const n = face.stretches.length;
  const found = [corner, (corner + n - 1) % n].map((edge) => hemmedEdge(tub, face, face.stretches[edge]));
  return found.find((each) => each && [each.rim.start, each.rim.end].some((end) => distance(end, at) <= SAME_POINT));
};

/** Two hems that meet in a corner are mitred; what is left between them if they differ is closed. */
const mitredEnd = (
  hemmed: HemmedEdge,
  other: HemmedEdge,
  { at, way, end }: { readonly at: Vec3; readonly way: Vec3; readonly end: 0 | 1 },
): HemLineEnd | undefined => {
  const own = scale(hemmed.along, end === 0 ? 1 : -1);
  const theirs = scale(other.along, distance(other.rim.start, at) <= SAME_POINT ? 1 : -1);
  const middle = add(own, theirs);
  if (dot(middle, middle) < SAME_WAY) return plainEnd(hemmed, at, way);
  const line = lineIn(hemmed, at, way, unit(middle));
  const beside = lineIn(other, at, way, unit(middle));
  if (!line || !beside) return undefined;
  const isAlike = line.length === beside.length && line.every((p, i) => distance(p, beside[i]) <= SAME_POINT);
  const isOwner = hemmed.face.panel < other.face.panel;
  const ring = [...line, ...[...beside].reverse()];
  const fillers = isAlike || !isOwner || areaOfRing(ring) <= NO_CROSS ? [] : [fillerOf(hemmed, ring, end)];
  return { line, fillers, roundings: [{ face: hemmed.face.panel, at, by: [line[0]], foot: line[0] }] };
};

/** Seen from the side of the hem that it closes, unless it is the larger of the two. */
const fillerOf = ({ face, along, rim }: HemmedEdge, ring: readonly Vec3[], end: 0 | 1): HemPiece => {
  const inward = scale(along, end === 0 ? 1 : -1);
  const normal = ringNormal(ring);
  const isInward = dot(normal, inward) > 0;
  return {
    panel: face.panel,
    corners: isInward ? ring : [...ring].reverse(),
    normal: isInward ? normal : scale(normal, -1),
    rim,
    end: undefined,
  };
};

/** The face beside it is cut along the section, down to its own edge. */
const closedEnd = (hemmed: HemmedEdge, { face, corner }: Closing, at: Vec3, way: Vec3): HemLineEnd | undefined => {
  const n = face.corners.length;
  const neighbours = [face.corners[(corner + n - 1) % n], face.corners[(corner + 1) % n]];
  const side = neighbours.findIndex((each) => dot(unit(subtract(each, at)), way) > 1 - SAME_WAY ** 2);
  if (side < 0) return plainEnd(hemmed, at, way);
  const beyond = neighbours[1 - side];
  const on = unit(subtract(beyond, at));
  const line = lineIn(hemmed, at, way, on);
  if (!line) return plainEnd(hemmed, at, way);
  const top = line[line.length - 1];
  const off = Math.max(0, dot(subtract(top, at), on));
  if (off >= distance(beyond, at) - SAME_POINT) return undefined;
  const foot = addScaled(at, on, off);
  const by = distance(foot, top) > SAME_POINT ? [...line, foot] : line;
  return {
    line,
    fillers: [],
    roundings: [
      { face: hemmed.face.panel, at, by: [line[0]], foot: line[0] },
      { face: face.panel, at, by: side === 0 ? by : [...by].reverse(), foot: line[0] },
    ],
  };
};
