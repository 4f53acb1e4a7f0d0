/**
 * A stroke seen along the bend line at its end: the tools, the metal with the bends made so far, and the bend itself.
 * x: distance from the bend line towards the operator, y: height over the top of the die or the bed; mm.
 */
import type { FlatPattern } from '../fold/flat-pattern.js';
import type { Vec2 } from '../geometry/vec.js';
import type { Shop } from '../model/tub.js';
import { bodyOf, type Body } from '../making/plan/body.js';
import type { Convex } from '../geometry/convex.js';
import {
  clampedAgainstClamp,
  leafLegAgainstClamp,
  legAgainstDie,
  legAgainstPunch,
  type Motion,
  type StrokeGeometry,
} from '../making/plan/motion.js';
import { operationsOf, type Operation } from '../making/plan/operations.js';
import type { PlanStep } from '../making/plan/plan.js';
import { placeSide, silhouetteOf } from '../making/plan/side.js';
import { folderToolsOf, pressToolsOf, type Tool } from '../making/plan/tools.js';

export interface StrokeSection {
  readonly tools: readonly { readonly name: string; readonly outline: readonly Vec2[] }[];
  readonly metal: readonly (readonly Vec2[])[];
  /** The bend that the stroke makes. */
  readonly bend: readonly Vec2[];
}

/** Draws the strokes of one flat; its blocks are made once. */
export const sectionsOf = (
  flat: FlatPattern,
  shop: Shop,
): ((steps: readonly PlanStep[], index: number) => StrokeSection | undefined) => {
  const body = bodyOf(flat);
  const operations = operationsOf(flat);
  return (steps, index) => {
    const step = steps[index];
    const operation = operations.find(({ bends }) => bends.join() === step.bends.join());
    if (!operation) return undefined;
    const made = new Set(steps.slice(0, index).flatMap(({ bends }) => bends));
    const stroke: StrokeGeometry = {
      thickness: flat.thickness,
      radius: operation.radius,
      kFactor: operation.kFactor,
      allowance: operation.allowance,
      bendTo: step.setup.bendTo,
    };
    const sides = sidesOf(body, operation, step, made);
    return step.setup.machine.kind === 'press brake'
      ? pressSection(shop, step, stroke, sides)
      : folderSection(shop, step, stroke, sides);
  };
};

/** Silhouettes of the metal on both sides, each by its distance from the line. */
interface Sides {
  readonly front: readonly Convex[];
  readonly behind: readonly Convex[];
}

const sidesOf = (body: Body, operation: Operation, step: PlanStep, made: ReadonlySet<number>): Sides => {
  const back = operation.sides[0].roots.includes(step.behind) ? 0 : 1;
  const seen = (side: 0 | 1): readonly Convex[] =>
    placeSide(body, operation, side, (bend) => made.has(bend)).blocks.flatMap(
      (block) => silhouetteOf(block, -Infinity, Infinity)?.outline ?? [],
    );
  return { behind: seen(back), front: seen(back === 0 ? 1 : 0) };
};

const pressSection = (
  shop: Shop,
  { setup: { machine, die = 0 } }: PlanStep,
  stroke: StrokeGeometry,
  sides: Sides,
): StrokeSection => {
  const tools = pressToolsOf(shop.pressBrakes[machine.index], die, stroke.radius);
  const onDie = legAgainstDie(stroke, die);
  const [atDie, atPunch] = [placeAtEnd(onDie), placeAtEnd(legAgainstPunch(stroke))];
  const sunk = atDie[3] - atPunch[3];
  const raise = (outline: readonly Vec2[]): readonly Vec2[] => outline.map(([x, y]) => [x, y + sunk]);
  const outer = stroke.radius + stroke.thickness;
  const center = sunk + stroke.radius;
  return {
    tools: [
      ...[tools.die, tools.table].flatMap((tool) => outlinesOf(tool)),
      ...[tools.punch, tools.beam].flatMap((tool) =>
        outlinesOf(tool).map(({ name, outline }) => ({ name, outline: raise(outline) })),
      ),
    ],
    metal: [
      ...sides.front.map((outline) => moved(outline, atDie)),
      ...sides.behind.map((outline) => mirroredX(moved(outline, atDie))),
    ],
    bend: arc([0, center], stroke.radius, outer, -stroke.bendTo / 2, stroke.bendTo / 2),
  };
};

const folderSection = (
  shop: Shop,
  { setup: { machine } }: PlanStep,
  stroke: StrokeGeometry,
  sides: Sides,
): StrokeSection => {
  const tools = folderToolsOf(shop.foldingBrakes[machine.index], stroke.thickness, stroke.radius);
  const outer = stroke.radius + stroke.thickness;
  const [c, s] = [Math.cos(stroke.bendTo), Math.sin(stroke.bendTo)];
  const leaf = Float64Array.of(c, s, outer * s, outer - outer * c);
  return {
    tools: [
      ...[tools.clamp, tools.beam, tools.bed].flatMap((tool) => outlinesOf(tool)),
      ...tools.leaf.pieces.map((piece) => ({ name: tools.leaf.name, outline: moved(piece, leaf) })),
    ],
    metal: [
      ...sides.front.map((outline) => moved(outline, placeAtEnd(leafLegAgainstClamp(stroke)))),
      ...sides.behind.map((outline) => mirroredX(moved(outline, placeAtEnd(clampedAgainstClamp(stroke))))),
    ],
    bend: arc([0, outer], stroke.radius, outer, 0, stroke.bendTo),
  };
};

/** cos, sin and shift of a side at the end of the stroke. */
const placeAtEnd = (motion: Motion): Float64Array => {
  const place = new Float64Array(4);
  motion.at(motion.end, place);
  return place;
};

const moved = (outline: Convex, [c, s, dx, dy]: Float64Array): readonly Vec2[] => {
  const points: Vec2[] = [];
  for (let i = 0; i < outline.length; i += 2)
    points.push([c * outline[i] - s * outline[i + 1] + dx, s * outline[i] + c * outline[i + 1] + dy]);
  return points;
};

const mirroredX = (points: readonly Vec2[]): readonly Vec2[] => points.map(([x, y]): Vec2 => [-x, y]).reverse();

const pointsOf = (outline: Convex): readonly Vec2[] => moved(outline, Float64Array.of(1, 0, 0, 0));

/** A tool in its convex pieces; die and table are symmetric and given for both sides already. */
const outlinesOf = ({ name, pieces }: Tool): { readonly name: string; readonly outline: readonly Vec2[] }[] =>
  pieces.map((piece) => ({ name, outline: pointsOf(piece) }));

/** The bent zone: between two radii, by angles from straight down. */
const arc = ([x, y]: Vec2, inner: number, outer: number, from: number, to: number): readonly Vec2[] => {
  const steps = Math.max(2, Math.ceil((to - from) / 0.12));
  const at = (radius: number, i: number): Vec2 => {
    const angle = from + ((to - from) * i) / steps;
    return [x + radius * Math.sin(angle), y - radius * Math.cos(angle)];
  };
  const along = Array.from({ length: steps + 1 }, (_, i) => i);
  return [...along.map((i) => at(inner, i)), ...along.reverse().map((i) => at(outer, i))];
};
