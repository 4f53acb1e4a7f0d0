/** How coils rise along their axis. */
import type { ZoneEnd } from '../../fold/flat-pattern.js';
import { segmentOf } from '../../geometry/contour.js';
import { ROUND_OFF } from '../../geometry/tolerance.js';
import type { Climb } from './boundary.js';

/** A circular arc. */
export const LEVEL: Climb = { rise: 0, bulge: 0, width: 1 };

/** Of an end of a bend zone that is a single line or arc. */
export const climbOf = ([first, last]: ZoneEnd): Climb => {
  const rise = last.y - first.y;
  return { rise: Math.abs(rise) <= ROUND_OFF ? 0 : rise, bulge: first.bulge, width: last.x };
};

export const isLevel = ({ rise, bulge }: Climb): boolean => rise === 0 && bulge === 0;

/** What has been climbed at a share of the turn, mm, and its first three derivatives by the share. */
export const climbAt = ({ rise, bulge, width }: Climb, share: number): readonly [number, number, number, number] => {
  const { center, radius } = segmentOf([0, 0], [width, rise], bulge);
  if (!center) return [rise * share, rise, 0, 0];
  const sign = Math.sign(bulge);
  const offset = share * width - center[0];
  const height = Math.sqrt(Math.max(0, radius * radius - offset * offset));
  return [
    center[1] - sign * height,
    (sign * width * offset) / height,
    (sign * width ** 2 * radius ** 2) / height ** 3,
    (3 * sign * width ** 3 * radius ** 2 * offset) / height ** 5,
  ];
};
