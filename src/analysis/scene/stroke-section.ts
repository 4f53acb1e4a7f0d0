/**
 * A stroke seen along the bend line, from the flat sheet to the angle under load: the tools, the metal with the bends made
 * so far, and the bend itself. x: distance from the bend line towards the operator, y: height over the top of the die or
 * the bed; mm.
 */
import { bentFlat } from '../fold/bent-flat.js';
import type { FlatPattern } from '../fold/flat-pattern.js';
import { gapBetween, type Convex } from '../geometry/hulls/convex.js';
import type { Vec2 } from '../geometry/vec.js';
import type { Shop } from '../model/tub.js';
import { bodyOf, type Body } from '../making/plan/metal/body.js';
import {
  clampedAgainstClamp,
  leafLegAgainstClamp,
  legAgainstDie,
  legAgainstPunch,
  type StrokeGeometry,
} from '../making/plan/metal/motion.js';
import { operationsOf, type Operation } from '../making/plan/operations.js';
import type { Blocked, PlanStep } from '../making/plan/plan.js';
import type { DrawnSide, DrawnTool } from './items/bend-items.js';
import type { DrawnMove } from './items/drawn-shapes.js';
import { partAtBrake, type PartAtBrake } from './part-at-brake.js';
import { placeSide, silhouetteOf } from '../making/plan/stroke/side.js';
import { folderToolsOf, pressToolsOf, type Tool, type ToolName } from '../making/plan/stroke/tools.js';
import { SAME_DIRECTION, SAME_POINT } from '../geometry/tolerance.js';

export interface StrokeSection {
  /** Angle of the bend in each state, rad, evenly from 0. */
  readonly angles: readonly number[];
  readonly tools: readonly (DrawnTool & { readonly name: ToolName })[];
  /** Both sides of the line; the one behind it is mirrored. */
  readonly sides: readonly DrawnSide[];
  /** The zone of the bend in each state: what is bent, and what still lies in the planes of the legs. */
  readonly bend: readonly (readonly (readonly Vec2[])[])[];
}

/** States from flat to made. */
const STATES = 8;

export interface Stroke {
  readonly section: StrokeSection;
  readonly part: PartAtBrake;
}

export interface Sections {
  readonly ofStep: (steps: readonly PlanStep[], index: number) => Stroke | undefined;
  /** Up to the angle at which metal meets a tool; undefined when something else is in the way. */
  readonly ofBlocked: (blocked: Blocked) => StrokeSection | undefined;
}

/** Draws the strokes of one flat; its blocks are made once. */
export const sectionsOf = (whole: FlatPattern, shop: Shop): Sections => {
  const flat = bentFlat(whole);
  const body = bodyOf(flat);
  const operations = operationsOf(flat);
  const before = operations.flatMap(({ bends, isMade }) => (isMade ? bends : []));
  const find = (bends: readonly number[]): Operation | undefined =>
    operations.find((operation) => operation.bends.join() === bends.join());
  const draw = (operation: Operation, at: At, made: ReadonlySet<number>): StrokeSection => {
    const { radius, kFactor, allowance } = operation;
    const stroke = { thickness: flat.thickness, radius, kFactor, allowance, bendTo: at.bendTo };
    const sides = sidesOf(body, operation, at.back, made);
    return at.machine.kind === 'press brake'
      ? pressSection(shop, at, stroke, sides)
      : folderSection(shop, at, stroke, sides);
  };
  return {
    ofStep: (steps, index) => {
      const { bends, behind, setup } = steps[index];
      const operation = find(bends);
      if (!operation) return undefined;
      const made = new Set([...before, ...steps.slice(0, index).flatMap((step) => step.bends)]);
      const back = operation.sides[0].roots.includes(behind) ? 0 : 1;
      return {
        section: draw(operation, { ...setup, back, until: setup.bendTo }, made),
        part: partAtBrake(body, operation, back, made),
      };
    },
    ofBlocked: ({ bends, made, machine, die, obstacle }) => {
      const operation = find(bends);
      if (!operation || !machine || obstacle.kind !== 'tool') return undefined;
      // A hair farther than the first touch, so that it is seen.
      const until = Math.min(operation.angle, obstacle.angle + TOUCH);
      const ways = ([0, 1] as const).map((back) =>
        draw(operation, { machine, die, bendTo: Math.max(operation.angle, until), back, until }, new Set(made)),
      );
      return ways.find((section) => touches(section, obstacle.tool));
    },
  };
};

