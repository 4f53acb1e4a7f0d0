/** Edges that stand on the face of another panel, away from its edges: dividers, baffles, brackets. */
import { heightOver, toPlane } from '../geometry/frame.js';
import { distanceToSegment, isInside } from '../geometry/polygon.js';
import { cross, dot, lerp, scale, subtract, type Vec2, type Vec3 } from '../geometry/vec.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { OFF_PLANE } from '../model/tolerance.js';
import type { Face, FaceIndex, Foot, Shape, Stretch } from './shape.js';

/** Shares of a stretch at which it is looked whether the face is below it. */
const PROBES = [0, 0.25, 0.5, 0.75, 1];

/**
 * The skin of `under` on which a stretch of `standing` stands with all of its length; undefined where it does not. `thickness` is
 * that of `under`. An edge within OFF_PLANE of the skin stands on it, with the standing panel on that side.
 */
export const footOn = (standing: Face, stretch: Stretch, under: Face, thickness: number): Foot | undefined => {
  const along = subtract(stretch.end, stretch.start);
  const rise = dot(cross(standing.frame.normal, along), under.frame.normal);
  const skin = rise > 0 ? 'wet' : 'dry';
  const level = skin === 'wet' ? 0 : -thickness;
  const isOn = PROBES.every((share) => {
    const point = lerp(stretch.start, stretch.end, share);
    return Math.abs(heightOver(under.frame, point) - level) <= OFF_PLANE && covers(under, toPlane(under.frame, point));
  });
  return isOn ? { face: under.panel, skin } : undefined;
};

const covers = ({ outline }: Face, point: Vec2): boolean =>
  isInside(point, outline) ||
  outline.some((corner, i) => distanceToSegment(point, corner, outline[(i + 1) % outline.length]) <= SAME_POINT);

/** All faces that a stretch meets: those whose edges lie along it, then those on which it stands. */
export const facesAlong = ({ mates, feet }: Stretch): readonly FaceIndex[] => [
  ...mates.map(({ face }) => face),
  ...(feet ?? []).map(({ face }) => face),
];

/** Out of the skin on which the foot stands. */
export const skinNormal = ({ faces }: Pick<Shape, 'faces'>, { face, skin }: Foot): Vec3 =>
  skin === 'wet' ? faces[face].frame.normal : scale(faces[face].frame.normal, -1);
