import type { Palette } from '../palette.js';
import type { Tint } from './pieces.js';

export const tintColor = (tint: Tint, palette: Palette): string => {
  switch (tint) {
    case 'wet':
      return palette.wetMetal;
    case 'dry':
      return palette.dryMetal;
    case 'bent':
    case 'edge':
      return palette.bentMetal;
    case 'water':
      return palette.water;
    default:
      return palette.slopes[Number(tint.slice(5))];
  }
};
