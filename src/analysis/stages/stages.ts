import { surroundingsOf, type Surroundings } from './surroundings.js';
import { asKnownShape, asKnownTub } from './known.js';
import { builtOf, type Built } from '../built/as-made.js';
import { memo, memoBy } from '../cache/memo.js';
import { inOneGo, memoSteps } from '../cache/memo-steps.js';
import type { FlatPattern, FoldedPart, Part } from '../fold/flat-pattern.js';
import { findParts } from '../fold/find-parts.js';
import { existingSlabs } from '../fold/existing-slabs.js';
import { foldFlat } from '../fold/fold.js';
import { asKnown } from '../fold/known-flats.js';
import { unfoldParts } from '../fold/known-unfolded.js';
import { makingOf, type Making } from '../making/making.js';
import type { Plan } from '../making/plan/plan.js';
import { plansInOneGo } from '../making/tub-plans.js';
import { allFastenersOf } from '../join/frame-fasteners.js';
import { withMade } from './with-made.js';
import { jointsOf, withAdditions, type Joints } from '../join/joints.js';
import { tabRemediesOf, type TabRemedy } from '../join/tabs/tab-remedies.js';
import { flatFaultsOfKind } from '../fold/flat-faults-of-kind.js';
import type { Unfolded } from '../fold/unfolded.js';
import { isMade } from '../model/around/roles.js';
import type { Tub } from '../model/tub.js';
import { wallBowsOf, type WallBow } from '../water/bow/wall-bow.js';
import { weekOf, type WeekCourse } from '../water/week/week.js';
import { fillTestOf, type FillTest } from '../seal/fill-test.js';
import { tubMassOf, type TubMass } from '../seal/tub-mass.js';
import { watertightOf, type SealInput, type Watertight } from '../seal/watertight.js';
import { fastenerBodies } from '../solid/bodies/fastener-bodies.js';
import { sharedRoomOf, type SharedRoom } from '../solid/room/shared-room.js';
import { shapeOf } from '../shape/build-shape.js';
import { snapTub, type Snap } from '../shape/contact/snap-corners.js';
import type { Shape } from '../shape/shape.js';
import { wetShapeOf } from '../shape/wet-shape.js';
import { waterOf, type Water } from '../water/water.js';

/** What is known of one tub, each stage computed once, when first asked for. */
export interface Stages extends Surroundings {
  /** As it is made, where something of it was read. Corners that were rounded by hand are where they are meant to be. */
  readonly tub: Tub;
  /** What was read of it, strip by strip. */
  readonly built: Built;
  /** The same tub as it was drawn; undefined where nothing of it was read, or nothing came out otherwise. */
  readonly planned: () => Stages | undefined;
  /** What was done to them, by panel and corner. */
  readonly snaps: readonly Snap[];
  readonly shape: () => Shape;
  /** The same as the liquid meets it: without supports, removable and existing things. */
  readonly wetShape: () => Shape;
  readonly parts: () => readonly Part[];
  /** Per part: its flat pattern, or what keeps it from being laid flat; reliefs and placements. */
  readonly unfolded: () => readonly Unfolded[];
  /** Every seam as it is joined: gaps, tabs and clips, spots, beads. */
  readonly joints: () => Joints;
  /** What frees tabs of a seam that have no room, each tried. */
  readonly tabRemedies: (seam: number) => readonly TabRemedy[];
  /** Flats that belong to no part, with their quantity: clips, strainer frames. */
  readonly loosePieces: () => readonly FlatPattern[];
  /** With tabs and marks. `flats()[i]` belongs to `parts()[i]`; undefined where the part cannot be laid flat (a finding says why). */
  readonly flats: () => readonly (FlatPattern | undefined)[];
  readonly folded: () => readonly (FoldedPart | undefined)[];
  /** Rivets and screws of the seams and of strainer frames, each as the bodies that it is. */
  readonly fasteners: () => readonly FoldedPart[];
  /** Existing things as slabs of sheet, one for each panel of which it is known on which side its metal lies. */
  readonly existing: () => readonly FoldedPart[];
  /** Metal that takes the same room. */
  readonly sharedRoom: () => readonly SharedRoom[];
  /** The account of all edges, and every leak. */
  readonly watertight: () => Watertight;
  /** Slopes, pools, basins, flows, outlets. */
  readonly water: () => Water;
  /** Flats that the liquid bends, the tub full. */
  readonly bows: () => readonly WallBow[];
  /** Every bend against the machines of the shop; bending orders are planned on demand (`plans`). */
  readonly making: () => Making;
  /** The bend plan of each part. Slow when a part is new (up to seconds): never asked for while typing; see `planTub`. */
  readonly plans: () => readonly (Plan | undefined)[];
  readonly mass: () => TubMass;
  /** How to fill the finished tub and look for drops; undefined where nothing holds water. */
  readonly fillTest: () => FillTest | undefined;
  /** Undefined where the text states no week. */
  readonly week: () => WeekCourse | undefined;
  /** Computes what the checks ask for, so that a keystroke can break it off between two steps. */
  readonly inSteps: () => Generator<void, void>;
}

const foldedOf = memoBy((flat: FlatPattern) => foldFlat(flat));

/** As it is cut, with what seams add to it, and its bends that are made. */
const flatWith =
  (tub: Tub, shape: Shape, { additions }: Joints) =>
  ({ flat }: Unfolded, part: number): FlatPattern | undefined =>
    flat && asKnown(withMade(tub, shape, withAdditions(flat, additions[part])));

