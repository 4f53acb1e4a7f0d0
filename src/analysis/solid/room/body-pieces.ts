/** All metal of one body: the tub with its parts, or a support, a removable or an existing thing. */
import type { FlatPattern, FoldedPart } from '../../fold/flat-pattern.js';
import type { Joints } from '../../join/joints.js';
import { seamFastenersOf } from '../../join/seam-fasteners.js';
import { bodyOf } from '../../model/around/roles.js';
import type { GroupIndex, Tub } from '../../model/tub.js';
import type { FaceIndex, Shape } from '../../shape/shape.js';
import { memoBy } from '../../cache/memo.js';
import { legsOf } from '../bodies/fastened-legs.js';
import { bodiesOf, type Body } from '../bodies/prisms.js';
import { frameBodyOf } from '../fitted/frame-bodies.js';
import { lipBodiesOf } from '../fitted/lip-bodies.js';
import { metalOfFastener } from './room-takers.js';
import { bodiesOfThing } from '../bodies/thing-bodies.js';

export interface Piece {
  readonly body: Body;
  /** The panel that it is, is turned from or is held by; undefined: of a thing of another file. */
  readonly face: FaceIndex | undefined;
  /** Of a thing of another file, into `Tub.things`. */
  readonly thing?: number;
  /** Of a rivet or screw: the panels that it holds together. */
  readonly holds?: readonly [FaceIndex, FaceIndex];
}

export interface MetalQuestion {
  readonly tub: Tub;
  readonly flats: readonly (FlatPattern | undefined)[];
  readonly folded: readonly (FoldedPart | undefined)[];
  /** Slabs of what stands there already. */
  readonly existing: readonly FoldedPart[];
  readonly joints: Pick<Joints, 'seams' | 'faces' | 'frames'>;
  readonly shape: Shape;
}

/** By body; screws and rivets that hold two bodies together are of neither. Cost: O(n) in plates, rolls, clips and fasteners. */
export const piecesByBody = (of: MetalQuestion): ReadonlyMap<GroupIndex | -1, readonly Piece[]> => {
  const { tub, flats, folded, existing, joints } = of;
  const pieces = new Map<GroupIndex | -1, Piece[]>();
  const add = (body: GroupIndex | -1, more: readonly Piece[]): void => {
    const known = pieces.get(body);
    if (known) known.push(...more);
    else pieces.set(body, [...more]);
  };
  folded.forEach((part, i) => {
    const own = part && piecesOfPart(part)(flats[i] ?? NO_FLAT);
    const face = own?.[0]?.face;
    if (own && face !== undefined) add(bodyOf(tub, face), own);
  });
  for (const slab of existing) {
    const own = piecesOfPart(slab)(NO_FLAT);
    if (own[0]?.face !== undefined) add(bodyOf(tub, own[0].face), own);
  }
  for (const [thing, { group, mesh }] of (tub.things ?? []).entries())
    add(
      group,
      bodiesOfThing(mesh).map((body) => ({ body, face: undefined, thing })),
    );
  for (const { runs } of joints.seams) {
    for (const legs of runs.flatMap((run) => legsOf(tub, run))) {
      if (legs.row.tabs.on !== 'loose') continue;
      const [face] = legs.faces;
      add(
        bodyOf(tub, face),
        legs.each().map((body) => ({ body, face })),
      );
    }
  }
  for (const { face, body } of lipBodiesOf(tub, of.shape))
    add(
      bodyOf(tub, face),
      bodiesOf(body).map((each) => ({ body: each, face })),
    );
  for (const frame of joints.frames)
    add(
      bodyOf(tub, frame.face),
      bodiesOf(frameBodyOf(tub, of.shape, frame)).map((body) => ({ body, face: frame.face })),
    );
  for (const fastener of seamFastenersOf(tub, joints)) {
    const [one, other] = fastener.faces.map((face) => bodyOf(tub, face));
    const [face] = fastener.faces;
    if (one === other)
      add(
        one,
        metalOfFastener(fastener).map(({ body }) => ({ body, face, holds: fastener.faces })),
      );
  }
  return pieces;
};

const NO_FLAT: Pick<FlatPattern, 'bends' | 'panels'> = { bends: [], panels: [] };

/** Plates, then rolls. What has no face of its own (a tab, the lip of a hem) is of the panel from which it is turned. */
const piecesOfPart = memoBy((folded: FoldedPart) =>
  memoBy(({ bends, panels }: Pick<FlatPattern, 'bends' | 'panels'>): readonly Piece[] => {
    const parentOf = new Map(bends.map(({ child, parent }) => [child, parent]));
    const faceOf = (panel: number | undefined): FaceIndex | undefined =>
      panel === undefined ? undefined : (panels[panel]?.face ?? faceOf(parentOf.get(panel)));
    const faces = [
      ...folded.plates.map(({ face, panel }) => face ?? faceOf(panel)),
      ...folded.rolls.map(({ bend }) => faceOf(bends[bend]?.child)),
    ];
    return bodiesOf(folded).map((body, i) => ({ body, face: faces[i] }));
  }),
);
