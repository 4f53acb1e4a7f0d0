/** One bend against every machine of the shop: what each needs and lacks. Lengths mm, angles rad, forces N. */
import type { FoldingBrake, Metal, PressBrake, Shop } from '../model/tub.js';
import {
  airBendForce,
  airBendRadius,
  mildSteelThickness,
  openingRange,
  recommendedOpening,
  shortestFlangeOnDie,
  shortestFlangeOnFolder,
  tensileOf,
} from './air-bend.js';
import { SHORT_FLANGE } from '../model/tolerance.js';
import { marksWithinOf } from '../model/shop/default-shop.js';
import { overbendBand } from '../material/springback.js';
import { NOISE } from '../geometry/tolerance.js';

export interface BendTask {
  readonly metal: Metal;
  readonly thickness: number;
  /** Inside radius that the flat was developed with. */
  readonly radius: number;
  /** Deviation from flat. */
  readonly angle: number;
  /** From the first end to the last: what the machine has to be as long as. */
  readonly length: number;
  /** Metal that is bent: the length less the gaps between bends of one stroke. */
  readonly bent: number;
  /** Legs on both sides, outside, from the virtual sharp corner. */
  readonly flanges: readonly [number, number];
}

/** A machine of the shop: index into its list of that kind. */
export interface MachineRef {
  readonly kind: 'press brake' | 'folding brake';
  readonly index: number;
  readonly name: string;
}

export type ShortfallKind = 'length' | 'force' | 'capacity' | 'angle' | 'flange' | 'opening' | 'radius';

/** What keeps a machine from making the bend as drawn: the number it has and the one it needs, same unit. */
export interface Shortfall {
  readonly kind: ShortfallKind;
  readonly has: number;
  readonly needs: number;
  readonly better: 'more' | 'less';
}

/** One way to make one bend. */
export interface Setup {
  readonly machine: MachineRef;
  /** V opening; undefined on a folding brake. */
  readonly die: number | undefined;
  /** Inside radius that comes out. */
  readonly madeRadius: number;
  readonly radiusSource: string;
  /** Undefined on a folding brake. */
  readonly force: number | undefined;
  /** Share of the machine: force over its force, or loaded thickness over its capacity. */
  readonly load: number;
  readonly shortestFlange: number;
  /** Largest angle that the tools allow under load. */
  readonly reach: number;
  /** Angle under load: the least of the band that springback lies in. */
  readonly bendTo: number;
  /** The most of that band. */
  readonly bendToAtMost: number;
  /** The bend is closed flat afterwards: a hem. */
  readonly flatten: boolean;
  readonly shortfalls: readonly Shortfall[];
}

const DEGREE = Math.PI / 180;

/** rad. From here on a bend is turned back on itself: bent as far as the tools allow, then pressed flat. */
export const FLATTENED_FROM = 150 * DEGREE;
/** rad. A lip has to be bent this far before it can be pressed flat. Common practice, no source. */
const CLOSES_FROM = 120 * DEGREE;
/** rad. No need to bend a lip further than this before pressing it flat. Common practice, no source. */
const LIP_ANGLE = 135 * DEGREE;

/** Every way the shop has to make the bend: those that lack nothing first, then by how little they lack. */
export const setupsFor = (task: BendTask, shop: Shop): readonly Setup[] => {
  const pressed = shop.pressBrakes.flatMap((brake, index) =>
    brake.dies.map((die) => onPressBrake(task, brake, index, die, shop)),
  );
  const folded = shop.foldingBrakes.map((brake, index) => onFoldingBrake(task, brake, index));
  return [...pressed, ...folded]
    .map((setup, i) => ({ setup, i }))
    .sort((a, b) => compare(a, b, task))
    .map(({ setup }) => setup);
};

/** How bad a shortfall is: a bend that cannot be made, before one that comes out a little different. */
const weightOf = ({ kind }: Shortfall): number => (kind === 'radius' ? 1 : kind === 'opening' ? 2 : 100);

interface Ranked {
  readonly setup: Setup;
  readonly i: number;
}

const compare = (a: Ranked, b: Ranked, task: BendTask): number => {
  const lack = ({ setup }: Ranked): number => setup.shortfalls.reduce((sum, shortfall) => sum + weightOf(shortfall), 0);
  const radiusOff = ({ setup }: Ranked): number => Math.abs(setup.madeRadius - task.radius);
  const openingOff = ({ setup }: Ranked): number =>
    setup.die === undefined ? 0 : Math.abs(Math.log(setup.die / recommendedOpening(task.thickness)));
  return (
    lack(a) - lack(b) ||
    kindOrder(a.setup) - kindOrder(b.setup) ||
    a.setup.machine.index - b.setup.machine.index ||
    radiusOff(a) - radiusOff(b) ||
    openingOff(a) - openingOff(b) ||
    a.i - b.i
  );
};

