/** The rows of the water section of the report, and how those that are lists are told. Levels are null where nothing bounds them. */
import type { InflowEnd } from '../../water/flow/inflows.js';
import type { RestPlace } from '../../water/solids-run.js';
import type { Place } from '../numbers.js';
import type { Column } from '../table.js';
import type { OutletRow, PumpRow, TankRow } from './outlet-rows.js';
import type { SplashRow } from './splashes.js';

export interface WaterReport {
  readonly liquid: LiquidRow;
  readonly level_within_deg: number;
  /** Null: it stands as it is built. */
  readonly stands: { readonly tilted_deg: number; readonly down: 'right' | 'left' | 'back' | 'front' } | null;
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
  /** Strainers across openings of dividers. */
  readonly screens: readonly ScreenRow[];
  /** Inflows that state how far they fall. */
  readonly splashes: readonly SplashRow[];
  /** Flats that bow by 0.05 mm and more when the tub is full. */
  readonly bows: readonly BowRow[];
}

export interface ScreenRow {
  readonly name: string;
  readonly panel: string;
  readonly flow_L_min: number;
  /** Null: nothing stands behind it. */
  readonly before_mm: number;
  readonly behind_mm: number | null;
  readonly opens_mm: number;
  readonly open_share_percent: number;
  readonly blocked_percent: number;
}

/** A wall, floor or divider under the liquid, as the rectangle around its widest bay. */
export interface BowRow {
  readonly panel: string;
  readonly wide_mm: number;
  readonly high_mm: number;
  readonly level_mm: number;
  /** Edges that turn with what they are joined to; null: only edges that do not turn hold it. */
  readonly bow_at_most_mm: number | null;
  /** Edges that do not turn. */
  readonly bow_at_least_mm: number;
  /** What it makes room for. */
  readonly room_at_least_mL: number;
  readonly room_at_most_mL: number;
  /** False: more than half its sheet, where the linear law tells too much. */
  readonly is_linear: boolean;
  /** Of bending, the larger of those with edges that turn and that do not. */
  readonly stress_MPa: number;
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

export const BOW_COLUMNS: readonly Column<BowRow>[] = [
  { key: 'panel', head: 'Panel', value: (row) => row.panel },
  { key: 'wide_mm', head: 'Bay wide', value: (row) => row.wide_mm, places: 0 },
  { key: 'high_mm', head: 'High', value: (row) => row.high_mm, places: 0 },
  { key: 'bow_at_least_mm', head: 'Bows at least', value: (row) => row.bow_at_least_mm, places: 2 },
  { key: 'bow_at_most_mm', head: 'At most', value: (row) => row.bow_at_most_mm, places: 2 },
  { key: 'is_linear', head: 'Within half its sheet', value: (row) => row.is_linear },
  { key: 'stress_MPa', head: 'Stress', value: (row) => row.stress_MPa, places: 0 },
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
