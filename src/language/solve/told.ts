import { unitOfAspect } from '../../analysis/aim/measure.js';
import type { Aspect } from '../../analysis/model/tub.js';
import type { Told } from './outcome.js';

/** A measured number as the shop says it. */
export const toldOf = (of: Aspect, value: number): Told => {
  const { unit, size } = unitOfAspect(of);
  return { value: tidy(value / size), unit };
};

/** What computing leaves behind the ninth figure says nothing. */
const tidy = (value: number): number => Number(value.toPrecision(9));
