/** How to fill the finished tub and look for drops, as it leaves. */
import type { Stages } from '../stages/stages.js';
import type { Column } from './table.js';
import { chamberName } from './water/chambers.js';
import type { MassRow } from './mass.js';
import { reportNewtons, reportLength, reportLitres, reportMass } from './numbers.js';
import { fixed } from '../model/wording.js';

export interface FillTestRow {
  readonly plug: readonly string[];
  readonly holds_L: number;
  readonly holds_to_mm: number;
  readonly fill_to_mm: number;
  readonly fill_L: number;
  readonly liquid_kg: number;
  readonly on_stand_kg: number;
  readonly watch_min: number;
  readonly watch: readonly { readonly seam: string; readonly lowest_mm: number; readonly head_mm: number }[];
  /** Where several stand at levels of their own, the main one first: how full each is. */
  readonly waters: readonly FilledRow[];
  /** Where there are several: one after the other, those after it empty. */
  readonly chambers: readonly ChamberFillRow[];
}

/** One water of the full tub. */
export interface FilledRow {
  readonly chambers: readonly string[];
  readonly holds_L: number;
  readonly holds_to_mm: number;
  readonly fill_to_mm: number;
  readonly fill_L: number;
}

export interface ChamberFillRow {
  readonly chamber: string;
  readonly fill_to_mm: number;
  readonly fill_L: number;
  /** Into these nothing may come. */
  readonly stays_empty: readonly string[];
  readonly loads: readonly { readonly divider: string; readonly force_N: number }[];
}

/** Chambers filled one after the other, as every list tells them. */
export const CHAMBER_FILL_COLUMNS: readonly Column<ChamberFillRow>[] = [
  { key: 'chamber', head: 'Fill', value: (row) => row.chamber },
  { key: 'fill_to_mm', head: 'To', value: (row) => row.fill_to_mm, places: 1 },
  { key: 'fill_L', head: 'That is', value: (row) => row.fill_L, places: 2 },
  { key: 'stays_empty', head: 'Stays empty', value: (row) => row.stays_empty },
  {
    key: 'loads',
    head: 'Presses on',
    value: (row) => row.loads.map(({ divider, force_N }) => `${divider} ${fixed(force_N, 0)} N`),
  },
];

/** Null: nothing holds water. */
export const reportFillTest = (stages: Stages): FillTestRow | null => {
  const plan = stages.fillTest();
  if (!plan) return null;
  const { tub } = stages;
  return {
    plug: plan.plugs.map((outlet) => tub.outlets[outlet].name),
    holds_L: reportLitres(plan.holds),
    holds_to_mm: reportLength(plan.holdsTo),
    fill_to_mm: reportLength(plan.level),
    fill_L: reportLitres(plan.volume),
    liquid_kg: reportMass(plan.liquid),
    on_stand_kg: reportMass(plan.full.mass),
    watch_min: plan.watch / 60,
    watch: plan.seams.map(({ seam, lowest, head }) => ({
      seam: tub.seams[seam].name,
      lowest_mm: reportLength(lowest),
      head_mm: reportLength(head),
    })),
    waters:
      plan.waters.length < 2
        ? []
        : plan.waters.map(({ chambers, holds, level, fillTo, volume }) => ({
            chambers: chambers.map(chamberName),
            holds_L: reportLitres(holds),
            holds_to_mm: reportLength(level),
            fill_to_mm: reportLength(fillTo),
            fill_L: reportLitres(volume),
          })),
    chambers: plan.chambers.map(({ chamber, level, volume, loads, empty }) => ({
      chamber: chamberName(chamber),
      fill_to_mm: reportLength(level),
      fill_L: reportLitres(volume),
      stays_empty: empty.map(chamberName),
      loads: loads.map(({ face, force }) => ({ divider: tub.panels[face].name, force_N: reportNewtons(force) })),
    })),
  };
};

const weightText = ({ empty_kg, removable_kg, support_kg }: MassRow): string => {
  if (empty_kg === 0) return '';
  const beside = [
    ...(removable_kg > 0 ? [`what comes out again ${fixed(removable_kg, 2)} kg`] : []),
    ...(support_kg > 0 ? [`what it stands on ${fixed(support_kg, 2)} kg`] : []),
  ];
  return [`The empty tub weighs ${fixed(empty_kg, 2)} kg`, ...beside].join(', ').concat('.');
};

const nameText = ({ chambers }: FilledRow): string => (chambers.length === 0 ? '' : ` in ${chambers.join(' and ')}`);

/** The fill test and the masses in sentences. */
export const fillTestText = (plan: FillTestRow | null, mass: MassRow): string => {
  const weight = weightText(mass);
  if (!plan) return weight;
  const plugs = plan.plug.length > 0 ? `Plug ${plan.plug.join(', ')}. ` : '';
  const each = (told: (row: FilledRow) => string): string =>
    plan.waters.length === 0
      ? told({ ...plan, chambers: [] })
      : plan.waters.map((row) => `${told(row)}${nameText(row)}`).join(', ');
  return [
    `It holds ${fixed(plan.holds_L, 2)} L to ${each((row) => `${fixed(row.holds_to_mm, 1)} mm`)}.`,
    `${plugs}Fill ${fixed(plan.fill_L, 2)} L, to ${each((row) => `${fixed(row.fill_to_mm, 1)} mm`)}; the stand then carries ${fixed(plan.on_stand_kg, 1)} kg${mass.removable_kg > 0 ? ', with what comes out again' : ''}. Watch for ${plan.watch_min} min.`,
    weight,
    'Check that the stand carries the full tub before filling it, and keep electrical things clear of the water.',
  ].join('\n');
};
