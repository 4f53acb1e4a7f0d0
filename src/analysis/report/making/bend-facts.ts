/** Numbers of one bend as it is planned: for the hover, the report and the lists. Units in the names. */
import type { FlatBend } from '../../fold/flat-pattern.js';
import { asMarked, sideUpOf } from '../../fold/marked-side.js';
import type { SheetSide } from '../../model/marked.js';
import type { BendCheck } from '../../making/bend-check.js';
import type { Setup } from '../../making/bend-fit.js';
import { bendsWithinOf } from '../../model/shop/default-shop.js';
import { strokesOf } from '../../making/tub-plans.js';
import { minimumRadiusOf } from '../../material/minimum-radius.js';
import type { Stages } from '../../stages/stages.js';

export interface BendFacts {
  /** Number of the stroke in the bend plan of the part, from 1; null where no order was found: then the bend by itself. */
  readonly stroke: number | null;
  /** As the flat is lettered, seen with `side_up` up. */
  readonly direction: FlatBend['direction'];
  readonly side_up: SheetSide;
  readonly machine: string;
  readonly machine_kind: 'press brake' | 'folding brake';
  /** V opening; null on a folding brake. */
  readonly die_mm: number | null;
  /** Inside radius that comes out. */
  readonly made_radius_mm: number;
  readonly made_radius_source: string;
  readonly least_radius_mm: number;
  readonly least_radius_source: string;
  /** Of the whole stroke; null on a folding brake. */
  readonly force_kN: number | null;
  /** Of the brake's force, or of its capacity. */
  readonly load_percent: number;
  readonly shortest_flange_mm: number;
  /** The shorter leg, outside, from the virtual sharp corner. */
  readonly flange_mm: number;
  /** Angle under load: the least of the band that springback lies in, and the most. */
  readonly bend_to_deg: number;
  readonly bend_to_at_most_deg: number;
  /** What a gauge zeroed on the one panel reads on the other after release. */
  readonly gauge_deg: number;
  readonly gauge_within_deg: number;
  readonly reach_deg: number;
  /** What the machine lacks, worst first; empty when the bend can be made as drawn. */
  readonly lacks: readonly string[];
}

const DEG = 180 / Math.PI;

/**
 * How a bend of the shape is made: in its stroke of the bend plan, or where its part has no order on the setup that suits
 * the bend best by itself. Undefined where its part cannot be laid flat or the shop has no brake. Force by
 * `F = 1.42 Rm T^2 L / V`, shortest flange by the die's shoulder, springback by Gardiner's formula: guides, all of them; a
 * test bend decides. Plans the part where it is not planned yet: up to a second.
 */
export const bendFacts = (stages: Stages, bend: number): BendFacts | undefined => {
  const making = stages.making();
  const check = making.bendCheck(bend);
  const way = check && wayOf(stages, check);
  if (!check || !way) return undefined;
  const { task, legs } = check;
  const { setup, stroke } = way;
  const sheet = stages.tub.sheets[check.flat.sheet];
  const marked = asMarked(stages.tub, check.flat);
  const least = minimumRadiusOf({ ...task, grain: sheet.grain });
  return {
    stroke,
    direction: marked.bends[check.index].direction,
    side_up: sideUpOf(marked),
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
    bend_to_at_most_deg: setup.bendToAtMost * DEG,
    gauge_deg: task.angle * DEG,
    gauge_within_deg: bendsWithinOf(making.shop) * DEG,
    reach_deg: setup.reach * DEG,
    lacks: setup.shortfalls.map(({ kind }) => kind),
  };
};

interface Way {
  readonly setup: Setup;
  readonly stroke: number | null;
}

const wayOf = ({ tub }: Stages, { flat, index, setups }: BendCheck): Way | undefined => {
  if (setups.length === 0) return undefined;
  const strokes = strokesOf(tub, flat);
  const i = strokes.findIndex(({ bends }) => bends.includes(index));
  return i < 0 ? { setup: setups[0], stroke: null } : { setup: strokes[i].setup, stroke: i + 1 };
};
