/** The rows of the water section of the report, and how those that are lists are told. Levels are null where nothing bounds them. */
import type { InflowEnd } from '../../water/flow/inflows.js';
import type { OutletLaw } from '../../water/outlet/outlet-law.js';
import type { RestPlace } from '../../water/solids-run.js';
import type { Place } from '../numbers.js';
import type { Column } from '../table.js';

export interface WaterReport {
  readonly liquid: LiquidRow;
  readonly level_within_deg: number;
  /** All that it holds, with every outlet plugged. */
  readonly capacity_L: number | null;
  readonly leak_level_mm: number | null;
  readonly overflow: OverflowRow | null;
  /** What that is made of: a row for each level at which it stands. */
  readonly holds: readonly HoldRow[];
  readonly level_volume: readonly { readonly level_mm: number; readonly volume_L: number; readonly area_mm2: number }[];
  readonly basins: readonly BasinRow[];
  /** Upstream ones first. */
  readonly chambers: readonly ChamberRow[];
  readonly slopes: readonly SlopeRow[];
  readonly creases: readonly CreaseRow[];
  readonly pools: readonly PoolRow[];
  readonly pools_off_level: readonly TiltedPoolRow[];
  readonly flows: readonly FlowRow[];
  readonly paths: readonly (readonly PathStepRow[])[];
  readonly depths: DepthRows;
  readonly outlets: readonly OutletRow[];
  /** What is out of the tank while it runs. */
  readonly holdup_L: number;
  readonly holdup: {
    readonly running_L: number;
    readonly over_outlets_L: number;
    readonly over_crests_L: number;
    readonly drain_back_L: number;
    readonly pools_L: number;
  };
  readonly tanks: readonly TankRow[];
  readonly pumps: readonly PumpRow[];
  readonly solids_rest: readonly SolidsRow[];
}

export interface LiquidRow {
  readonly name: string;
  readonly viscosity_cSt: number;
  readonly density_kg_m3: number;
  readonly source: string;
  readonly surface_tension_mN_m: number;
  readonly contact_angle_deg: number;
  /** How deep it rests on level sheet. */
  readonly film_mm: number;
  /** Of surface tension and contact angle. */
  readonly wetting_source: string;
}

export interface HoldRow {
  readonly level_mm: number;
  readonly volume_L: number;
}

/** The main basin's first overflow, what the tub holds then, where its water falls, and what lies under that. */
export interface OverflowRow {
  readonly level_mm: number;
  readonly volume_L: number;
  readonly point_mm: Place | null;
  readonly panels: readonly string[];
  /** The chamber that it runs over into first; null: out of the tub. */
  readonly into: string | null;
  readonly falls_from: readonly string[];
  readonly falls_on: readonly { readonly name: string; readonly kind: string }[];
}

export interface BasinRow {
  readonly panels: readonly string[];
  readonly outlets: readonly string[];
  readonly level_mm: number | null;
  readonly volume_L: number | null;
  readonly area_mm2: number;
  readonly lowest_mm: Place;
}

/** A hollow of the plugged tub, up to where it runs over into another or out of the tub; and what stands in it at work. */
export interface ChamberRow {
  readonly name: string;
  readonly panels: readonly string[];
  readonly outlets: readonly string[];
  readonly lowest_mm: Place;
  /** Where it runs over, and what it holds to there. */
  readonly level_mm: number;
  readonly volume_L: number;
  readonly area_mm2: number;
  /** The chamber that it runs over into; null: out of the tub. */
  readonly runs_into: string | null;
  /** The divider over which it does. */
  readonly over: string | null;
  readonly spill_mm: Place;
  /** Of the level line over which it runs; 0: a point. */
  readonly width_mm: number;
  /** With the outlets open and nothing running. */
  readonly at_rest_L: number;
  readonly rate_L_min: number;
  /** Above that level while the inflows run. */
  readonly head_mm: number | null;
  readonly level_at_work_mm: number | null;
  /** Full, with the outlets open and nothing coming in, until no more than a film stands over the lowest lip; null: no outlet. */
  readonly drains_in_min: number | null;
}

export interface SlopeRow {
  readonly panel: string;
  readonly inclination_deg: number;
  /** With the stand as far off level as it may be. */
  readonly worst_deg: number;
  readonly needed_deg: number;
  readonly source: string;
  readonly gets_wet: boolean;
}

export interface CreaseRow {
  readonly between: readonly string[];
  readonly inclination_deg: number;
  readonly worst_deg: number;
  readonly needed_deg: number;
  readonly source: string;
  readonly length_mm: number;
  readonly high_mm: Place;
  readonly low_mm: Place;
}

/** What stays when the outlets are open. */
export interface PoolRow {
  /** That holds most of it. */
  readonly panel: string;
  readonly panels: readonly string[];
  readonly depth_mm: number | null;
  /** No deeper than it rests on level sheet. */
  readonly is_film: boolean;
  readonly area_mm2: number;
  readonly volume_mL: number | null;
  readonly level_mm: number | null;
  readonly deepest_mm: Place;
}

