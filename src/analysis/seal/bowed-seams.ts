/** Seams that the liquid opens as it bows the walls. */
import { dot, subtract, type Vec3 } from '../geometry/vec.js';
import type { Joints } from '../join/joints.js';
import type { RunJoint, SeamJoint } from '../join/seam-joint.js';
import type { Tub } from '../model/tub.js';
import type { FaceIndex, Shape } from '../shape/shape.js';
import { openingBetween } from '../water/bow/held-at-points.js';
import { bowAtFreeEdge, edgeReaction, rigidityOf, wallSitesOf, type WallSite } from '../water/bow/wall-bow.js';
import type { Water } from '../water/water.js';

/** Where the liquid of the full tub opens a seam most. All mm. */
export interface BowedSeam {
  readonly joint: { readonly kind: 'seam' | 'faces'; readonly index: number };
  readonly face: FaceIndex;
  /** How far at most. */
  readonly opens: number;
  /** What closes it: the gap that its sealant bridges, or what its gasket is pressed by. */
  readonly closes: number;
  /** Between the places that hold it; undefined: nothing but sealant does. */
  readonly pitch: number | undefined;
  /** Of the liquid, over the lowest place of the seam. */
  readonly depth: number;
}

/**
 * Of every seam that no weld or solder closes, and every gasket, the place that opens most: between what holds the edge of a wall, or where
 * nothing but sealant does as far as the wall bows there. What is welded or soldered all along does not open. Cost: O(n), and 1 ms for
 * each wall that nothing but sealant holds.
 */
export const bowedSeamsOf = (tub: Tub, shape: Shape, water: Water, joints: Joints): readonly BowedSeam[] => {
  const closable = joints.seams.filter(({ method }) => method.closing === 'sealant');
  const gaskets = joints.faces.filter(({ joint }) => (tub.faceJoints?.[joint].gasket ?? 0) > 0);
  if (closable.length === 0 && gaskets.length === 0) return [];
  const sites = new Map(wallSitesOf(tub, shape, water).map((site) => [site.face.panel, site]));
  const found = [
    ...closable.flatMap((seam) => seam.runs.flatMap((run) => openedRun(sites, seam, run))),
    ...gaskets.flatMap((contact) => openedGasket(tub, sites, contact)),
  ];
  return widestOf(found);
};

const widestOf = (found: readonly BowedSeam[]): readonly BowedSeam[] => {
  const widest = new Map<string, BowedSeam>();
  for (const each of found) {
    const key = `${each.joint.kind} ${each.joint.index}`;
    if (each.opens - each.closes > (widest.get(key)?.opens ?? -Infinity) - (widest.get(key)?.closes ?? 0))
      widest.set(key, each);
  }
  return [...widest.values()];
};

const openedRun = (
  sites: ReadonlyMap<FaceIndex, WallSite>,
  { seam, allowed }: SeamJoint,
  joint: RunJoint,
): readonly BowedSeam[] => {
  const { run } = joint;
  const lowest = Math.min(run.start[2], run.end[2]);
  const holders = holdersOf(joint);
  return run.sides.flatMap(({ face, stretch }): readonly BowedSeam[] => {
    const site = sites.get(face);
    if (!site || !stretch || site.level <= lowest) return [];
    const common = { joint: { kind: 'seam', index: seam } as const, face, closes: allowed, depth: site.level - lowest };
    if (!holders) {
      const opens = bowAtFreeEdge(site, stretch);
      return opens === undefined ? [] : [{ ...common, opens, pitch: undefined }];
    }
    // Held at places it opens no farther than if nothing held it.
    const free = bowAtFreeEdge(site, stretch) ?? Infinity;
    return [{ ...common, opens: Math.min(openingIn(site, holders, lowest), free), pitch: holders.pitch }];
  });
};

const openingIn = (site: WallSite, { pitch, wide }: Holders, lowest: number): number =>
  openingBetween({
    ...{ pitch, wide, reaction: edgeReaction(site, lowest), rigidity: rigidityOf(site) },
    poisson: site.metal.poisson,
  });

interface Holders {
  readonly pitch: number;
  readonly wide: number;
}

/** Undefined: nothing holds the run but what closes it. One in the middle of it stands for a share of the run. */
const holdersOf = ({ run, row, spots, fasteners }: RunJoint): Holders | undefined => {
  const rowPitch = row && row.centres.length > 0 && !row.tabs.isLap ? (row.pitch ?? run.length / 2) : undefined;
  if (rowPitch !== undefined && row) return { pitch: rowPitch, wide: row.tabs.wide };
  const points = [...spots, ...fasteners].map(({ point }) => dot(subtract(point, run.start), run.along));
  const places = points.sort((p, q) => p - q);
  if (places.length === 0) return undefined;
  const steps = places.slice(1).map((place, i) => place - places[i]);
  return { pitch: steps.length > 0 ? Math.max(...steps) : run.length / 2, wide: 0 };
};

type FaceContact = Joints['faces'][number];

const openedGasket = (
  tub: Tub,
  sites: ReadonlyMap<FaceIndex, WallSite>,
  { joint, faces, bands }: FaceContact,
): readonly BowedSeam[] => {
  const { gasket, pressed } = tub.faceJoints![joint];
  return faces.flatMap((face): readonly BowedSeam[] => {
    const site = sites.get(face);
    if (!site) return [];
    return bands.flatMap(({ corners, share }): readonly BowedSeam[] => {
      const lowest = lowestOf(corners);
      if (share === undefined || site.level <= lowest) return [];
      const opens = openingIn(site, { pitch: share, wide: 0 }, lowest);
      const common = { joint: { kind: 'faces', index: joint } as const, face, pitch: share };
      return [{ ...common, opens, closes: gasket * pressed, depth: site.level - lowest }];
    });
  });
};

const lowestOf = (corners: readonly Vec3[]): number => Math.min(...corners.map(([, , z]) => z));
