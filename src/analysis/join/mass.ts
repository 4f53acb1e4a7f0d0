/** Mass and centre of mass of sheet parts as they are folded. */
import { areaOfContour, piecesOf } from '../geometry/contour.js';
import { toSpace } from '../geometry/frame.js';
import { add, addScaled, scale, type Vec2, type Vec3 } from '../geometry/vec.js';
import { memoBy } from '../cache/memo.js';
import { massOf } from '../material/properties.js';
import type { Tub } from '../model/tub.js';
import type { FlatPattern, FoldedPart, Plate, Roll } from '../fold/flat-pattern.js';
import type { Contour } from '../geometry/contour.js';
import { meanLevel } from '../fold/zone/zone-end.js';

export interface Lump {
  /** mm3. */
  readonly volume: number;
  /** Undefined for no volume. */
  readonly centre: Vec3 | undefined;
}

interface Moment {
  readonly volume: number;
  readonly moment: Vec3;
}

/** Volume and centre of a folded part: plates exactly, rolls exactly but for the slant of their ends (mean length). */
export const lumpOf = memoBy((part: FoldedPart): Lump =>
  sumOf([...part.plates.map((plate) => plateMoment(plate, part.thickness)), ...part.rolls.map(rollMoment)]),
);

/**
 * kg of one piece, by its flat: bending moves metal and loses none, while a solid with true radii has a little more or less of it
 * than the flat, by where K puts the neutral line.
 */
export const pieceMassOf = (tub: Tub, { sheet, thickness, outline, holes }: FlatPattern): number => {
  const area = holes.reduce(
    (sum, { contour }) => sum - Math.abs(areaOfContour(contour)),
    Math.abs(areaOfContour(outline)),
  );
  return massOf(tub.sheets[sheet], area * thickness);
};

/** Several lumps as one, each weighed by a factor (density, or 1). */
export const gather = (lumps: readonly { readonly lump: Lump; readonly weight: number }[]): Lump =>
  sumOf(
    lumps.flatMap(({ lump, weight }) =>
      lump.centre ? [{ volume: lump.volume * weight, moment: scale(lump.centre, lump.volume * weight) }] : [],
    ),
  );

const sumOf = (moments: readonly Moment[]): Lump => {
  let volume = 0;
  let [x, y, z] = [0, 0, 0];
  for (const each of moments) {
    volume += each.volume;
    x += each.moment[0];
    y += each.moment[1];
    z += each.moment[2];
  }
  return { volume, centre: volume > 0 ? scale([x, y, z], 1 / volume) : undefined };
};

const plateMoment = ({ frame, contour, holes }: Plate, thickness: number): Moment => {
  const outer = areaMoment(contour);
  const cut = holes
    .map(areaMoment)
    .map(({ area, moment }) => ({ area: Math.abs(area), moment: area < 0 ? negate(moment) : moment }));
  const area = outer.area - cut.reduce((sum, hole) => sum + hole.area, 0);
  const moment = cut.reduce<Vec2>((sum, hole) => [sum[0] - hole.moment[0], sum[1] - hole.moment[1]], outer.moment);
  const middle = area !== 0 ? toSpace(frame, [moment[0] / area, moment[1] / area]) : frame.origin;
  const volume = area * thickness;
  return { volume, moment: scale(addScaled(middle, frame.normal, -thickness / 2), volume) };
};

const negate = ([x, y]: Vec2): Vec2 => [-x, -y];

/** Area and first moment of a contour, arcs included; negative for a clockwise one. */
const areaMoment = (contour: Contour): { readonly area: number; readonly moment: Vec2 } => {
  let area = 0;
  let [mx, my] = [0, 0];
  for (const { from, to, sweep, radius, center } of piecesOf(contour)) {
    const triangle = (from[0] * to[1] - to[0] * from[1]) / 2;
    area += triangle;
    mx += (triangle * (from[0] + to[0])) / 3;
    my += (triangle * (from[1] + to[1])) / 3;
    if (!center) continue;
    // The segment between chord and arc: its centroid lies 4 r sin^3(s/2) / (3 (s - sin s)) from the centre.
    const segment = (radius * radius * (sweep - Math.sin(sweep))) / 2;
    const half = sweep / 2;
    const start = Math.atan2(from[1] - center[1], from[0] - center[0]);
    const far = (4 * radius * Math.sin(half) ** 3) / (3 * (sweep - Math.sin(sweep)));
    area += segment;
    mx += segment * (center[0] + far * Math.cos(start + half));
    my += segment * (center[1] + far * Math.sin(start + half));
  }
  return { area, moment: [mx, my] };
};

const rollMoment = ({ axis, sweep, innerRadius, outerRadius, near, far }: Roll): Moment => {
  const [length, middle] = [meanLevel(far) - meanLevel(near), (meanLevel(far) + meanLevel(near)) / 2];
  const section = (sweep * (outerRadius ** 2 - innerRadius ** 2)) / 2;
  const volume = section * length;
  // Centroid of a ring sector: 4 sin(s/2) (Ro^3 - Ri^3) / (3 s (Ro^2 - Ri^2)) from the axis.
  const half = sweep / 2;
  const out =
    (4 * Math.sin(half) * (outerRadius ** 3 - innerRadius ** 3)) / (3 * sweep * (outerRadius ** 2 - innerRadius ** 2));
  const direction = add(scale(axis.u, Math.cos(half)), scale(axis.v, Math.sin(half)));
  const centre = addScaled(addScaled(axis.origin, axis.normal, middle), direction, out);
  return { volume, moment: scale(centre, volume) };
};
