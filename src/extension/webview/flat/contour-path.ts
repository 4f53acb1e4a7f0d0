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
