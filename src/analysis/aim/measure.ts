/** What is wished of a tub, measured on the real stages. */
import { areaOfContour } from '../geometry/contour.js';
import type { Aspect, GroupIndex, Wish } from '../model/tub.js';
import { inDeg, inMm, plain } from '../model/wording.js';
import { clearanceOfBodies } from '../solid/room/clearance.js';
import type { Body } from '../solid/bodies/prisms.js';
import { flatsToCut } from '../stages/flats-to-cut.js';
import type { Stages } from '../stages/stages.js';

export type Bound = Extract<Wish, { kind: 'bound' }>;

/**
 * In mm, rad, kg, mm2, mm3 or a count, as the limit of a wish is. Capacity: what all of its basins hold, outlets plugged, until
 * they run over. Slope: the least that the panel has while the tub stands within `level`. Sheet: the area of all that is cut.
 * Bow: the most of any flat under the liquid, the tub full; 0 below 0.05 mm. Clear: from metal to metal, less than 0 where they take the same room.
 * Undefined where the tub has none: a basin that nothing closes, a panel that does not look up, a part that cannot be laid flat.
 */
export const measureAspect = (stages: Stages, aspect: Aspect): number | undefined => {
  const { water, shape, mass } = stages;
  switch (aspect.kind) {
    case 'capacity': {
      const volume = water().capacity() ?? 0;
      return Number.isFinite(volume) ? volume : undefined;
    }
    case 'slope':
      return water()
        .panels()
        .find(({ face }) => face === aspect.panel)?.worst;
    case 'mass':
      return isAllFlat(stages) ? mass().made.mass : undefined;
    case 'sheet':
      return isAllFlat(stages) ? areaCut(stages) : undefined;
    case 'bow':
      return Math.max(0, ...stages.bows().map(({ most, least }) => most ?? least));
    case 'bends':
      return shape().bends.length;
    case 'clear':
      return clearanceOfBodies(metalOf(stages, aspect.bodies[0]), metalOf(stages, aspect.bodies[1]));
    case 'value':
      return aspect.value;
  }
};

const metalOf = (stages: Stages, body: GroupIndex | -1): readonly Body[] =>
  (stages.pieces().get(body) ?? []).map((piece) => piece.body);

const isAllFlat = (stages: Stages): boolean => stages.flats().every((flat) => flat !== undefined);

const areaCut = (stages: Stages): number =>
  flatsToCut(stages).reduce((sum, { outline, holes, quantity }) => {
    const cut = holes.reduce((area, { contour }) => area + Math.abs(areaOfContour(contour)), 0);
    return sum + quantity * (Math.abs(areaOfContour(outline)) - cut);
  }, 0);

/** By how much a measured number misses the limit, in its own unit: 0 or less where it is met. */
export const missOf = ({ way, limit }: Pick<Bound, 'way' | 'limit'>, has: number): number =>
  way === 'least' ? limit - has : has - limit;

/** The unit in which the shop says an aspect: its name for people, the ending of a key that carries it, and how many of ours one of it is. */
export interface AspectUnit {
  readonly unit: string;
  readonly key: string;
  readonly size: number;
}

const UNITS = {
  capacity: { unit: 'L', key: '_L', size: 1e6 },
  mass: { unit: 'kg', key: '_kg', size: 1 },
  sheet: { unit: 'm2', key: '_m2', size: 1e6 },
  bends: { unit: '', key: '_count', size: 1 },
  bow: { unit: 'mm', key: '_mm', size: 1 },
  slope: { unit: 'deg', key: '_deg', size: Math.PI / 180 },
  clear: { unit: 'mm', key: '_mm', size: 1 },
} as const satisfies Readonly<Record<Exclude<Aspect['kind'], 'value'>, AspectUnit>>;

const VALUE_UNITS: Readonly<Record<string, AspectUnit>> = {
  length: UNITS.clear,
  angle: UNITS.slope,
  volume: UNITS.capacity,
  flow: { unit: 'L/min', key: '_L_min', size: 1e6 / 60 },
  force: { unit: 'kN', key: '_kN', size: 1000 },
  mass: UNITS.mass,
  viscosity: { unit: 'cSt', key: '_cSt', size: 1 },
  density: { unit: 'kg/m3', key: '_kg_m3', size: 1 },
};

const BARE: AspectUnit = { unit: '', key: '', size: 1 };

export const unitOfAspect = (aspect: Aspect): AspectUnit =>
  aspect.kind === 'value' ? (VALUE_UNITS[aspect.dimension] ?? BARE) : UNITS[aspect.kind];

/** `12.35 L`, `2 deg`: as messages say it. */
export const toldAspect = (aspect: Aspect, value: number): string => {
  const { unit, size } = unitOfAspect(aspect);
  if (unit === 'mm') return inMm(value);
  if (unit === 'deg') return inDeg(value);
  return `${plain(value / size, 3)}${unit === '' ? '' : ` ${unit}`}`;
};
