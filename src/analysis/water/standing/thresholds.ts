import type { Tub } from '../../model/tub.js';
import type { FaceIndex } from '../../shape/shape.js';

/** The least fall asked for, and who asks. */
export interface LeastFall {
  /** rad, of the surface as it may stand. */
  readonly angle: number;
  readonly source: string;
}

/**
 * 1/4 in per ft on panels: least fall of drainage up to 2 1/2 in, International Plumbing Code 704.1, as found in a city
 * code's table 18-29-704.1; food plant floors 1/8 to 1/4 in per ft.
 */
export const PANEL_FALL: LeastFall = {
  angle: Math.atan(1 / 48),
  source: '1/4 in per ft, International Plumbing Code 704.1',
};

/**
 * 1/8 in per ft in creases: least fall of condensate drains and pans, International Plumbing Code 314.2.1. Where two
 * panels that each fall 1/4 in per ft meet square in plan, their valley falls 0.177 in per ft, so it passes.
 */
export const CREASE_FALL: LeastFall = {
  angle: Math.atan(1 / 96),
  source: '1/8 in per ft, International Plumbing Code 314.2.1',
};

/** Least fall of a panel: the most that a path over it asks, else the default. */
export const leastFallOf = (tub: Tub, face: FaceIndex): LeastFall => mostAsked(tub, [face]) ?? PANEL_FALL;

/** Least fall of the crease between two panels: what a path over both asks, else the default. */
export const leastCreaseFall = (tub: Tub, faces: readonly FaceIndex[]): LeastFall =>
  mostAsked(tub, faces) ?? CREASE_FALL;

const mostAsked = (tub: Tub, faces: readonly FaceIndex[]): LeastFall | undefined => {
  const asked = tub.paths
    .filter(({ stops }) => faces.every((face) => stops.some((stop) => stop.kind === 'panel' && stop.panel === face)))
    .flatMap(({ atLeast }) => (atLeast === undefined ? [] : [atLeast]));
  return asked.length === 0 ? undefined : { angle: Math.max(...asked), source: 'asked by the path' };
};
