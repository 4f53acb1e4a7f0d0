import { Vector3, type Camera } from 'three';
import { svg } from '../dom.js';
import { mix, type Palette } from '../palette.js';
import { WATER_SEEN } from './meshes.js';
import { normalOf } from './painter.js';
import type { Polygon3, V3 } from './piece.js';
import { tintColor } from './tints.js';

/** Polygons in painting order as SVG paths in screen pixels, shaded by how they face the eye. */
export const drawPolygons = (
  polygons: readonly Polygon3[],
  camera: Camera,
  width: number,
  height: number,
  palette: Palette,
  chosen: ReadonlySet<string>,
  shaded: boolean,
): SVGElement[] => {
  const onScreen = screenOf(camera, width, height);
  const ring = (points: readonly V3[]): string => `M${points.map(onScreen).join('L')}Z`;
  // One way for all: pieces that a panel is cut into for painting have one shade.
  const ahead = camera.getWorldDirection(new Vector3());
  return polygons.flatMap((polygon) => {
    const normal = normalOf(polygon.points);
    const facing = Math.abs(normal[0] * ahead.x + normal[1] * ahead.y + normal[2] * ahead.z);
    const own = polygon.tint === undefined ? palette.paper : tintColor(polygon.tint, palette);
    const base = chosen.has(polygon.key) ? mix(own, palette.chosen, 0.5) : own;
    const isWater = polygon.tint?.startsWith('water');
    const isSeen = polygon.tint !== undefined || chosen.has(polygon.key);
    const fill = shaded ? mix(base, '#000000', 0.28 * (1 - facing)) : base;
    const path = svg('path', {
      d: [polygon.points, ...polygon.holes].map(ring).join(''),
      'fill-rule': 'evenodd',
      fill,
      'fill-opacity': !isSeen ? 0 : isWater || polygon.tint === undefined ? WATER_SEEN : 1,
      // A hair of its own colour closes the gaps between neighbours.
      stroke: isWater || polygon.tint === undefined ? 'none' : fill,
      'stroke-width': 0.6,
      'stroke-linejoin': 'round',
    });
    path.dataset.key = polygon.key;
    const outline = polygon.outlined ? sidesOf(polygon, onScreen) : '';
    return outline === ''
      ? [path]
      : [
          path,
          svg('path', { d: outline, fill: 'none', stroke: palette.ink, 'stroke-width': 0.8, 'pointer-events': 'none' }),
        ];
  });
};

const sidesOf = ({ points, holes, sides }: Polygon3, onScreen: (point: V3) => string): string =>
  [points, ...holes]
    .flatMap((ring, k) =>
      ring.flatMap((a, i) =>
        (sides?.[k][i] ?? true) ? [`M${onScreen(a)}L${onScreen(ring[(i + 1) % ring.length])}`] : [],
      ),
    )
    .join('');

/** Lines over everything, as one path a list of pairs of points. */
export const drawLines = (
  lists: readonly ArrayLike<number>[],
  camera: Camera,
  width: number,
  height: number,
  palette: Palette,
): SVGElement[] => {
  const onScreen = screenOf(camera, width, height);
  return lists
    .filter((list) => list.length > 0)
    .map((list) => {
      let d = '';
      for (let i = 0; i < list.length; i += 6)
        d += `M${onScreen([list[i], list[i + 1], list[i + 2]])}L${onScreen([list[i + 3], list[i + 4], list[i + 5]])}`;
      return svg('path', { d, fill: 'none', stroke: palette.ink, 'stroke-width': 1 });
    });
};

const screenOf = (camera: Camera, width: number, height: number): ((point: V3) => string) => {
  const at = new Vector3();
  return ([x, y, z]) => {
    at.set(x, y, z).project(camera);
    return `${(((at.x + 1) / 2) * width).toFixed(1)} ${(((1 - at.y) / 2) * height).toFixed(1)}`;
  };
};
