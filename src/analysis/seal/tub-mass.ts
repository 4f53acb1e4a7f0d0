/** What the tub weighs, and where its centre of mass is. */
import type { FlatPattern, FoldedPart, Part } from '../fold/flat-pattern.js';
import type { Joints } from '../join/joints.js';
import type { SeamJoint } from '../join/seam-joint.js';
import { allFastenersOf } from '../join/frame-fasteners.js';
import type { Shape } from '../shape/shape.js';
import { lipBodiesOf } from '../solid/fitted/lip-bodies.js';
import type { SeamFastener } from '../join/seam-fasteners.js';
import { massOf } from '../material/properties.js';
import { fastenerBodies } from '../solid/bodies/fastener-bodies.js';
import { gather, lumpOf, pieceMassOf, type Lump } from '../join/mass.js';
import { pointOnRun } from '../join/seam/seam-runs.js';
import { memoBy } from '../cache/memo.js';
import { roleOf, type Role } from '../model/around/roles.js';
import type { Metal, Tub } from '../model/tub.js';
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
  /** Rivets and screws of the seams and of strainer frames. */
  readonly fasteners: MassPoint;
  /** Sheet of the tub's own parts, clips, frames and lips, and the rivets and screws of seams and frames; without weld, sealant, strainers and what sits in stated holes. */
  readonly empty: MassPoint;
  /** What lies in it and comes out again, and what it stands on: neither is in `empty`. */
  readonly removable: MassPoint;
  readonly support: MassPoint;
  /** All that is made for the job. */
  readonly made: MassPoint;
}

export interface MassInput {
  readonly tub: Tub;
  readonly shape: Shape;
  readonly parts: readonly Part[];
  readonly flats: readonly (FlatPattern | undefined)[];
  readonly folded: readonly (FoldedPart | undefined)[];
  readonly joints: Joints;
}

/** Masses from the flats, centres from the folded solids; clips are reckoned at the seams they stand on, frames at their outlets. */
export const tubMassOf = ({ tub, shape, parts, flats, folded, joints }: MassInput): TubMass => {
  const weighed = flats.map((flat, i): MassPoint | undefined => {
    const solid = folded[i];
    return flat && solid && { mass: pieceMassOf(tub, flat), centre: lumpOf(solid).centre };
  });
  const loose = together([...looseMasses(tub, joints), ...lipMasses(tub, shape)]);
  const fasteners = together(allFastenersOf(tub, shape, joints).map((each) => fastenerMass(tub, each)));
  const ofRole = (role: Role): readonly MassPoint[] =>
    weighed.filter((each, i) => each !== undefined && roleOf(tub, parts[i].faces[0]) === role) as MassPoint[];
  const [empty, removable, support] = [
    together([...ofRole('tub'), loose, fasteners]),
    together(ofRole('removable')),
    together(ofRole('support')),
  ];
  return { parts: weighed, loose, fasteners, empty, removable, support, made: together([empty, removable, support]) };
};

/** By its bodies: a rivet of the metal of its panel, a screw of stainless in stainless, of steel elsewhere. */
const fastenerMass = (tub: Tub, each: SeamFastener): MassPoint => {
  const { volume, centre } = gather(fastenerBodies(each).map((body) => ({ lump: lumpOf(body), weight: 1 })));
  const sheet = tub.sheets[tub.panels[each.faces[0]].sheet];
  const metal: Metal = each.fastener.kind === 'rivet' || sheet.material === 'stainless' ? sheet : { material: 'steel' };
  return { mass: massOf(metal, volume), centre };
};

/** Several masses as one. */
export const together = (points: readonly MassPoint[]): MassPoint => {
  const lump = gather(points.map(({ mass, centre }) => ({ lump: { volume: mass, centre } satisfies Lump, weight: 1 })));
  return { mass: lump.volume, centre: lump.centre };
};

/** As the short pipes that they are, of the metal of their sheet. */
const lipMasses = (tub: Tub, shape: Shape): readonly MassPoint[] =>
  lipBodiesOf(tub, shape).map(({ face, body }): MassPoint => {
    const { volume, centre } = lumpOf(body);
    return { mass: massOf(tub.sheets[tub.panels[face].sheet], volume), centre };
  });

const clipStations = memoBy(({ runs }: SeamJoint): readonly Vec3[] =>
  runs.flatMap(({ row }) => (row?.tabs.on === 'loose' ? row.centres.map((at) => pointOnRun(row.run, at)) : [])),
);

const looseMasses = (tub: Tub, joints: Joints): readonly MassPoint[] => {
  const stations = joints.seams.flatMap(clipStations);
  const frames = joints.frames.map((frame): MassPoint => {
    const flat = joints.looseFlats.find((each) => each.name === frame.name);
    return { mass: flat ? flat.quantity * pieceMassOf(tub, flat) : 0, centre: tub.outlets[frame.outlet].center };
  });
  const clips = joints.looseFlats.filter((flat) => joints.clips.some((clip) => clip.name === flat.name));
  const total = clips.reduce((sum, flat) => sum + flat.quantity * pieceMassOf(tub, flat), 0);
  return [...stations.map((centre) => ({ mass: total / stations.length, centre })), ...frames];
};
