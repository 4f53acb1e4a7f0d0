/**
 * Nicks that carry a bend line across the edge. A sheet is bent up from the bed, so that a bend that turns down on the marked
 * side is made with the other side up and its line underneath: where no seam runs at its end, the line is cut in there.
 */
import { addScaled2, distance, distance2, dot2, left2, subtract2, type Vec2, type Vec3 } from '../geometry/vec.js';
import { extentOfContour } from '../geometry/contour.js';
import type { FlatBend, FlatPattern } from '../fold/flat-pattern.js';
import { dryUpOf } from '../fold/marked-side.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import type { Shop } from '../model/tub.js';
import type { Face, Shape } from '../shape/shape.js';
import type { Stages } from './stages.js';

export interface Nick {
  /** Index into the bends of the flat. */
  readonly bend: number;
  /** On the edge, and inward along the bend line. */
  readonly from: Vec2;
  readonly to: Vec2;
}

/** Is the line of the bend on the side that lies on the bed when it is made? */
export const isUnderneath = ({ direction }: Pick<FlatBend, 'direction'>): boolean => direction === 'down';

/** Length of a nick in kerfs, and the least, mm: it is seen, and small beside any flange. Common practice, no source. */
const KERFS = 2;
const LEAST = 1;

export const nickLength = (shop: Shop | undefined): number =>
  Math.max(LEAST, KERFS * Math.max(0, ...(shop?.cutters ?? []).map(({ kerf }) => kerf)));

/** Gives each flat of the tub its nicks. */
export const nickerOf = (stages: Stages): ((flat: FlatPattern) => readonly Nick[]) => {
  const length = nickLength(stages.tub.shop);
  return (flat) => nicksOf(stages.shape(), flat, length);
};

/** Of one flat. O(n) in bends and the edges of their panels. */
export const nicksOf = (shape: Shape, flat: FlatPattern, length: number): Nick[] =>
  flat.bends.flatMap((bend, index): Nick[] => {
    if (bend.bend === undefined || !isUnderneath(bend)) return [];
    const { faces, start, end } = shape.bends[bend.bend];
    const dryUp = dryUpOf(flat);
    const ends = isAlong(dryUp, dryUp.bends[index], faces[0]) ? [start, end] : [end, start];
    const whole = distance2(bend.start, bend.end);
    if (whole < 4 * length) return [];
    const isFree = (point: Vec3): boolean => faces.every((face) => isFreeAt(shape.faces[face], point, bend.bend ?? 0));
    const nick = (from: Vec2, other: Vec2): Nick => ({
      bend: index,
      from,
      to: addScaled2(from, subtract2(other, from), length / whole),
    });
    return [
      ...(isFree(ends[0]) ? [nick(bend.start, bend.end)] : []),
      ...(isFree(ends[1]) ? [nick(bend.end, bend.start)] : []),
    ];
  });

/** Does the line of the flat run as the bend of the shape does? Seen on the dry side its first panel then lies to the right. */
const isAlong = (flat: FlatPattern, { start, end }: FlatBend, first: number): boolean => {
  const panel = flat.panels.find(({ face }) => face === first);
  if (!panel) return true;
  const { min, max } = extentOfContour(panel.region);
  const middle: Vec2 = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];
  return dot2(subtract2(middle, start), left2(subtract2(end, start))) < 0;
};

/** Does the panel's edge beside the bend's end run free: no seam, no other bend? */
const isFreeAt = (face: Face, point: Vec3, bend: number): boolean =>
  face.stretches.every((stretches) =>
    stretches.every(
      (stretch) =>
        stretch.bend === bend ||
        (stretch.bend === undefined && stretch.seams.length === 0 && (stretch.feet ?? []).length === 0) ||
        (distance(stretch.start, point) > SAME_POINT && distance(stretch.end, point) > SAME_POINT),
    ),
  );