/** rad. */
const TOUCH = 0.02;

interface At {
  readonly machine: PlanStep['setup']['machine'];
  readonly die: number | undefined;
  readonly bendTo: number;
  /** Which side of the operation lies behind the line. */
  readonly back: 0 | 1;
  /** Angle at which the drawing ends, rad. */
  readonly until: number;
}

/** Does metal reach into that tool at the end of what is drawn? */
const touches = (section: StrokeSection, name: ToolName): boolean => {
  const end = section.angles.length - 1;
  const metal = metalAt(section, end).map(toConvex);
  return toolsAt(section, end)
    .filter((tool) => tool.name === name)
    .some(({ outline }) => metal.some((piece) => gapBetween(toConvex(outline), piece) < 0));
};

const toConvex = (points: readonly Vec2[]): Convex => Float64Array.from(points.flat());

const metalAt = ({ sides }: StrokeSection, state: number): (readonly Vec2[])[] =>
  sides.flatMap(({ outlines, moves, mirrored }) =>
    outlines.map((outline) => {
      const points = outline.map((point) => movedBy(point, moves[state]));
      return mirrored ? points.map(([x, y]): Vec2 => [-x, y]).reverse() : points;
    }),
  );

const toolsAt = ({ tools }: StrokeSection, state: number): { name: ToolName; outline: readonly Vec2[] }[] =>
  tools.map(({ name, outline, moves }) => ({
    name,
    outline: moves ? outline.map((point) => movedBy(point, moves[state])) : outline,
  }));

/** Silhouettes of the metal on both sides, each by its distance from the line. */
interface Sides {
  readonly front: readonly (readonly Vec2[])[];
  readonly behind: readonly (readonly Vec2[])[];
}

const sidesOf = (body: Body, operation: Operation, back: 0 | 1, made: ReadonlySet<number>): Sides => {
  const seen = (side: 0 | 1): readonly (readonly Vec2[])[] =>
    placeSide(body, operation, side, (bend) => made.has(bend)).blocks.flatMap((block) => {
      const outline = silhouetteOf(block, -Infinity, Infinity)?.outline;
      return outline ? [pointsOf(outline)] : [];
    });
  return { behind: seen(back), front: seen(back === 0 ? 1 : 0) };
};

const pressSection = (
  shop: Shop,
  { machine, die = 0, until }: At,
  stroke: StrokeGeometry,
  { front, behind }: Sides,
): StrokeSection => {
  const { punch, beam, die: lower, table } = pressToolsOf(shop.pressBrakes[machine.index], die, stroke.radius);
  const [onDie, onPunch] = [legAgainstDie(stroke, die), legAgainstPunch(stroke)];
  const angles = evenly(until);
  const moves = angles.map((angle) => placeOf(onDie, angle / 2));
  const sunk = angles.map((angle, i) => moves[i][3] - placeOf(onPunch, angle / 2)[3]);
  const raised = sunk.map((y): DrawnMove => [1, 0, 0, y]);
  const neutral = stroke.radius + stroke.kFactor * stroke.thickness;
  return {
    angles,
    tools: [...outlinesOf(lower), ...outlinesOf(table), ...outlinesOf(punch, raised), ...outlinesOf(beam, raised)],
    sides: [
      { mirrored: false, outlines: front, moves },
      { mirrored: true, outlines: behind, moves },
    ],
    bend: angles.map((angle, i) => {
      const rest = strip((angle / 2) * neutral, stroke.allowance / 2, stroke.thickness, moves[i]);
      return [
        ...arc([0, sunk[i] + stroke.radius], stroke, -angle / 2, angle / 2),
        ...rest,
        ...rest.map((points) => points.map(([x, y]): Vec2 => [-x, y]).reverse()),
      ];
    }),
  };
};

