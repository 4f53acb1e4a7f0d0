/** The faces about dividers, crests and joints of faces as triangles that meet corner to corner. */
import { boxesOfPolygons, indexBoxes } from '../../geometry/box-index.js';
import { toPlane, toSpace } from '../../geometry/frame.js';
import { signedArea } from '../../geometry/polygon.js';
import { triangulate } from '../../geometry/triangles/triangulate.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { distance, dot, lerp, subtract, type Vec2, type Vec3 } from '../../geometry/vec.js';
import type { MergedPoints } from '../../geometry/weld-vertices.js';
import type { Tub } from '../../model/tub.js';
import type { Border } from '../../shape/account/border.js';
import { dividersOf, letsBy } from '../../shape/account/dividers.js';
import type { LaidFaces } from '../../shape/laid/laid-faces.js';
import type { Face, FaceIndex, Shape, Stretch } from '../../shape/shape.js';
import { crestsOf, rounded, type Rounding } from './crests.js';
import { cutFace } from './cut-face.js';
import { hemRoundsOf, type HemPiece } from './hem-rounds.js';
import { dividerCrests } from './divider-crests.js';
import type { PlacedMesh } from './face-mesh.js';
import { splitSides, type EdgeStop } from './face-regions.js';
import type { BorderLine } from './mesh.js';
import { areApart, openingOutlines, type OpeningOutline } from '../../shape/opening-outline.js';
import { skin, skinsOf, type Skins } from './skins.js';

/** The faces of a tub with dividers, bent crests, hems and faces laid on one another in it. */
export interface Parted extends Skins {
  readonly dividers: ReadonlySet<FaceIndex>;
  /** By face, corners of its outline that are rounded. */
  readonly roundings: ReadonlyMap<FaceIndex, readonly Rounding[]>;
  readonly laid: LaidFaces | undefined;
  /** By face, what it is of a hem. */
  readonly hems: ReadonlyMap<number, HemPiece>;
  /** Indices of the faces that these change: their own, those they stand on, and the neighbours of these. */
  readonly involved: ReadonlySet<number>;
}

/** Undefined where nothing stands in the tub or lies on it, and no crest is bent and no edge turned back. `isTight`: openings of dividers let nothing by. */
export const partedFaces = (tub: Tub, shape: Shape, isTight: boolean): Parted | undefined => {
  const dividers = dividersOf(tub, shape);
  const crests = crestsOf(shape, dividers);
  const hems = hemRoundsOf(tub, shape, dividers);
  const { laid } = shape;
  const isRound = crests.facets.length + hems.facets.length > 0;
  if (dividers.size === 0 && !isRound && !laid) return undefined;
  const skins = skinsOf(shape, dividers, (opening) => !isTight && letsBy(tub, opening));
  const { footprints, ...capped } = dividerCrests(shape, skins);
  const hemsFrom = skins.faces.length;
  const faces = [
    ...skins.faces,
    ...[...hems.facets, ...crests.facets, ...capped.facets].map(({ panel, corners, normal }) =>
      skin(shape.faces[panel], corners, normal),
    ),
    ...(laid?.strips ?? []).map(({ beside, corners, normal }) => skin(shape.faces[beside], corners, normal)),
  ];
  const pieces = new Map(hems.facets.map((piece, i) => [hemsFrom + i, piece]));
  const roundings = byFace([...crests.roundings, ...capped.roundings, ...hems.roundings]);
  const involved = new Set<number>(dividers.keys());
  for (let i = shape.faces.length; i < faces.length; i++) involved.add(i);
  for (const on of roundings.keys()) {
    involved.add(on);
    for (const stretch of faces[on].stretches.flat()) for (const { face } of stretch.mates) involved.add(face);
  }
  for (const on of [...footprints.map((each) => each.on), ...(laid?.covered.keys() ?? []), ...besideOf(laid)]) {
    involved.add(on);
    for (const stretch of skins.faces[on].stretches.flat()) for (const { face } of stretch.mates) involved.add(face);
  }
  return { ...skins, faces, footprints, dividers: new Set(dividers.keys()), roundings, laid, hems: pieces, involved };
};

/** Faces that a strip joins with others. */
const besideOf = (laid: LaidFaces | undefined): readonly FaceIndex[] => (laid?.pairs ?? []).flat();

