/** The force with which a clamp pulls a seam shut that bends and marks have left open. */
import { distance, dot, lengthOf, lerp, scale, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { stiffnessOf } from '../../material/plate-stiffness.js';
import type { Bend, FaceIndex } from '../../shape/shape.js';
import { acrossSeam, bendMotion, movePerAngle } from './bend-motion.js';
import { complianceOf, flexingPanel, type FlexingPanel, type FlexingSite, type Puller } from './flexing-panel.js';
import type { Chains, Crossing, PartPaths } from './part-paths.js';
import type { Tolerances } from './seam-gap.js';
import type { RunSide, SeamRun } from './seam-runs.js';

/**
 * What is left to pull at a run once the runs nearer to where the parts are set together are shut: the parts are clamped and
 * tacked leg by leg from there.
 */
export interface ClosingForce {
  /** Root of the sum of squares of what the bends and marks since the last panel that is held still open, mm. */
  readonly open: number;
  /** To pull all of it shut, N; undefined: bending the panels does not shut it. */
  readonly force: number | undefined;
  /** The panel that bends most and how far it stands free of its bend; undefined where nothing is open. */
  readonly bent: { readonly face: FaceIndex; readonly free: number } | undefined;
}

/** N. A seam that takes more to shut is not shut by bending a panel: its gap lies in the plane of both. */
const NO_CLAMP = 1e6;

export interface ClosingSite extends FlexingSite {
  readonly paths: PartPaths;
  readonly tolerances: Tolerances;
}

/**
 * The bends that still open a run. `ways` are all bends between where the parts are set together and each side; `isHeld` says
 * which panels are in place already.
 */
export const openChains = (ways: Chains, isHeld: (face: FaceIndex) => boolean): Chains => {
  const since = (way: readonly Crossing[]): readonly Crossing[] => {
    let first = way.length - 1;
    while (first > 0 && !isHeld(way[first].from)) first--;
    return way.slice(Math.max(0, first));
  };
  return [since(ways[0]), since(ways[1])];
};

/** Closing force of a run, pulled at `point`, where it is open widest. Cost: O(1) for each bend of the chains. */
export const closingForceOf = (site: ClosingSite, run: SeamRun, chains: Chains, point: Vec3): ClosingForce => {
  const pitch = clampPitch(site, run);
  const panels = chains.flatMap((chain) => panelsOf(site, run, chain, point, pitch));
  const held = run.sides.filter((_, i) => chains[i].length === 0);
  const givesAlong = (direction: Vec3): number =>
    held.reduce((sum, side) => sum + heldCompliance(site, side, point, direction), 0) +
    panels.reduce((sum, panel) => sum + complianceOf(panel, point, direction), 0);
  let [open, force] = [0, 0];
  const most = { size: 0, bend: -1 };
  for (const crossing of chains.flat()) {
    const motion = bendMotion(site.shape, crossing);
    const moves = [
      scale(acrossSeam(movePerAngle(motion, point), run.along), site.tolerances.bends),
      scale(acrossSeam(motion.perMark, run.along), site.tolerances.marks),
    ];
    for (const move of moves) {
      const size = lengthOf(move);
      if (size < SAME_POINT) continue;
      open += size ** 2;
      force += (size / givesAlong(unit(move))) ** 2;
      if (size > most.size) Object.assign(most, { size, bend: crossing.bend });
    }
  }
  const bent = panels.find(({ bend }) => bend === most.bend);
  return {
    open: Math.sqrt(open),
    force: Math.sqrt(force) < NO_CLAMP ? Math.sqrt(force) : undefined,
    bent: bent && { face: bent.face, free: bent.free },
  };
};

/** One clamp at each tab or spot; without them one clamp alone. */
const clampPitch = ({ tub }: ClosingSite, { seam, length }: SeamRun): number => {
  const { tabs, spots, style } = tub.seams[seam];
  if (tabs) return tabs.every;
  return style.kind === 'lap' && spots !== undefined && spots > 0 ? length / spots : Infinity;
};

const panelsOf = (
  site: ClosingSite,
  run: SeamRun,
  chain: readonly Crossing[],
  point: Vec3,
  pitch: number,
): readonly (FlexingPanel & { readonly bend: number })[] =>
  chain.map(({ bend, to }, i) => {
    const next = chain.at(i + 1);
    const puller: Puller = next
      ? { kind: 'bend', bend: site.shape.bends[next.bend], point }
      : { kind: 'clamp', point, seamAlong: run.along, pitch };
    return { ...flexingPanel(site, site.shape.bends[bend], to, puller), bend };
  });

/** A panel that no bend error moves still gives between the point and the nearest line that holds it; stiff where that is none. */
const heldCompliance = ({ tub, shape }: ClosingSite, side: RunSide, point: Vec3, direction: Vec3): number => {
  const face = shape.faces[side.face];
  let free = Infinity;
  for (const stretch of face.stretches.flat()) {
    const holds = stretch.bend !== undefined || stretch.seams.length > 0;
    if (holds && stretch !== side.stretch) free = Math.min(free, distanceTo(stretch, point));
  }
  if (free < SAME_POINT || !Number.isFinite(free)) return 0;
  const metal = tub.sheets[tub.panels[face.panel].sheet];
  const stiffness = stiffnessOf({ metal, thickness: metal.thickness, width: Infinity, free, pulledAt: 'corner' });
  return dot(direction, side.normal) ** 2 / stiffness;
};

const distanceTo = ({ start, end }: Pick<Bend, 'start' | 'end'>, point: Vec3): number => {
  const line = subtract(end, start);
  const share = Math.max(0, Math.min(1, dot(subtract(point, start), line) / dot(line, line)));
  return distance(point, lerp(start, end, share));
};
