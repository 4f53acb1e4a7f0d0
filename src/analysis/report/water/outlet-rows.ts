/** The rows of outlets, their strainers, jets and pipes, of tanks and pumps, and how those that are lists are told. */
import type { OutletLaw } from '../../water/outlet/outlet-law.js';
import type { Column } from '../table.js';

export interface OutletRow {
  readonly name: string;
  /** Closed in use, opened by hand to drain. */
  readonly shut_in_use: boolean;
  readonly form: OutletLaw['kind'];
  /** Dry in use, there for when the others are shut or blocked. */
  readonly is_overflow: boolean;
  readonly inflow_L_min: number;
  readonly head_mm: number | null;
  readonly outlet_head_mm: number | null;
  /** Between these the head of the outlet lies by what is published of its form; null: no source says. */
  readonly head_least_mm: number | null;
  readonly head_most_mm: number | null;
  readonly capacity_L_min: number | null;
  readonly water_level_mm: number | null;
  readonly flood_level_mm: number | null;
  readonly margin_mm: number | null;
  readonly from: {
    readonly left_percent: number;
    readonly right_percent: number;
    readonly front_percent: number;
    readonly back_percent: number;
    readonly around_percent: number;
  };
  readonly strainer: StrainerRow | null;
  /** Of an overflow, with all other outlets shut or blocked; null: it is none, or nothing runs in. */
  readonly others_shut: OthersShutRow | null;
  /** Of a spout that takes water. */
  readonly jet: JetRow | null;
  readonly pipe: PipeRow | null;
}

/** The pipe below an outlet. */
export interface PipeRow {
  readonly bore_mm: number;
  readonly length_mm: number;
  readonly fall_percent: number;
  /** Which of both takes less with the water at the rim. */
  readonly limits: 'outlet' | 'pipe';
  readonly with_air_L_min: number;
  /** With the water as it stands; null: no level is enough. */
  readonly full_L_min: number | null;
  readonly runs_full: boolean;
  /** Of the water in it; null: it runs full. */
  readonly depth_mm: number | null;
  /** Where it runs full. */
  readonly speed_mm_s: number | null;
}

/** Water as it leaves over the edge of a spout. */
export interface JetRow {
  readonly depth_mm: number;
  /** Between these the depth lies by the two sources. */
  readonly depth_least_mm: number;
  readonly depth_most_mm: number;
  /** Of the edge that is wet. */
  readonly width_mm: number;
  readonly speed_mm_s: number;
  /** If it spreads over all of the edge on its way. */
  readonly speed_spread_mm_s: number;
  readonly down_deg: number;
  /** The tank under it whose place is stated; null: none. It drips straight down as the flow starts and stops. */
  readonly into: string | null;
  /** Down to the tank's rim, else 300 mm. */
  readonly falls_mm: number;
  readonly throw_mm: number;
  /** With all inflows coming this way. */
  readonly throw_most_mm: number;
  /** From the last bend, where it is so fast that it may leap off there; null: its weight holds it on the sheet. */
  readonly leap_throw_mm: number | null;
}

export interface OthersShutRow {
  readonly inflow_L_min: number;
  readonly head_mm: number | null;
  readonly margin_mm: number | null;
}

export interface StrainerRow {
  readonly aperture_mm: number;
  readonly wire_mm: number;
  readonly open_share_percent: number;
  readonly source: string;
  readonly blocked_percent: number;
  readonly head_mm: number | null;
  readonly head_by_other_correlation_mm: number | null;
  readonly blocked_at_overflow_percent: number | null;
  readonly full_after_h: number | null;
  readonly clean_every_h: number | null;
}

/** A pump with its hose. */
export interface PumpRow {
  readonly inflow: string;
  readonly tank: string;
  readonly flow_L_min: number;
  /** With the tank at its lowest and the hose at its worst, and at its highest and best. */
  readonly least_L_min: number;
  readonly most_L_min: number;
  readonly head_mm: number;
  readonly lift_mm: number;
  readonly speed_mm_s: number;
  /** Of liquid over the inlet at the lowest level; null: the tank's place is not stated. */
  readonly cover_mm: number | null;
  readonly cover_needed_mm: number;
  readonly hose_L: number;
}

export interface TankRow {
  readonly name: string;
  readonly capacity_L: number;
  readonly working_L: number;
  readonly drain_back_L: number;
  readonly needed_L: number;
  readonly left_while_running_L: number;
  readonly level_at_rest_mm: number | null;
  readonly level_while_running_mm: number | null;
}

export const OUTLET_COLUMNS: readonly Column<OutletRow>[] = [
  { key: 'name', head: 'Outlet', value: (row) => row.name },
  { key: 'inflow_L_min', head: 'Inflow', value: (row) => row.inflow_L_min, places: 2 },
  { key: 'head_mm', head: 'Head', value: (row) => row.head_mm, places: 1 },
  { key: 'capacity_L_min', head: 'Takes', value: (row) => row.capacity_L_min, places: 1 },
  { key: 'margin_mm', head: 'To the rim', value: (row) => row.margin_mm, places: 1 },
  { key: 'form', head: 'Form', value: (row) => row.form, isDetail: true },
  { key: 'shut_in_use', head: 'Shut in use', value: (row) => row.shut_in_use, isDetail: true },
  { key: 'is_overflow', head: 'Overflow', value: (row) => row.is_overflow, isDetail: true },
];

export const TANK_COLUMNS: readonly Column<TankRow>[] = [
  { key: 'name', head: 'Tank', value: (row) => row.name },
  { key: 'capacity_L', head: 'Holds', value: (row) => row.capacity_L, places: 2 },
  { key: 'needed_L', head: 'Needs', value: (row) => row.needed_L, places: 2 },
  { key: 'left_while_running_L', head: 'Left while running', value: (row) => row.left_while_running_L, places: 2 },
];

export const PUMP_COLUMNS: readonly Column<PumpRow>[] = [
  { key: 'inflow', head: 'Pump of', value: (row) => row.inflow },
  { key: 'flow_L_min', head: 'Brings', value: (row) => row.flow_L_min, places: 2 },
  { key: 'least_L_min', head: 'Least', value: (row) => row.least_L_min, places: 2 },
  { key: 'most_L_min', head: 'Most', value: (row) => row.most_L_min, places: 2 },
  { key: 'head_mm', head: 'Head', value: (row) => row.head_mm, places: 0 },
  { key: 'lift_mm', head: 'Lift', value: (row) => row.lift_mm, places: 0 },
  { key: 'cover_mm', head: 'Covered', value: (row) => row.cover_mm, places: 0 },
  { key: 'cover_needed_mm', head: 'Needs', value: (row) => row.cover_needed_mm, places: 0 },
];