const byFace = (roundings: readonly Rounding[]): Parted['roundings'] => {
  const found = new Map<FaceIndex, Rounding[]>();
  for (const rounding of roundings) {
    const known = found.get(rounding.face);
    if (known) known.push(rounding);
    else found.set(rounding.face, [rounding]);
  }
  return found;
};

/** Where the meshes are to fit in. */
export interface MeshSite {
  readonly merge: MergedPoints;
  readonly stopsOn: (face: FaceIndex) => readonly EdgeStop[];
  readonly borders: ReadonlyMap<Stretch, Border>;
  /** What ends the sheet, added to. */
  readonly lines: BorderLine[];
}

/** Meshes of the involved faces. Corners that lie on another one's edge split it. Cost: O(n log n) in their corners. */
export const partedMeshes = (parted: Parted, { merge, stopsOn, borders, lines }: MeshSite): readonly PlacedMesh[] => {
  const coveredOn = new Map<number, (readonly Vec3[])[]>();
  for (const { on, ring } of parted.footprints) {
    const known = coveredOn.get(on);
    if (known) known.push(ring);
    else coveredOn.set(on, [ring]);
  }
  const welded = (ring: readonly Vec3[]): readonly number[] => ring.map(merge.indexOf);
  // First the corners as computed: those that a cut gives are rounded, and become these.
  for (const face of parted.involved)
    if (!parted.roundings.has(face)) welded(parted.fronts.get(face) ?? parted.faces[face].corners);
  const regions = [...parted.involved]
    .sort((p, q) => p - q)
    .filter((face) => parted.faces[face].usable)
    .map((face) => {
      const lid = parted.laid?.covered.get(face) ?? [];
      return regionsOn(parted, face, { stops: stopsOn(face), covered: coveredOn.get(face) ?? [], lid }, welded);
    });
  const split = splitter(
    merge.points,
    regions.flatMap(({ rings }) => rings.flatMap(({ outline, holes }) => [outline, ...holes])),
  );
  return regions.map(({ face, rings }): PlacedMesh => {
    const whole = rings.map(({ opening, outline, holes }) => ({
      opening,
      outline: split(outline),
      holes: holes.map(split),
    }));
    const borderOf = borderFinder(parted, face, borders);
    for (const { outline } of whole) {
      outline.forEach((from, i) => {
        const to = outline[(i + 1) % outline.length];
        const border = borderOf(merge.points[from], merge.points[to]);
        if (border) lines.push({ from, to, border });
      });
    }
    return meshOfRings(parted.faces[face], face, merge.points, whole);
  });
};

/** A piece of a face: of sheet, or in an opening. */
interface Ring {
  /** -1: sheet. */
  readonly opening: number;
  readonly outline: readonly number[];
  readonly holes: readonly (readonly number[])[];
}

interface Cover {
  readonly stops: readonly EdgeStop[];
  readonly covered: readonly (readonly Vec3[])[];
  /** Covered as well: outer rings counter-clockwise, holes clockwise. */
  readonly lid: readonly (readonly Vec3[])[];
}

const regionsOn = (
  { faces, fronts, passages, roundings }: Parted,
  index: number,
  { stops, covered, lid }: Cover,
  welded: (ring: readonly Vec3[]) => readonly number[],
): { readonly face: number; readonly rings: readonly Ring[] } => {
  const face = faces[index];
  const isPanel = face.stretches.length > 0;
  const sharp = fronts.get(index) ?? (isPanel ? splitSides(face, stops).map(({ start }) => start) : face.corners);
  const own = roundings.get(index);
  const outline = own ? rounded(sharp, own) : sharp;
  const openings = openingOutlines(face).filter(({ opening }) => !passages.has(opening));
  const inPlane = (ring: readonly Vec3[]): readonly Vec2[] => ring.map((point) => toPlane(face.frame, point));
  const put = (ring: readonly Vec2[]): readonly number[] => welded(ring.map((at) => toSpace(face.frame, at)));
  if (covered.length + lid.length === 0 && areApart(openings, inPlane(outline))) {
    const rims = openings.map(({ opening, corners }) => ({ opening, outline: put(corners), holes: [] }));
    const holes = rims.map((rim) => [...rim.outline].reverse());
    return { face: index, rings: [{ opening: -1, outline: welded(outline), holes }, ...rims] };
  }
  const cut = cutFace(inPlane(outline), openings, [...covered.map(inPlane).map(counterClockwise), ...lid.map(inPlane)]);
  return {
    face: index,
    rings: [
      ...cut.solid.map((region) => ({ opening: -1, outline: put(region.outline), holes: region.holes.map(put) })),
      ...cut.openings.map(({ opening, corners }: OpeningOutline) => ({ opening, outline: put(corners), holes: [] })),
    ],
  };
};

