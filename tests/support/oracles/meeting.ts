import type { FoldedPart, Plate, Roll, ZoneEnd } from '../../../src/analysis/fold/flat-pattern.js';
import type { Contour } from '../../../src/analysis/geometry/contour.js';
import { piecesOf, type ContourSegment } from '../../../src/analysis/geometry/contour.js';
import { heightOver, toPlane, toSpace } from '../../../src/analysis/geometry/frame.js';
import { distanceToSegment } from '../../../src/analysis/geometry/polygon.js';
import { add, addScaled, distance2, scale, type Vec2, type Vec3 } from '../../../src/analysis/geometry/vec.js';

/** Which skin of the sheet. */
export type Skin = 'wet' | 'dry';

/** Points on one end of a roll (0: near, 1: far), on the chosen skin, from the parent's tangent line to the child's. */
export const rollEnd = (roll: Roll, end: 0 | 1, skin: Skin, count = 24): Vec3[] => {
  const radius = (roll.wet === 'inside') === (skin === 'wet') ? roll.innerRadius : roll.outerRadius;
  const line = end === 0 ? roll.near : roll.far;
  return Array.from({ length: count + 1 }, (_, i) => {
    const turn = (roll.sweep * i) / count;
    const arm = add(scale(roll.axis.u, radius * Math.cos(turn)), scale(roll.axis.v, radius * Math.sin(turn)));
    return addScaled(add(roll.axis.origin, arm), roll.axis.normal, levelOn(line, i / count));
  });
};

/** Level of a zone's end at a share of the turn: where an upright line through the developed zone meets it. */
export const levelOn = (line: ZoneEnd, share: number): number => {
  const x = share * line[line.length - 1].x;
  const i = Math.max(
    1,
    line.findIndex((vertex, k) => k > 0 && vertex.x >= x - 1e-9),
  );
  const [a, b] = [line[i - 1], line[i]];
  if (a.bulge === 0) return a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
  // A point of the arc sees the chord under one angle everywhere: bisect for it.
  const turn = 2 * Math.atan(a.bulge);
  const excess = (y: number): number =>
    Math.atan2((x - a.x) * (b.y - y) - (y - a.y) * (b.x - x), (x - a.x) * (b.x - x) + (y - a.y) * (b.y - y)) - turn;
  const chord = a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
  let [low, high] = [chord - (b.x - a.x), chord + (b.x - a.x)];
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    // Lower points turn further to the left.
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

/** Corners of the plates on the chosen skin. */
export const plateCorners = (folded: FoldedPart, skin: Skin): Vec3[] =>
  folded.plates.flatMap((plate) => plate.contour.map(({ x, y }) => onSkin(folded, plate, [x, y], skin)));

export const onSkin = (folded: FoldedPart, plate: Plate, point: Vec2, skin: Skin): Vec3 =>
  addScaled(toSpace(plate.frame, point), plate.frame.normal, skin === 'wet' ? -folded.thickness : 0);

/** Distance of a point in space from a plate's border on one of its faces, mm. */
export const distanceToBorder = (folded: FoldedPart, plate: Plate, point: Vec3, skin: Skin = 'wet'): number => {
  const height = heightOver(plate.frame, point) + (skin === 'wet' ? folded.thickness : 0);
  return Math.hypot(height, distanceToContour(plate.contour, toPlane(plate.frame, point)));
};

export const distanceToContour = (contour: Contour, point: Vec2): number =>
  Math.min(...piecesOf(contour).map((piece) => distanceToPiece(piece, point)));

const distanceToPiece = ({ from, to, sweep, radius, center }: ContourSegment, point: Vec2): number => {
  if (!center) return distanceToSegment(point, from, to);
  const start = Math.atan2(from[1] - center[1], from[0] - center[0]);
  const turn = (Math.atan2(point[1] - center[1], point[0] - center[0]) - start) * Math.sign(sweep);
  const within = ((turn % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI) <= Math.abs(sweep);
  return within ? Math.abs(distance2(point, center) - radius) : Math.min(distance2(point, from), distance2(point, to));
};
