/** All that takes room in a tub: panels, bends, hems, rows of clips and tabs, rivets and screws. */
import { memoBy } from '../../cache/memo.js';
import type { FlatPattern, FoldedPart } from '../../fold/flat-pattern.js';
import type { SeamFastener } from '../../join/seam-fasteners.js';
import type { RunJoint } from '../../join/seam-joint.js';
import type { ThingMesh, Tub } from '../../model/tub.js';
import type { StrainerFrame } from '../../join/fasteners/strainer-frame.js';
import type { FaceIndex, Shape } from '../../shape/shape.js';
import { frameBodyOf } from '../fitted/frame-bodies.js';
import { lipBodiesOf } from '../fitted/lip-bodies.js';
import { fastenerBodies } from '../bodies/fastener-bodies.js';
import { legsOf, type Legs } from '../bodies/fastened-legs.js';
import { bodiesOf, convexBodiesOf, type Body } from '../bodies/prisms.js';
import { bodiesOfThing } from '../bodies/thing-bodies.js';

/** A panel, a bend (index into `Shape.bends`), a hem (into `Tub.rims`), a thing of another file (into `Tub.things`), the lip or the strainer frame of an outlet (into `Tub.outlets`), or the clips, tabs, or rivets or screws of a seam (into `Tub.seams`). */
export type RoomTaker =
  | { readonly kind: 'panel'; readonly face: FaceIndex }
  | { readonly kind: 'bend'; readonly bend: number }
  | { readonly kind: 'hem'; readonly rim: number }
  | { readonly kind: 'thing'; readonly thing: number }
  | { readonly kind: 'lip'; readonly outlet: number }
  | { readonly kind: 'frame'; readonly outlet: number }
  | { readonly kind: 'clips' | 'tabs'; readonly seam: number }
  | { readonly kind: 'fasteners'; readonly seam: number; readonly fastener: SeamFastener };

/** One piece of it. */
export interface Metal {
  readonly taker: RoomTaker;
  /** The panel, those that the bend joins, that with the hem, or those that clips, tabs, rivets and screws hold. */
  readonly faces: readonly FaceIndex[];
  readonly body: Body;
  readonly legs: Legs | undefined;
}

/** Plates, bends and hems of a part as it is folded; `flat`: what it is folded from, none of a plain slab. */
export const metalOfPart = (folded: FoldedPart, flat: FlatPattern | undefined): readonly Metal[] =>
  metalsOf(folded)(flat ?? NO_FLAT);

const NO_FLAT: Pick<FlatPattern, 'bends' | 'panels'> = { bends: [], panels: [] };

const metalsOf = memoBy((folded: FoldedPart) =>
  memoBy(({ bends, panels }: Pick<FlatPattern, 'bends' | 'panels'>): readonly Metal[] => {
    const rimOf = new Map(bends.map(({ child, rim }) => [child, rim]));
    const faceOf = (panel: number): FaceIndex[] => {
      const face = panels[panel].face;
      return face === undefined ? [] : [face];
    };
    const pieces: readonly (Omit<Metal, 'body' | 'legs'> | undefined)[] = [
      ...folded.plates.map(({ face, panel }) => {
        if (face !== undefined) return { taker: { kind: 'panel' as const, face }, faces: [face] };
        const rim = rimOf.get(panel);
        const { parent } = bends.find(({ child }) => child === panel)!;
        return rim === undefined ? undefined : { taker: { kind: 'hem' as const, rim }, faces: faceOf(parent) };
      }),
      ...folded.rolls.map((roll) => {
        const { bend, rim, parent, child } = bends[roll.bend];
        const faces = [...faceOf(parent), ...faceOf(child)];
        if (rim !== undefined) return { taker: { kind: 'hem' as const, rim }, faces };
        return bend === undefined ? undefined : { taker: { kind: 'bend' as const, bend }, faces };
      }),
    ];
    const bodies = bodiesOf(folded);
    return pieces.flatMap((piece, i) => (piece ? [{ ...piece, body: bodies[i], legs: undefined }] : []));
  }),
);

/** A thing of another file, in bunches of its triangles. */
export const metalOfThing = (mesh: ThingMesh, thing: number): readonly Metal[] => metalsOfThing(mesh)(thing);

const metalsOfThing = memoBy((mesh: ThingMesh) => {
  const made = new Map<number, readonly Metal[]>();
  return (thing: number): readonly Metal[] => {
    const known = made.get(thing);
    if (known) return known;
    const metals = bodiesOfThing(mesh).map((body): Metal => ({
      taker: { kind: 'thing', thing },
      faces: [],
      body,
      legs: undefined,
    }));
    made.set(thing, metals);
    return metals;
  };
});

/** Lips and frames of outlets, where they sit. */
export const metalOfOutlets = (tub: Tub, shape: Shape, frames: readonly StrainerFrame[]): readonly Metal[] => [
  ...lipBodiesOf(tub, shape).flatMap(({ outlet, face, body }) => fittedMetal(body, { kind: 'lip', outlet }, face)),
  ...frames.flatMap((frame) =>
    fittedMetal(frameBodyOf(tub, shape, frame), { kind: 'frame', outlet: frame.outlet }, frame.face),
  ),
];

const fittedMetal = (folded: FoldedPart, taker: RoomTaker, face: FaceIndex): readonly Metal[] =>
  bodiesOf(folded).map((body) => ({ taker, faces: [face], body, legs: undefined }));

/** Clips and tabs of one run. */
export const metalOfRun = (tub: Tub, run: RunJoint): readonly Metal[] => legsOf(tub, run).map(metalOfLegs);

const metalOfLegs = memoBy((legs: Legs): Metal => ({
  taker: { kind: legs.row.tabs.on === 'loose' ? 'clips' : 'tabs', seam: legs.seam },
  faces: legs.faces,
  body: legs.band,
  legs,
}));

/** The pieces of a rivet or screw. */
export const metalOfFastener = memoBy((fastener: SeamFastener): readonly Metal[] =>
  fastenerBodies(fastener)
    .flatMap(convexBodiesOf)
    .map((body) => ({
      taker: { kind: 'fasteners', seam: fastener.index, fastener },
      faces: fastener.faces,
      body,
      legs: undefined,
    })),
);
