import type { FlatPanelItem } from '../../../language/protocol.js';

type Contour = FlatPanelItem['region'];

const at = (value: number): string => String(Math.round(value * 1000) / 1000);

/** SVG path of a closed contour; the sheet's y axis points up, SVG's down. */
export const contourPath = (contour: Contour): string => {
  if (contour.length === 0) return '';
  const [x0, y0] = contour[0];
  let path = `M${at(x0)} ${at(-y0)}`;
  contour.forEach(([x, y, bulge], i) => {
    const [nx, ny] = contour[(i + 1) % contour.length];
    if (bulge === 0) {
      path += `L${at(nx)} ${at(-ny)}`;
      return;
    }
    const chord = Math.hypot(nx - x, ny - y);
    const radius = (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
    path += `A${at(radius)} ${at(radius)} 0 ${Math.abs(bulge) > 1 ? 1 : 0} ${bulge > 0 ? 0 : 1} ${at(nx)} ${at(-ny)}`;
  });
  return `${path}Z`;
};

/** The contour as points, arcs by chords that stray at most `sag` mm. */
export const contourPoints = (contour: Contour, sag: number): [number, number][] => {
  const points: [number, number][] = [];
  contour.forEach(([x, y, bulge], i) => {
    points.push([x, y]);
    if (bulge === 0) return;
    const [nx, ny] = contour[(i + 1) % contour.length];
    points.push(...arcBetween([x, y], [nx, ny], bulge, sag));
  });
  return points;
};

const arcBetween = (from: readonly [number, number], to: readonly [number, number], bulge: number, sag: number): [number, number][] => {
  const offset = (1 - bulge * bulge) / (4 * bulge);
  const cx = (from[0] + to[0]) / 2 - (to[1] - from[1]) * offset;
  const cy = (from[1] + to[1]) / 2 + (to[0] - from[0]) * offset;
  const radius = Math.hypot(from[0] - cx, from[1] - cy);
  const sweep = 4 * Math.atan(bulge);
  const start = Math.atan2(from[1] - cy, from[0] - cx);
  const step = 2 * Math.acos(Math.max(0, 1 - sag / Math.max(radius, sag)));
  const count = Math.min(64, Math.max(2, Math.ceil(Math.abs(sweep) / step)));
  return Array.from({ length: count - 1 }, (_, i): [number, number] => {
    const angle = start + (sweep * (i + 1)) / count;
    return [cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)];
  });
};
