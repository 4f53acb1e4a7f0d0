/** The gap of every run: by geometry, and what bends and marks add. */
import { addScaled, lerp } from '../../geometry/vec.js';
import { keepBy } from '../../cache/memo.js';
import type { Shape } from '../../shape/shape.js';
import type { PartKey } from './part-keys.js';
import type { PartPaths } from './part-paths.js';
import type { PlateReach } from './plate-reach.js';
import { settingsOf, type GapStack, type Tolerances } from './seam-gap.js';
import type { SeamRun } from './seam-runs.js';

/** Gap of a run before clips draw it together. */
export interface OpenGap {
  /** By geometry with true radii, all bends and marks as drawn. */
  readonly nominal: number;
  readonly stack: GapStack;
  /** Where the two parts are set together. */
  readonly setAt: SeamRun;
}

export interface GapSite {
  readonly shape: Shape;
  readonly paths: PartPaths;
  readonly keys: readonly PartKey[];
  readonly reach: PlateReach;
  readonly trueness: Tolerances;
}

/** Gaps between two parts, by their first run. */
const gapsFor = keepBy<SeamRun, readonly OpenGap[]>();

/** Gaps of all runs. Those between two parts stay the same objects while the parts, their runs and the trueness are the same. */
export function* gapsOf(site: GapSite, runs: readonly SeamRun[]): Generator<void, ReadonlyMap<SeamRun, OpenGap>> {
  const { paths, keys, trueness } = site;
  const groups = new Map<string, { readonly inputs: unknown[]; readonly runs: SeamRun[] }>();
  for (const run of runs) {
    const [a, b] = run.sides.map((side) => paths.partOf(side.face) ?? -1);
    const [low, high] = [Math.min(a, b), Math.max(a, b)];
    const key = `${low} ${high}`;
    let group = groups.get(key);
    if (!group) {
      group = { inputs: [keys[low], keys[high], trueness.bends, trueness.marks], runs: [] };
      groups.set(key, group);
    }
    group.inputs.push(run);
    group.runs.push(run);
  }
  const gaps = new Map<SeamRun, OpenGap>();
  for (const { inputs, runs: between } of groups.values()) {
    const open = gapsFor(between[0], inputs, () => gapsBetween(site, between));
    between.forEach((run, i) => gaps.set(run, open[i]));
    yield;
  }
  return gaps;
}

const gapsBetween = ({ shape, paths, reach, trueness }: GapSite, runs: readonly SeamRun[]): readonly OpenGap[] =>
  settingsOf(shape, paths, runs, trueness).flatMap(({ run: setAt, stacks }) =>
    [...stacks].map(([run, stack]): OpenGap => ({ nominal: nominalGap(reach, run), stack, setAt })),
  );

/** Stations on a run at which its own metal is looked for: clear of the bends at its ends, whose arcs are looked at apart. */
const STATIONS = [0.25, 0.5, 0.75];

/** The farther of the two panels' metal from where it is to be cut (the wet edge, or back from a ridge): 0 where both are. */
const nominalGap = (reach: PlateReach, run: SeamRun): number => {
  let gap = 0;
  for (const share of STATIONS) {
    const point = lerp(run.start, run.end, share);
    for (const { face, inward, runOn } of run.sides) {
      gap = Math.max(gap, reach.distanceTo(face, addScaled(point, inward, Math.max(0, -runOn))) ?? 0);
    }
  }
  return gap;
};
