/** The gap of every run: by geometry, and what bends and marks add. */
import { SAME_POINT } from '../../geometry/tolerance.js';
import { addScaled, lerp } from '../../geometry/vec.js';
import { keepBy } from '../../cache/memo.js';
import type { FaceIndex } from '../../shape/shape.js';
import { closingForceOf, openChains, type ClosingForce, type ClosingSite } from './closing-force.js';
import type { PartKey } from './part-keys.js';
import type { Chains } from './part-paths.js';
import type { PlateReach } from './plate-reach.js';
import { datumsOf, waysFrom, type GapStack } from './seam-gap.js';
import type { SeamRun } from './seam-runs.js';

/** Gap of a run before clips draw it together. */
export interface OpenGap {
  /** By geometry with true radii, all bends and marks as drawn. */
  readonly nominal: number;
  readonly stack: GapStack;
  /** Where the two parts are set together. */
  readonly datum: SeamRun;
  /** What is left to pull there, clamped run by run from where they are set together. */
  readonly closing: ClosingForce;
}

export interface GapSite extends ClosingSite {
  readonly keys: readonly PartKey[];
  readonly reach: PlateReach;
}

/** Gaps between two parts, by their first run. */
const gapsFor = keepBy<SeamRun, readonly OpenGap[]>();

/** Gaps of all runs. Those between two parts stay the same objects while the parts, their runs and the tolerances are the same. */
export function* gapsOf(site: GapSite, runs: readonly SeamRun[]): Generator<void, ReadonlyMap<SeamRun, OpenGap>> {
  const { paths, keys, tolerances } = site;
  const readKey = [...(tolerances.read ?? [])].join(' ');
  const groups = new Map<string, { readonly inputs: unknown[]; readonly runs: SeamRun[] }>();
  for (const run of runs) {
    const [a, b] = run.sides.map((side) => paths.partOf(side.face) ?? -1);
    const [low, high] = [Math.min(a, b), Math.max(a, b)];
    const key = `${low} ${high}`;
    let group = groups.get(key);
    if (!group) {
      group = { inputs: [keys[low], keys[high], tolerances.bends, tolerances.marks, readKey], runs: [] };
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

const gapsBetween = (site: GapSite, runs: readonly SeamRun[]): readonly OpenGap[] => {
  const { shape, paths, reach, tolerances } = site;
  return datumsOf(shape, paths, runs, tolerances).flatMap(({ run: datum, stacks }) => {
    const ways = new Map([...stacks.keys()].map((run) => [run, waysFrom(paths, datum, run)]));
    const bendsTo = fewestBends(ways);
    return [...stacks].map(([run, stack]): OpenGap => {
      const way = ways.get(run)!;
      const chains = openChains(way, (face) => (bendsTo.get(face) ?? Infinity) < bendCount(way));
      return { nominal: nominalGap(reach, run), stack, datum, closing: closingForceOf(site, run, chains, stack.point) };
    });
  });
};

const bendCount = (way: Chains): number => way[0].length + way[1].length;

/** Per panel: over how few bends one of its runs is reached, and so when it is clamped. */
const fewestBends = (ways: ReadonlyMap<SeamRun, Chains>): ReadonlyMap<FaceIndex, number> => {
  const fewest = new Map<FaceIndex, number>();
  for (const [run, way] of ways) {
    for (const { face } of run.sides) fewest.set(face, Math.min(fewest.get(face) ?? Infinity, bendCount(way)));
  }
  return fewest;
};

/** Stations on a run at which its own metal is looked for: clear of the bends at its ends, whose arcs are looked at apart. */
const STATIONS = [0.25, 0.5, 0.75];

/** The farther of the two panels' metal from where it is to be cut (the wet edge, or back from a ridge), or the one edge from the other. */
const nominalGap = (reach: PlateReach, run: SeamRun): number => {
  let gap = run.apart <= SAME_POINT ? 0 : run.apart;
  for (const share of STATIONS) {
    const point = lerp(run.start, run.end, share);
    for (const { face, inward, runOn } of run.sides) {
      gap = Math.max(gap, reach.distanceTo(face, addScaled(point, inward, Math.max(0, -runOn))) ?? 0);
    }
  }
  return gap;
};
