import { contentAt } from './capacity.js';
import type { Chamber } from './chambers.js';
import type { Tub } from '../model/tub.js';
import { mouthOf } from './outlet/outlets.js';
import { partsOfOpening } from './surface/parts-of-opening.js';
import type { Surface } from './surface/surface.js';
import type { Water } from './water.js';

/** Steps between a full chamber and a film over its lip, closer where it runs slowly: within 0.1 % of the law. */
const STEPS = 96;

/**
 * Time in which a full chamber drains, nothing coming in, until no more than a film stands over the lip of its lowest outlet, s;
 * undefined without an outlet below its level. What it runs over into, and the pipe below, take all that comes.
 *
 * An outlet that a divider stands over takes by the part of its hole that lies in the chamber. Each step is the volume between two levels, which is exact, over what all its outlets take at the head midway. Cost:
 * O(steps x n of the chamber).
 */
export const drainDownOf = (
  tub: Tub,
  water: Water,
  { level, lowest, outlets, points }: Chamber,
): number | undefined => {
  const surface = water.surface();
  const mouths = outlets.flatMap((outlet) => {
    const mouth = mouthOf({ tub, surface, liquid: water.liquid }, outlet);
    return mouth ? [{ ...mouth, share: shareIn(surface, tub.outlets[outlet].opening, points) }] : [];
  });
  const lip = Math.min(...mouths.map((mouth) => mouth.lip));
  const ratio = water.film / (level - lip);
  if (!(ratio > 0 && ratio < 1)) return undefined;
  const from = surface.points.indexOf(lowest);
  const headAt = (step: number): number => (level - lip) * ratio ** (step / STEPS);
  const volumeAt = (step: number): number => contentAt(surface, from, lip + headAt(step)).volume;
  let [time, above] = [0, volumeAt(0)];
  for (let step = 1; step <= STEPS; step++) {
    const below = volumeAt(step);
    const surfaceLevel = lip + headAt(step - 0.5);
    const taken = mouths.reduce(
      (sum, mouth) => sum + mouth.share * mouth.takes(Math.max(0, surfaceLevel - mouth.lip)),
      0,
    );
    time += (above - below) / taken;
    above = below;
  }
  return time;
};

/** Part of an outlet's hole that lies in a chamber. */
const shareIn = (surface: Surface, opening: number | undefined, points: Chamber['points']): number => {
  const parts = opening === undefined ? [] : partsOfOpening(surface, opening);
  return parts.length === 0 ? 1 : parts.reduce((sum, { lowest, share }) => sum + (points.has(lowest) ? share : 0), 0);
};
