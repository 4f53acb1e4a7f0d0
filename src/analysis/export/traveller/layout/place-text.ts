import type { Place } from '../../../report/numbers.js';
import type { Units } from './units.js';

/** Right, back, up in the tub. */
export const placeText = (units: Units, place: Place): string => place.map((mm) => units.length(mm)).join(', ');
