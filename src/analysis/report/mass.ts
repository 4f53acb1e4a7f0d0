/** What the tub weighs, empty and full, as it leaves. */
import type { MassPoint } from '../seal/tub-mass.js';
import type { Stages } from '../stages/stages.js';
import { reportMass, reportPlace, type Place } from './numbers.js';

export interface MassRow {
  /** The tub alone, without what comes out of it again and what it stands on. */
  readonly empty_kg: number;
  readonly centre_mm: Place | null;
  readonly removable_kg: number;
  readonly support_kg: number;
  /** All that the stand carries: the tub, what comes out of it again, and the liquid of the fill test. */
  readonly full_kg: number | null;
  readonly full_centre_mm: Place | null;
  readonly parts: readonly {
    readonly name: string;
    readonly mass_kg: number | null;
    readonly centre_mm: Place | null;
  }[];
  readonly loose_kg: number;
  /** Rivets and screws of the seams. */
  readonly fasteners_kg: number;
}

const centreOf = (point: MassPoint | undefined): Place | null => (point?.centre ? reportPlace(point.centre) : null);

export const reportTubMass = (stages: Stages): MassRow => {
  const { empty, removable, support, parts, loose, fasteners } = stages.mass();
  const full = stages.fillTest()?.full;
  return {
    empty_kg: reportMass(empty.mass),
    centre_mm: centreOf(empty),
    removable_kg: reportMass(removable.mass),
    support_kg: reportMass(support.mass),
    full_kg: full ? reportMass(full.mass) : null,
    full_centre_mm: centreOf(full),
    parts: stages.parts().map(({ name }, i) => ({
      name,
      mass_kg: parts[i] ? reportMass(parts[i].mass) : null,
      centre_mm: centreOf(parts[i]),
    })),
    loose_kg: reportMass(loose.mass),
    fasteners_kg: reportMass(fasteners.mass),
  };
};
