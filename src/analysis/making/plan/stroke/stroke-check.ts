/** Both sides of one stroke against one machine's tools, sides remembered. Lengths mm, angles rad. */
import type { FlatPattern } from '../../../fold/flat-pattern.js';
import type { Shop } from '../../../model/tub.js';
import type { Setup } from '../../bend-fit.js';
import { segmentsOf } from '../../fingers.js';
import {
  clampedAgainstClamp,
  clampedAgainstLeaf,
  leafLegAgainstClamp,
  leafLegAgainstLeaf,
  legAgainstDie,
  legAgainstPunch,
  raisedBy,
  type Motion,
  type StrokeGeometry,
} from '../metal/motion.js';
import type { Operation } from '../operations.js';
import { firstHit, roomFor, type Approach, type Room, type Slab, type ToolHit } from './side-check.js';
import type { SideView } from './side.js';
import { newTally, type Tally } from './tally.js';
import type { Placement } from './step.js';
import { strokeGeometry, toolShelf, type ToolShelf } from './step-setup.js';
import type { Tool } from './tools.js';

/** A side of a bend line in one state of its own bends; `key` names that state among all others. */
export interface KnownSide {
  readonly key: string;
  readonly shape: SideView;
  /** Lies towards the back gauge, or under the clamp. */
  readonly behind: boolean;
}

/** Metal that meets a tool which runs along the whole bed; else the room for punch or clamp fingers. */
export type SideVerdict = { readonly hit: ToolHit } | { readonly hit: undefined; readonly room: Room };

export interface StrokeChecker {
  readonly look: (setup: Setup, operation: Operation, side: KnownSide, at: OnBed) => SideVerdict;
  /** Room for fingers of this side alone, however far the bed goes. */
  readonly roomBesideWalls: (setup: Setup, operation: Operation, side: KnownSide) => Room;
  /** Seen along the whole line, does the side clear the open tools? Then it can be slid in from the end. */
  readonly slidesIn: (setup: Setup, operation: Operation, side: KnownSide) => boolean;
  readonly bedOf: (setup: Setup) => number;
  readonly segments: (setup: Setup) => readonly number[];
}

/** Where the bend line lies on the bed. */
export interface OnBed {
  readonly placement: Placement;
  /** How far the bed goes on beyond the bend at the end where it ends. */
  readonly over: number;
}

/** Stations that the machine's bed takes when the bend line lies there on it. */
const slabFor = (length: number, bed: number, { placement, over }: OnBed): Slab => {
  const spare = bed - length;
  const before = placement === 'middle' ? spare / 2 : placement === 'left end' ? over : spare - over;
  return { from: -before, to: length + spare - before };
};

/** What a checker knows: made once, and the verdicts so far by all that they depend on. */
interface Known {
  readonly flat: FlatPattern;
  readonly shop: Shop;
  readonly shelf: ToolShelf;
  readonly answers: Map<string, unknown>;
  readonly tally: Tally;
}

export const strokeChecker = (flat: FlatPattern, shop: Shop, tally: Tally = newTally()): StrokeChecker => {
  const known: Known = { flat, shop, shelf: toolShelf(shop, flat.thickness), answers: new Map(), tally };
  return {
    look: (setup, operation, side, at) => {
      const stroke = strokeAt(known, setup, operation, side, at);
      return setup.machine.kind === 'press brake' ? onPress(known, stroke) : onFolder(known, stroke);
    },
    roomBesideWalls: (setup, operation, side) => {
      const stroke = { ...strokeAt(known, setup, operation, side, MIDDLE), bed: EVERYWHERE };
      const beside = { ...stroke, key: `${stroke.key}|beside` };
      return setup.machine.kind === 'press brake' ? punchRoom(known, beside) : clampRoom(known, beside);
    },
    slidesIn: (setup, operation, side) => slidesIn(known, setup, operation, side),
    bedOf: (setup) => bedOf(known, setup),
    segments: (setup) => segmentsFor(known, setup),
  };
};

/** One side of a bend in one setup, where it lies on the bed; `key` names all of it but what the tools depend on. */
interface Stroke {
  readonly setup: Setup;
  readonly operation: Operation;
  readonly side: KnownSide;
  readonly bed: Slab;
  readonly key: string;
}

export const MIDDLE: OnBed = { placement: 'middle', over: 0 };

const strokeAt = (known: Known, setup: Setup, operation: Operation, side: KnownSide, at: OnBed): Stroke => {
  const bed = slabFor(operation.line.length, bedOf(known, setup), at);
  const key = `${side.key}|${setup.machine.kind}|${setup.machine.index}|${at.placement}|${at.over}`;
  return { setup, operation, side, bed, key };
};

const once = <T>(known: Known, key: string, answer: () => T): T => {
  if (known.answers.has(key)) return known.answers.get(key) as T;
  const made = answer();
  known.answers.set(key, made);
  return made;
};

const bedOf = ({ shop }: Known, { machine }: Setup): number =>
  machine.kind === 'press brake' ? shop.pressBrakes[machine.index].bed : shop.foldingBrakes[machine.index].width;

const segmentsFor = (known: Known, setup: Setup): readonly number[] => {
  const { machine } = setup;
  const { fingers } =
    machine.kind === 'press brake' ? known.shop.pressBrakes[machine.index] : known.shop.foldingBrakes[machine.index];
  return segmentsOf(fingers, bedOf(known, setup));
};