/** What stays once the stand is as far off level as it may be. */
export interface TiltedPoolRow {
  readonly panel: string;
  readonly depth_mm: number;
  readonly area_mm2: number;
  readonly volume_mL: number;
  readonly raised_side_deg: number;
}

export interface FlowRow {
  readonly inflow: string;
  readonly rate_L_min: number;
  readonly panels: readonly string[];
  readonly ends: readonly FlowEndRow[];
}

export interface FlowEndRow {
  readonly kind: InflowEnd['kind'];
  readonly name: string | null;
  readonly share_percent: number;
  readonly rate_L_min: number;
}

export interface PathStepRow {
  readonly from: string;
  readonly to: string;
  readonly share_percent: number;
}

export interface DepthRows {
  readonly stream_width_mm: number;
  readonly panels: readonly { readonly panel: string; readonly depth_mm: number; readonly volume_mL: number }[];
  readonly creases: readonly {
    readonly between: readonly string[];
    readonly rate_L_min: number;
    readonly depth_mm: number;
    readonly volume_mL: number;
  }[];
}

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

export interface SolidsRow {
  readonly inflow: string;
  readonly solids: 'chips' | 'sludge' | 'scraps' | null;
  readonly where: RestPlace['kind'];
  readonly panels: readonly string[];
  readonly worst_deg: number;
  readonly needed_deg: number;
}

/** Falls, as every list tells them. */
const FALL_COLUMNS: readonly Column<Pick<SlopeRow, 'inclination_deg' | 'worst_deg' | 'needed_deg'>>[] = [
  { key: 'inclination_deg', head: 'Fall', value: (row) => row.inclination_deg, places: 2 },
  { key: 'worst_deg', head: 'At worst', value: (row) => row.worst_deg, places: 2 },
  { key: 'needed_deg', head: 'Needs', value: (row) => row.needed_deg, places: 2 },
];

export const SLOPE_COLUMNS: readonly Column<SlopeRow>[] = [
  { key: 'panel', head: 'Panel', value: (row) => row.panel },
  ...FALL_COLUMNS,
];

export const CREASE_COLUMNS: readonly Column<CreaseRow>[] = [
  { key: 'between', head: 'Crease', value: (row) => row.between.join(' ') },
  ...FALL_COLUMNS,
  { key: 'length_mm', head: 'Length', value: (row) => row.length_mm, places: 1 },
];

export const POOL_COLUMNS: readonly Column<PoolRow>[] = [
  { key: 'panel', head: 'Panel', value: (row) => row.panel },
  { key: 'depth_mm', head: 'Depth', value: (row) => row.depth_mm, places: 2 },
  { key: 'is_film', head: 'Film', value: (row) => row.is_film },
  { key: 'area_mm2', head: 'Area', value: (row) => row.area_mm2, places: 0 },
  { key: 'volume_mL', head: 'Volume', value: (row) => row.volume_mL, places: 1 },
  { key: 'level_mm', head: 'Level', value: (row) => row.level_mm, places: 1 },
];

export const CHAMBER_COLUMNS: readonly Column<ChamberRow>[] = [
  { key: 'name', head: 'Chamber', value: (row) => row.name },
  { key: 'volume_L', head: 'Holds', value: (row) => row.volume_L, places: 2 },
  { key: 'level_mm', head: 'Runs over at', value: (row) => row.level_mm, places: 1 },
  { key: 'over', head: 'Over', value: (row) => row.over },
  { key: 'runs_into', head: 'Into', value: (row) => row.runs_into ?? 'out of the tub' },
  { key: 'at_rest_L', head: 'Stays', value: (row) => row.at_rest_L, places: 2 },
  { key: 'level_at_work_mm', head: 'Level at work', value: (row) => row.level_at_work_mm, places: 1 },
  { key: 'head_mm', head: 'Head', value: (row) => row.head_mm, places: 1, isDetail: true },
  { key: 'drains_in_min', head: 'Drains in, min', value: (row) => row.drains_in_min, places: 1 },
];

interface EndOfInflow extends FlowEndRow {
  readonly inflow: string;
}

/** Where each inflow ends, a row an end. */
export const flowEnds = ({ flows }: WaterReport): readonly EndOfInflow[] =>
  flows.flatMap(({ inflow, ends }) => ends.map((end) => ({ inflow, ...end })));

export const FLOW_END_COLUMNS: readonly Column<EndOfInflow>[] = [
  { key: 'inflow', head: 'Inflow', value: (row) => row.inflow },
  { key: 'rate_L_min', head: 'Rate', value: (row) => row.rate_L_min, places: 2 },
  { key: 'name', head: 'Ends', value: ({ kind, name }) => (name === null ? kind : `${kind} ${name}`) },
  { key: 'share_percent', head: 'Share', value: (row) => row.share_percent, places: 1 },
];

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
