/** The ways in which a piece may be turned on the blank. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import { piecesOf } from '../geometry/contour.js';
import { distance2 } from '../geometry/vec.js';
import type { Sheet } from '../model/tub.js';
import { SAME_NEST_TURN } from '../model/tolerance.js';

const QUARTER = Math.PI / 2;
/** rad. Coarse steps between the turns that lay a long edge straight. */
const STEP = Math.PI / 6;
/** Share of an outline that has to run along or across one direction for it to be worth a turn. */
const WORTHWHILE = 0.3;
/** How many edge directions of a piece are tried. */
const EDGE_DIRECTIONS = 3;

/**
 * Turns to try, rad, the most promising first. The rolling direction of the blank is x: where the sheet states how its
 * grain lies to the bends, only the two turns that lay most of the bent length so are allowed.
 */
export const turnsOf = (flat: FlatPattern, sheet: Sheet): number[] => {
  const byGrain = grainTurns(flat, sheet);
  if (byGrain) return byGrain;
  const straight = edgeDirections(flat).flatMap((direction) =>
    [0, 1, 2, 3].map((k) => normalTurn(k * QUARTER - direction)),
  );
  const steps = Array.from({ length: Math.round((2 * Math.PI) / STEP) }, (_, i) => i * STEP);
  return distinct([...straight, ...steps]);
};

/** The turns that the grain allows, rad; undefined: any. */
export const grainTurns = (flat: FlatPattern, { grain }: Sheet): number[] | undefined => {
  const bend = mainBendDirection(flat);
  if (grain === 'any' || bend === undefined) return undefined;
  const turn = (grain === 'along bends' ? 0 : QUARTER) - bend;
  return [normalTurn(turn), normalTurn(turn + Math.PI)];
};

/** The few of these that are worth the most while pieces are moved closer: square to the blank, and with the main edge so. */
export const mainTurnsOf = (flat: FlatPattern, sheet: Sheet): number[] => {
  const byGrain = grainTurns(flat, sheet);
  if (byGrain) return byGrain;
  const quarters = [0, 1, 2, 3].map((k) => k * QUARTER);
  const square = squareDirection(flat);
  return square === undefined
    ? quarters
    : distinct([...quarters, ...quarters.map((quarter) => normalTurn(quarter - square))]);
};

/** Of the outline: the direction along or across which most of it runs, 0..90 deg; undefined when that is not much. */
const squareDirection = (flat: FlatPattern): number | undefined => {
  const sides = sidesOf(flat);
  const [main] = heaviest(sides, QUARTER);
  const whole = sides.reduce((sum, { length }) => sum + length, 0);
  return main && main.length > WORTHWHILE * whole ? main.direction : undefined;
};

/** Direction, 0..pi, along which the greatest length is bent; undefined without bends. */
export const mainBendDirection = (flat: FlatPattern): number | undefined =>
  heaviest(
    flat.bends.map(({ start, end }) => ({
      direction: Math.atan2(end[1] - start[1], end[0] - start[0]),
      length: distance2(start, end),
    })),
    Math.PI,
  ).map(({ direction }) => direction)[0];

const edgeDirections = (flat: FlatPattern): number[] =>
  heaviest(sidesOf(flat), Math.PI)
    .slice(0, EDGE_DIRECTIONS)
    .map(({ direction }) => direction);

interface Line {
  readonly direction: number;
  readonly length: number;
}

const sidesOf = (flat: FlatPattern): Line[] =>
  piecesOf(flat.outline)
    .filter(({ sweep }) => sweep === 0)
    .map(({ from, to }) => ({
      direction: Math.atan2(to[1] - from[1], to[0] - from[0]),
      length: distance2(from, to),
    }));

/** Directions within a period, the ones with the greatest sum of lengths first. */
const heaviest = (lines: readonly Line[], period: number): Line[] => {
  const groups: { direction: number; length: number }[] = [];
  for (const { direction, length } of lines) {
    const within = ((direction % period) + period) % period;
    const group = groups.find((g) => apart(g.direction, within, period) < SAME_NEST_TURN);
    if (group) group.length += length;
    else groups.push({ direction: within, length });
  }
  return groups.sort((a, b) => b.length - a.length || a.direction - b.direction);
};

const apart = (a: number, b: number, period: number): number => {
  const d = Math.abs(a - b) % period;
  return Math.min(d, period - d);
};

/** 0..2 pi. */
export const normalTurn = (turn: number): number => ((turn % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);

const distinct = (turns: readonly number[]): number[] =>
  turns.filter((turn, i) => turns.findIndex((other) => apart(other, turn, 2 * Math.PI) < SAME_NEST_TURN) === i);