/** Fingers may stand out over the ends of the bend by the widest of them, as far as the bed goes. */
const fingerSlab = (known: Known, { setup, operation, bed }: Stroke): Slab => {
  const over = Math.max(...segmentsFor(known, setup));
  return { from: Math.max(bed.from, -over), to: Math.min(bed.to, operation.line.length + over) };
};

/** A tool as this side moves against it; one that was measured is held against level metal too. */
const approach = ({ tally }: Known, side: KnownSide, tool: Tool, motion: Motion, measured: unknown): Approach => ({
  tool,
  motion,
  behind: side.behind,
  skipLevel: measured === undefined,
  tally,
});

/** For what nothing of the sheet rests on by design. */
const ALL_METAL = 'all metal';

const onPress = (known: Known, stroke: Stroke): SideVerdict => {
  const { setup, operation, side, bed, key } = stroke;
  const brake = known.shop.pressBrakes[setup.machine.index];
  const die = setup.die!;
  const tools = known.shelf.press(setup.machine.index, die, operation.radius);
  const geometry = strokeGeometry(known.flat, operation, setup);
  // Unmeasured tools are the same seen from either side.
  const hand = (profile: unknown): string => (profile !== undefined && side.behind ? 'behind' : '');
  const lower = once(known, `${key}|${die}|${hand(brake.dieProfile)}`, () => {
    const motion = legAgainstDie(geometry, die);
    return (
      firstHit(side.shape, bed, approach(known, side, tools.die, motion, brake.dieProfile)) ??
      firstHit(side.shape, bed, approach(known, side, tools.table, motion, undefined))
    );
  });
  const upperKey = `${key}|${setup.bendTo}|${hand(brake.punchProfile)}`;
  const beam = approach(known, side, tools.beam, legAgainstPunch(geometry), ALL_METAL);
  const hit = lower ?? once(known, `${upperKey}|beam`, () => firstHit(side.shape, bed, beam));
  return hit ? { hit } : { hit, room: punchRoom(known, stroke) };
};

const punchRoom = (known: Known, stroke: Stroke): Room => {
  const { setup, operation, side, key } = stroke;
  const { punchProfile } = known.shop.pressBrakes[setup.machine.index];
  const { punch } = known.shelf.press(setup.machine.index, setup.die!, operation.radius);
  const motion = legAgainstPunch(strokeGeometry(known.flat, operation, setup));
  const hand = punchProfile !== undefined && side.behind ? 'behind' : '';
  return once(known, `${key}|${setup.bendTo}|${hand}|punch`, () =>
    roomOf(known, stroke, approach(known, side, punch, motion, punchProfile)),
  );
};

const onFolder = (known: Known, stroke: Stroke): SideVerdict => {
  const { setup, operation, side, bed, key } = stroke;
  const brake = known.shop.foldingBrakes[setup.machine.index];
  const tools = known.shelf.folder(setup.machine.index, operation.radius);
  const geometry = strokeGeometry(known.flat, operation, setup);
  const motion = againstClamp(side, geometry);
  const onLeaf = side.behind ? clampedAgainstLeaf(geometry) : leafLegAgainstLeaf(geometry);
  const handKey = `${key}|${side.behind ? 'clamped' : 'leaf'}`;
  const hit = once(
    known,
    `${handKey}|hit`,
    () =>
      firstHit(side.shape, bed, approach(known, side, tools.bed, motion, ALL_METAL)) ??
      firstHit(side.shape, bed, approach(known, side, tools.leaf, onLeaf, brake.leafProfile)) ??
      firstHit(side.shape, bed, approach(known, side, tools.beam, motion, ALL_METAL)),
  );
  return hit ? { hit } : { hit, room: clampRoom(known, stroke) };
};

const againstClamp = (side: KnownSide, geometry: StrokeGeometry): Motion =>
  side.behind ? clampedAgainstClamp(geometry) : leafLegAgainstClamp(geometry);

const clampRoom = (known: Known, stroke: Stroke): Room => {
  const { setup, operation, side, key } = stroke;
  const { clampProfile } = known.shop.foldingBrakes[setup.machine.index];
  const { clamp } = known.shelf.folder(setup.machine.index, operation.radius);
  const motion = againstClamp(side, strokeGeometry(known.flat, operation, setup));
  return once(known, `${key}|${side.behind ? 'clamped' : 'leaf'}|clamp`, () =>
    roomOf(known, stroke, approach(known, side, clamp, motion, clampProfile)),
  );
};

const roomOf = (known: Known, stroke: Stroke, tool: Approach): Room =>
  roomFor(stroke.side.shape, fingerSlab(known, stroke), stroke.operation.line.length / 2, tool);

const EVERYWHERE: Slab = { from: -Infinity, to: Infinity };

const slidesIn = (known: Known, setup: Setup, operation: Operation, side: KnownSide): boolean => {
  const { opening } = known.shop.pressBrakes[setup.machine.index];
  const tools = known.shelf.press(setup.machine.index, setup.die!, operation.radius);
  const clears = (tool: Tool, lift: number): boolean =>
    firstHit(side.shape, EVERYWHERE, approach(known, side, tool, raisedBy(lift), undefined)) === undefined;
  const key = `${side.key}|${setup.machine.index}|${setup.die}|${side.behind}|slide`;
  return once(
    known,
    key,
    () => clears(tools.punch, opening) && clears(tools.beam, opening) && clears(tools.die, 0) && clears(tools.table, 0),
  );
};
