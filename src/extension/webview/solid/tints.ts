import type { Palette } from '../palette.js';
import type { Tint } from './piece.js';

export const tintColor = (tint: Tint, palette: Palette): string => {
  switch (tint) {
    case 'wet':
      return palette.wetMetal;
    case 'dry':
      return palette.dryMetal;
    case 'bent':
    case 'edge':
      return palette.bentMetal;
    case 'seam':
      return palette.seam;
    case 'open':
      return palette.warn;
    default:
      return tint.startsWith('water') ? palette.depths[Number(tint.slice(5))] : palette.slopes[Number(tint.slice(5))];
  }
};