export const createStages = (stated: Tub): Stages => {
  const built = builtOf(stated);
  const { tub, snaps } = snapTub(asKnownTub(built.tub));
  const shape = memoSteps(function* () {
    return asKnownShape(tub, yield* shapeOf(tub));
  });
  const parts = memo(() => findParts(tub, shape()));
  const unfolded = memoSteps(() => unfoldParts(tub, shape(), parts()));
  const joints = memoSteps(() => jointsOf(tub, shape(), parts(), unfolded()));
  const flats = memoSteps(() => eachInSteps(unfolded(), flatWith(tub, shape(), joints())));
  const folded = memoSteps(() => eachInSteps(flats(), (flat) => flat && foldedOf(flat)));
  const madeSheet = (): MadeSheet => ({ unfolded: unfolded(), flats: flats(), folded: folded() });
  const wetShape = memo(() => wetShapeOf(tub, shape()));
  const water = memo(() => waterOf(tub, wetShape()));
  const watertight = memoSteps(() =>
    watertightOf({ tub, shape: wetShape(), ...madeSheet(), joints: joints(), water: water() }),
  );
  const cut = (): readonly FlatPattern[] => [...flats().filter((flat) => flat !== undefined), ...joints().looseFlats];
  const making = memo(() => makingOf({ tub, flats: cut() }));
  const plans = memo(() => plansInOneGo(tub, flats()));
  const existing = memo(() => existingSlabs(tub, shape()));
  const sharedRoom = memoSteps(() => roomShared({ tub, shape: shape(), joints: joints(), ...madeSheet() }, existing()));
  const mass = memo(() => tubMassOf({ tub, shape: shape(), parts: parts(), ...madeSheet(), joints: joints() }));
  const filling = (): FillInput => ({ tub, water: water(), watertight: watertight(), joints: joints(), mass: mass() });
  return {
    tub,
    built,
    planned: memo(() => (built.isAsPlanned ? undefined : createStages(asPlanned(stated)))),
    snaps,
    shape,
    wetShape,
    parts,
    unfolded,
    joints,
    tabRemedies: tabRemediesIn({ tub, shape, parts, unfolded, joints }),
    loosePieces: () => joints().looseFlats,
    flats,
    folded,
    fasteners: memo(() => allFastenersOf(tub, shape(), joints()).flatMap(fastenerBodies)),
    existing,
    sharedRoom,
    ...surroundingsOf({ tub, shape, parts, flats, folded, existing, joints }),
    watertight,
    water,
    making,
    plans,
    mass,
    fillTest: memo(() => fillTestOf(filling())),
    bows: memo(() => wallBowsOf(tub, wetShape(), water())),
    week: memo(() => weekOf(tub, water())),
    inSteps: () =>
      inTurn(
        [shape, unfolded, joints, flats, folded, sharedRoom, { inSteps: () => water().inSteps() }, watertight],
        making,
      ),
  };
};

/** Joins the same parts once more for each change that is tried. */
const tabRemediesIn =
  ({ tub, shape, parts, unfolded, joints }: Pick<Stages, 'tub' | 'shape' | 'parts' | 'unfolded' | 'joints'>) =>
  (seam: number): readonly TabRemedy[] =>
    tabRemediesOf(
      {
        tub,
        seams: joints().seams,
        join: (changed) => inOneGo(jointsOf(changed, shape(), parts(), unfolded())).seams,
      },
      seam,
    );

function* inTurn(
  stages: readonly { readonly inSteps: () => Generator<void, unknown> }[],
  last: () => unknown,
): Generator<void, void> {
  for (const stage of stages) yield* stage.inSteps();
  last();
}

/** Under a name of its own, so that what is remembered of the one is not taken for the other. */
const asPlanned = ({ made: _, ...tub }: Tub): Tub => ({ ...tub, name: `${tub.name}, as planned` });

type FillInput = Parameters<typeof fillTestOf>[0];

type MadeSheet = Pick<SealInput, 'unfolded' | 'flats' | 'folded'>;

/** What stands there already may overlap with its like; of panels that lie over each other in one flat that is told. */
function* roomShared(
  { tub, shape, joints, unfolded, flats, folded }: Omit<SealInput, 'water'>,
  existing: readonly FoldedPart[],
): Generator<void, readonly SharedRoom[]> {
  const found = yield* sharedRoomOf({
    tub,
    shape,
    flats,
    folded: [...folded, ...existing],
    seams: joints.seams,
    faces: joints.faces,
    frames: joints.frames,
  });
  const laidOver = flatFaultsOfKind(unfolded, 'overlap').map(({ faces }) => faces);
  return found.filter(({ panels: [ones, others] }) => {
    if (ones.length === 0 || others.length === 0) return true;
    return (
      [...ones, ...others].some((face) => isMade(tub, face)) &&
      !laidOver.some(([a, b]) => (ones.includes(a) && others.includes(b)) || (ones.includes(b) && others.includes(a)))
    );
  });
}

function* eachInSteps<T, U>(items: readonly T[], make: (item: T, index: number) => U): Generator<void, readonly U[]> {
  const made: U[] = [];
  for (const item of items) {
    made.push(make(item, made.length));
    yield;
  }
  return made;
}