const folderSection = (
  shop: Shop,
  { machine, until }: At,
  stroke: StrokeGeometry,
  { front, behind }: Sides,
): StrokeSection => {
  const { thickness, radius, allowance, kFactor } = stroke;
  const { clamp, beam, bed, leaf } = folderToolsOf(shop.foldingBrakes[machine.index], thickness, radius);
  const outer = radius + thickness;
  const angles = evenly(until);
  const turned = angles.map((angle): DrawnMove => {
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    return [c, s, outer * s, outer - outer * c];
  });
  const moves = angles.map((angle) => placeOf(leafLegAgainstClamp(stroke), angle));
  const still = angles.map((angle) => placeOf(clampedAgainstClamp(stroke), angle));
  return {
    angles,
    tools: [...outlinesOf(clamp), ...outlinesOf(beam), ...outlinesOf(bed), ...outlinesOf(leaf, turned)],
    sides: [
      { mirrored: false, outlines: front, moves },
      { mirrored: true, outlines: behind, moves: still },
    ],
    bend: angles.map((angle, i) => [
      ...arc([0, outer], stroke, 0, angle),
      ...strip(angle * (radius + kFactor * thickness) - allowance / 2, allowance / 2, thickness, moves[i]),
    ]),
  };
};

const evenly = (until: number): readonly number[] => Array.from({ length: STATES + 1 }, (_, i) => (until * i) / STATES);

const placeOf = (
  motion: { readonly at: (parameter: number, out: Float64Array) => void },
  parameter: number,
): DrawnMove => {
  const place = new Float64Array(4);
  motion.at(parameter, place);
  return [place[0], place[1], place[2], place[3]];
};

const movedBy = ([x, y]: Vec2, [c, s, dx, dy]: DrawnMove): Vec2 => [c * x - s * y + dx, s * x + c * y + dy];

const pointsOf = (outline: Convex): readonly Vec2[] =>
  Array.from({ length: outline.length / 2 }, (_, i): Vec2 => [outline[2 * i], outline[2 * i + 1]]);

/** A tool in its convex pieces; die and table are symmetric and given for both sides already. */
const outlinesOf = ({ name, pieces }: Tool, moves?: readonly DrawnMove[]): StrokeSection['tools'][number][] =>
  pieces.map((piece) => ({ name, outline: pointsOf(piece), moves }));

/** What of the zone is not bent yet, beside a leg. */
const strip = (from: number, to: number, thickness: number, move: DrawnMove): (readonly Vec2[])[] => {
  if (to - from < SAME_POINT) return [];
  const corners: readonly Vec2[] = [
    [from, 0],
    [to, 0],
    [to, thickness],
    [from, thickness],
  ];
  return [corners.map((corner) => movedBy(corner, move))];
};

/** What of the zone is bent: between two radii, by angles from straight down. Nothing when the sheet is flat. */
const arc = ([x, y]: Vec2, { radius, thickness }: StrokeGeometry, from: number, to: number): (readonly Vec2[])[] => {
  if (to - from < SAME_DIRECTION) return [];
  const steps = Math.max(2, Math.ceil((to - from) / 0.12));
  const at = (r: number, i: number): Vec2 => {
    const angle = from + ((to - from) * i) / steps;
    return [x + r * Math.sin(angle), y - r * Math.cos(angle)];
  };
  const along = Array.from({ length: steps + 1 }, (_, i) => i);
  const outer = radius + thickness;
  return [[...along.map((i) => at(radius, i)), ...[...along].reverse().map((i) => at(outer, i))]];
};

/** Left, bottom, right, top of the metal and of the tools near the line, over the whole stroke. */
export const boxOf = (section: StrokeSection): readonly [number, number, number, number] => {
  const points = section.angles.flatMap((_, state) => [
    ...metalAt(section, state).flat(),
    ...toolsAt(section, state)
      .filter(({ name }) => NEAR_TOOLS.includes(name))
      .flatMap(({ outline }) => outline),
  ]);
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
};

/** Not the whole depth of the machine. */
const NEAR_TOOLS: readonly ToolName[] = ['punch', 'die', 'clamp', 'leaf'];
