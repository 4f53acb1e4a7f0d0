/** Numbers of one bend for the hover and the report. Units in the names. */
import type { Stages } from '../stages/stages.js';
import { bendsWithinOf } from '../making/default-shop.js';
import { minimumRadiusOf } from '../material/minimum-radius.js';

export interface BendFacts {
  readonly machine: string;
  readonly machine_kind: 'press brake' | 'folding brake';
  /** V opening; null on a folding brake. */
  readonly die_mm: number | null;
  /** Inside radius that comes out. */
  readonly made_radius_mm: number;
  readonly made_radius_source: string;
  readonly least_radius_mm: number;
  readonly least_radius_source: string;
  /** Null on a folding brake. */
  readonly force_kN: number | null;
  /** Of the brake's force, or of its capacity. */
  readonly load_percent: number;
  readonly shortest_flange_mm: number;
  /** The shorter leg, outside, from the virtual sharp corner. */
  readonly flange_mm: number;
  /** Angle under load. */
  readonly bend_to_deg: number;
  /** What a gauge zeroed on the one panel reads on the other after release. */
  readonly gauge_deg: number;
  readonly gauge_within_deg: number;
  readonly reach_deg: number;
  /** What the machine lacks, worst first; empty when the bend can be made as drawn. */
  readonly lacks: readonly string[];
}

const DEG = 180 / Math.PI;

/**
 * What the best machine of the shop makes of a bend of the shape; undefined where its part cannot be laid flat or the
 * shop has no brake. Force by `F = 1.42 Rm T^2 L / V`, shortest flange by the die's shoulder, springback by Gardiner's
 * formula: guides, all of them; a test bend decides.
 */
export const bendFacts = (stages: Stages, bend: number): BendFacts | undefined => {
  const making = stages.making();
  const check = making.bendCheck(bend);
  const setup = check?.setups[0];
  if (!check || !setup) return undefined;
  const { task, legs } = check;
  const sheet = stages.tub.sheets[check.flat.sheet];
  const least = minimumRadiusOf({ ...task, grain: sheet.grain });
  return {
    machine: setup.machine.name,
    machine_kind: setup.machine.kind,
    die_mm: setup.die ?? null,
    made_radius_mm: setup.madeRadius,
    made_radius_source: setup.radiusSource,
    least_radius_mm: least.value,
    least_radius_source: least.source,
    force_kN: setup.force === undefined ? null : setup.force / 1000,
    load_percent: setup.load * 100,
    shortest_flange_mm: setup.shortestFlange,
    flange_mm: Math.min(legs[0].outside, legs[1].outside),
    bend_to_deg: setup.bendTo * DEG,
    gauge_deg: task.angle * DEG,
    gauge_within_deg: bendsWithinOf(making.shop) * DEG,
    reach_deg: setup.reach * DEG,
    lacks: setup.shortfalls.map(({ kind }) => kind),
  };
};