const counterClockwise = (ring: readonly Vec2[]): readonly Vec2[] =>
  signedArea(ring) < 0 ? [...ring].reverse() : ring;

/** Puts every corner of any ring that lies on a side of one into that side; corners that are one are taken once. */
const splitter = (
  points: readonly Vec3[],
  rings: readonly (readonly number[])[],
): ((ring: readonly number[]) => readonly number[]) => {
  const corners = [...new Set(rings.flat())];
  const search = indexBoxes(boxesOfPolygons(corners.map((corner) => [points[corner]])));
  const between = (a: number, b: number): readonly number[] => {
    const [p, q] = [points[a], points[b]];
    const length = distance(p, q);
    const placed = search(
      Math.min(p[0], q[0]) - SAME_POINT,
      Math.min(p[1], q[1]) - SAME_POINT,
      Math.max(p[0], q[0]) + SAME_POINT,
      Math.max(p[1], q[1]) + SAME_POINT,
    ).flatMap((i) => {
      const corner = corners[i];
      if (corner === a || corner === b) return [];
      const share = dot(subtract(points[corner], p), subtract(q, p)) / length ** 2;
      const isOn = share > 0 && share < 1 && distance(lerp(p, q, share), points[corner]) <= SAME_POINT;
      return isOn ? [{ corner, share }] : [];
    });
    return placed.sort((first, second) => first.share - second.share).map(({ corner }) => corner);
  };
  return (ring) => {
    const distinct = ring.filter((corner, i) => corner !== ring[(i + 1) % ring.length]);
    return distinct.flatMap((corner, i) => [corner, ...between(corner, distinct[(i + 1) % distinct.length])]);
  };
};

/** What ends a panel's sheet along a line between two points of its outline. */
const borderFinder = (
  { faces, fronts, hems }: Parted,
  face: number,
  borders: MeshSite['borders'],
): ((from: Vec3, to: Vec3) => Border | undefined) => {
  if (fronts.has(face)) return () => undefined;
  const piece = hems.get(face);
  const lines = piece?.end
    ? [{ ...piece.end, stretch: piece.rim }]
    : faces[face].stretches.flat().map((stretch) => ({ start: stretch.start, end: stretch.end, stretch }));
  const ends = lines.flatMap(({ start, end, stretch }) => {
    const border = stretch.mates.length === 0 ? borders.get(stretch) : undefined;
    return border ? [{ start, end, border }] : [];
  });
  const isOn = ({ start, end }: Pick<Stretch, 'start' | 'end'>, point: Vec3): boolean => {
    const share = dot(subtract(point, start), subtract(end, start)) / distance(start, end) ** 2;
    return distance(point, lerp(start, end, Math.min(1, Math.max(0, share)))) <= 2 * SAME_POINT;
  };
  return (from, to) => ends.find((line) => isOn(line, from) && isOn(line, to))?.border;
};

const meshOfRings = ({ frame }: Face, face: number, points: readonly Vec3[], rings: readonly Ring[]): PlacedMesh => {
  const order = new Map<number, number>();
  const at = (corner: number): number => {
    const known = order.get(corner);
    if (known !== undefined) return known;
    order.set(corner, order.size);
    return order.size - 1;
  };
  const local = rings.map(({ opening, outline, holes }) => ({
    opening,
    outline: outline.map(at),
    holes: holes.map((hole) => hole.map(at)),
  }));
  const own = [...order.keys()];
  const plane = own.map((corner) => toPlane(frame, points[corner]));
  const found = local.flatMap(({ opening, outline, holes }) =>
    triangulate(plane, outline, holes).map((corners) => ({ opening, corners })),
  );
  const corners = found.flatMap((triangle) => triangle.corners);
  return {
    face,
    points: own,
    mesh: {
      corners: new Int32Array(corners),
      plane: new Float64Array(corners.flatMap((corner) => plane[corner])),
      openings: new Int32Array(found.map(({ opening }) => opening)),
    },
  };
};
