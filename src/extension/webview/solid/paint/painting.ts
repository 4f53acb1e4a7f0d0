import { Vector3, type Camera } from 'three';
import { mix, type Palette } from '../../palette.js';
import { WATER_SEEN } from '../meshes.js';
import { tintFrom, type Polygon3, type V3 } from '../piece.js';
import { tintColor } from '../tints.js';
import { normalOf } from './painter.js';
import type { Pen, Point } from './pens.js';

/** Through which camera and from where, far away where it is parallel, onto a picture of which size, px. */
export interface Seen {
  readonly camera: Camera;
  readonly eye: V3;
  readonly size: readonly [width: number, height: number];
}

export interface Look {
  readonly palette: Palette;
  readonly chosen: ReadonlySet<string>;
  /** Are polygons shaded by how they face the eye? */
  readonly shaded: boolean;
}

/** Polygons in painting order. */
export const paintPolygons = (pen: Pen, polygons: readonly Polygon3[], seen: Seen, look: Look): void => {
  const onScreen = screenOf(seen);
  // One way for all: pieces that a panel is cut into for painting have one shade.
  const ahead = seen.camera.getWorldDirection(new Vector3());
  for (const polygon of polygons) {
    const isChosen = look.chosen.has(polygon.key);
    if (polygon.tint === undefined && !isChosen) continue;
    const { palette } = look;
    const tint = tintFrom(seen.eye, polygon);
    const own = tint === undefined ? palette.paper : tintColor(tint, palette);
    const base = isChosen ? mix(own, palette.chosen, 0.5) : own;
    const isClear = tint === undefined || tint.startsWith('water');
    const rings = [polygon.points, ...polygon.holes].map((ring) => ring.map(onScreen));
    const color = look.shaded ? mix(base, '#000000', 0.28 * (1 - facing(polygon, ahead))) : base;
    pen.fill(rings, color, isClear ? WATER_SEEN : 1);
    if (polygon.outlined) pen.lines(sidesOf(polygon, rings), palette.ink, 0.8);
  }
};

/** Lines over everything, each list pairs of points. */
export const paintLines = (pen: Pen, lists: readonly ArrayLike<number>[], seen: Seen, { ink }: Palette): void => {
  const onScreen = screenOf(seen);
  for (const list of lists) {
    const pairs: (readonly [Point, Point])[] = [];
    for (let i = 0; i + 5 < list.length; i += 6)
      pairs.push([onScreen([list[i], list[i + 1], list[i + 2]]), onScreen([list[i + 3], list[i + 4], list[i + 5]])]);
    if (pairs.length > 0) pen.lines(pairs, ink, 1);
  }
};

/** 1: square to where one looks, 0: edge on. */
const facing = ({ points }: Polygon3, ahead: Vector3): number => {
  const normal = normalOf(points);
  return Math.abs(normal[0] * ahead.x + normal[1] * ahead.y + normal[2] * ahead.z);
};

const sidesOf = ({ sides }: Polygon3, rings: readonly (readonly Point[])[]): (readonly [Point, Point])[] =>
  rings.flatMap((ring, k) =>
    ring.flatMap((a, i) => ((sides?.[k][i] ?? true) ? [[a, ring[(i + 1) % ring.length]] as const] : [])),
  );

const screenOf = ({ camera, size: [width, height] }: Seen): ((point: V3) => Point) => {
  const at = new Vector3();
  return ([x, y, z]) => {
    at.set(x, y, z).project(camera);
    return [((at.x + 1) / 2) * width, ((1 - at.y) / 2) * height];
  };
};
