import type { FlatBend, FlatPattern } from '../fold/flat-pattern.js';
import type { Bend } from '../shape/shape.js';
import type { Stages } from '../stages.js';
import { drawnDegrees, drawnLength, drawnNumber, note } from './drawn.js';
import { partKey } from './flat-scene.js';
import type { SceneEntry } from './scene.js';

/** Every bend with its numbers, and the steps of the bending order as far as one is known. */
export const bendScene = (stages: Stages): SceneEntry[] => {
  const { bends } = stages.shape();
  if (bends.length === 0) return [note('no-bends', 'No bend yet: no two panels are joined by one', stages.tub.at)];
  const flatBends = flatBendsByBend(stages);
  return bends.map((bend): SceneEntry => bendEntry(bend, flatBends.get(bend.index)));
};

interface OnFlat {
  readonly flat: FlatPattern;
  readonly bend: FlatBend;
}

const flatBendsByBend = (stages: Stages): ReadonlyMap<number, OnFlat> => {
  const found = new Map<number, OnFlat>();
  for (const flat of stages.flats()) {
    for (const bend of flat?.bends ?? []) if (flat && bend.bend !== undefined) found.set(bend.bend, { flat, bend });
  }
  return found;
};

const bendEntry = (bend: Bend, onFlat: OnFlat | undefined): SceneEntry => ({
  key: `bend:${bend.name}`,
  at: bend.at,
  item: {
    kind: 'bend-row',
    order: bend.index,
    part: onFlat ? partKey(onFlat.flat) : '',
    name: bend.name,
    direction: onFlat?.bend.direction,
    angle_deg: drawnDegrees(bend.angle),
    radius_mm: drawnLength(bend.radius),
    k: drawnNumber(bend.kFactor),
    allowance_mm: drawnLength(bend.allowance),
    deduction_mm: drawnLength(bend.deduction),
    length_mm: drawnLength(bend.length),
  },
});