const kindOrder = (setup: Setup): number => (setup.machine.kind === 'press brake' ? 0 : 1);

const onPressBrake = (task: BendTask, brake: PressBrake, index: number, die: number, shop: Shop): Setup => {
  const reach = Math.PI - brake.nose;
  const { value: madeRadius, source } = airBendRadius(task.metal, die, brake.punchRadius);
  const { bendTo, bendToAtMost, flatten } = strokeOf(task, madeRadius, reach, die);
  const shortestFlange = shortestFlangeOnDie(die, Math.min(bendTo, reach));
  const force = airBendForce({
    tensileMPa: tensileOf(task.metal),
    thickness: task.thickness,
    length: task.bent,
    opening: die,
  });
  const [least, most] = openingRange(task.thickness);
  const shift = legShift(task, madeRadius);
  return {
    machine: { kind: 'press brake', index, name: brake.name },
    die,
    madeRadius,
    radiusSource: source,
    force,
    load: force / brake.forceN,
    shortestFlange,
    reach,
    bendTo,
    bendToAtMost,
    flatten,
    shortfalls: lacking(
      atMost('length', task.length, brake.bed),
      atMost('force', force, brake.forceN),
      angleShortfall(task, bendTo, reach),
      flangeShortfall(Math.min(...task.flanges), shortestFlange),
      die < least ? atLeast('opening', die, least) : atMost('opening', die, most),
      atMost('radius', shift, marksWithinOf(shop)),
    ),
  };
};

const onFoldingBrake = (task: BendTask, brake: FoldingBrake, index: number): Setup => {
  const loaded = mildSteelThickness(task.metal, task.thickness);
  const { bendTo, bendToAtMost, flatten } = strokeOf(task, task.radius, brake.angleAtMost, undefined);
  const shortestFlange = shortestFlangeOnFolder(task.thickness, task.radius);
  return {
    machine: { kind: 'folding brake', index, name: brake.name },
    die: undefined,
    madeRadius: task.radius,
    radiusSource: 'set by the nose and the setback of the clamp',
    force: undefined,
    load: loaded / brake.capacity,
    shortestFlange,
    reach: brake.angleAtMost,
    bendTo,
    bendToAtMost,
    flatten,
    shortfalls: lacking(
      atMost('length', task.length, brake.width),
      atMost('capacity', loaded, brake.capacity),
      angleShortfall(task, bendTo, brake.angleAtMost),
      flangeShortfall(Math.min(...task.flanges), shortestFlange),
    ),
  };
};

const strokeOf = (
  task: BendTask,
  radius: number,
  reach: number,
  opening: number | undefined,
): Pick<Setup, 'bendTo' | 'bendToAtMost' | 'flatten'> => {
  if (task.angle >= FLATTENED_FROM) {
    const bendTo = Math.min(reach, LIP_ANGLE);
    return { bendTo, bendToAtMost: bendTo, flatten: true };
  }
  const { least, most } = overbendBand({ ...task, radius, opening });
  return { bendTo: least, bendToAtMost: most, flatten: false };
};

const angleShortfall = (task: BendTask, bendTo: number, reach: number): Shortfall | undefined =>
  task.angle >= FLATTENED_FROM ? atLeast('angle', reach, CLOSES_FROM) : atMost('angle', bendTo, reach);

/**
 * How far a leg's end moves when the radius comes out as `made` instead of the one developed for: the change of the
 * bend deduction, `|dR| (2 tan(angle / 2) - angle)`. Derived. A hem is pressed flat whatever its radius was: 0.
 */
export const legShift = (task: Pick<BendTask, 'angle' | 'radius'>, made: number): number =>
  task.angle >= FLATTENED_FROM ? 0 : Math.abs(made - task.radius) * (2 * Math.tan(task.angle / 2) - task.angle);

/** Whether a leg is too short to be held, outside, from the virtual sharp corner: the one judgement of checks and plans. */
export const isFlangeShort = (has: number, shortest: number): boolean => has < shortest - SHORT_FLANGE;

const flangeShortfall = (has: number, needs: number): Shortfall | undefined =>
  isFlangeShort(has, needs) ? { kind: 'flange', has, needs, better: 'more' } : undefined;

const atMost = (kind: ShortfallKind, has: number, needs: number): Shortfall | undefined =>
  has > needs * (1 + NOISE) + NOISE ? { kind, has, needs, better: 'less' } : undefined;

const atLeast = (kind: ShortfallKind, has: number, needs: number): Shortfall | undefined =>
  has < needs * (1 - NOISE) - NOISE ? { kind, has, needs, better: 'more' } : undefined;

const lacking = (...checks: readonly (Shortfall | undefined)[]): readonly Shortfall[] =>
  checks.filter((check) => check !== undefined);
