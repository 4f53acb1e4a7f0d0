/** What the tub weighs, empty and full, as it leaves. */
import type { MassPoint } from '../seal/tub-mass.js';
import type { Stages } from '../stages/stages.js';
import { reportMass, reportPlace, type Place } from './numbers.js';

export interface MassRow {
  readonly empty_kg: number;
  readonly centre_mm: Place | null;
  readonly full_kg: number | null;
  readonly full_centre_mm: Place | null;
  readonly parts: readonly {
    readonly name: string;
    readonly mass_kg: number | null;
    readonly centre_mm: Place | null;
  }[];
  readonly loose_kg: number;
}

const centreOf = (point: MassPoint | undefined): Place | null => (point?.centre ? reportPlace(point.centre) : null);

export const reportTubMass = (stages: Stages): MassRow => {
  const { empty, parts, loose } = stages.mass();
  const full = stages.fillTest()?.full;
  return {
    empty_kg: reportMass(empty.mass),
    centre_mm: centreOf(empty),
    full_kg: full ? reportMass(full.mass) : null,
    full_centre_mm: centreOf(full),
    parts: stages.parts().map(({ name }, i) => ({
      name,
      mass_kg: parts[i] ? reportMass(parts[i].mass) : null,
      centre_mm: centreOf(parts[i]),
    })),
    loose_kg: reportMass(loose.mass),
  };
};
