/** What the tub weighs, and where its centre of mass is. */
import type { FlatPattern, FoldedPart, Part } from '../fold/flat-pattern.js';
import { areaOfContour } from '../geometry/contour.js';
import type { Joints } from '../join/joints.js';
import type { SeamJoint } from '../join/seam-joint.js';
import { gather, lumpOf, type Lump } from '../join/mass.js';
import { pointOnRun } from '../join/seam/seam-runs.js';
import { memoBy } from '../cache/memo.js';
import { massOf } from '../material/properties.js';
import type { Tub } from '../model/tub.js';
import type { Vec3 } from '../geometry/vec.js';

/** kg and mm. */
export interface MassPoint {
  readonly mass: number;
  readonly centre: Vec3 | undefined;
}

export interface TubMass {
  /** Per part; undefined where it cannot be folded. */
  readonly parts: readonly (MassPoint | undefined)[];
  readonly loose: MassPoint;
  /** Sheet of all parts, clips and frames; without weld, sealant, fasteners and strainers. */
  readonly empty: MassPoint;
}

export interface MassInput {
  readonly tub: Tub;
  readonly parts: readonly Part[];
  readonly folded: readonly (FoldedPart | undefined)[];
  readonly joints: Joints;
}

/** Masses from the folded solids, with true radii; clips are reckoned at the seams they stand on, frames at their outlets. */
export const tubMassOf = ({ tub, parts, folded, joints }: MassInput): TubMass => {
  const weighed = parts.map((part, i): MassPoint | undefined => {
    const solid = folded[i];
    if (!solid) return undefined;
    const lump = lumpOf(solid);
    return { mass: massOf(tub.sheets[part.sheet].material, lump.volume), centre: lump.centre };
  });
  const loose = together(looseMasses(tub, joints));
  const empty = together([...weighed.filter((each) => each !== undefined), loose]);
  return { parts: weighed, loose, empty };
};

/** Several masses as one. */
export const together = (points: readonly MassPoint[]): MassPoint => {
  const lump = gather(points.map(({ mass, centre }) => ({ lump: { volume: mass, centre } satisfies Lump, weight: 1 })));
  return { mass: lump.volume, centre: lump.centre };
};

const clipStations = memoBy(({ runs }: SeamJoint): readonly Vec3[] =>
  runs.flatMap(({ row }) => (row?.tabs.on === 'loose' ? row.centres.map((at) => pointOnRun(row.run, at)) : [])),
);

const looseMasses = (tub: Tub, joints: Joints): readonly MassPoint[] => {
  const stations = joints.seams.flatMap(clipStations);
  const frames = joints.frames.map((frame): MassPoint => {
    const flat = joints.looseFlats.find((each) => each.name === frame.name);
    return { mass: flat ? flatMass(tub, flat) : 0, centre: tub.outlets[frame.outlet].center };
  });
  const clips = joints.looseFlats.filter((flat) => joints.clips.some((clip) => clip.name === flat.name));
  const total = clips.reduce((sum, flat) => sum + flatMass(tub, flat), 0);
  return [...stations.map((centre) => ({ mass: total / stations.length, centre })), ...frames];
};

/** kg of all pieces of a flat pattern. */
const flatMass = (tub: Tub, { sheet, thickness, outline, holes, quantity }: FlatPattern): number => {
  const area = holes.reduce(
    (sum, hole) => sum - Math.abs(areaOfContour(hole.contour)),
    Math.abs(areaOfContour(outline)),
  );
  return quantity * massOf(tub.sheets[sheet].material, area * thickness);
};
