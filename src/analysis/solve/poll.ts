import { NO_MOVE } from '../geometry/tolerance.js';
import type { Unknown } from './problem.js';
import { placeOf, valuesAt, type Walk } from './sample.js';

/** Share of the range by which values are moved at first. */
const FIRST = 1 / 8;

/**
 * Moves the best point one value up or down at a time, by less and less until every value is moved by its smallest step; then
 * two together, one up and one down. Ends where none of these is better. Needs no slopes: it also goes along what jumps.
 */
export function* poll(walk: Walk, first = FIRST): Generator<void, void> {
  const { best, tries } = walk;
  const { unknowns } = tries.problem;
  const finest = unknowns.map(({ low, high, step }) => (step === undefined ? NO_MOVE : step / (high - low)));
  for (let size = first; best.merit && tries.left > 0;) {
    const moves = finest.map((least) => Math.max(size, least));
    const isFinest = moves.every((move, i) => move === finest[i]);
    const ways = isFinest ? [...alone(moves), ...together(moves)] : alone(moves);
    if (yield* improvedBy(walk, ways)) continue;
    if (isFinest) return;
    size /= 2;
  }
}

/** Follows the first way that is better as long as it stays better. */
function* improvedBy({ best, tries }: Walk, ways: readonly (readonly number[])[]): Generator<void, boolean> {
  const { unknowns } = tries.problem;
  for (const way of ways) {
    let gained = false;
    for (let length = 1; ; length *= 2) {
      const moved = movedBy(unknowns, best.merit!.point.values, way, length);
      if (!moved || !(yield* best.offer(yield* tries.at(moved)))) break;
      gained = true;
    }
    if (gained) return true;
  }
  return false;
}

/** Undefined where a value would leave its limits by more than its own move. */
const movedBy = (
  unknowns: readonly Unknown[],
  from: readonly number[],
  way: readonly number[],
  length: number,
): readonly number[] | undefined => {
  const place = placeOf(unknowns, from).map((each, i) => each + length * way[i]);
  return place.every((each, i) => each > -Math.abs(way[i]) - NO_MOVE && each < 1 + Math.abs(way[i]) + NO_MOVE)
    ? valuesAt(unknowns, place)
    : undefined;
};

const alone = (moves: readonly number[]): readonly (readonly number[])[] =>
  moves.flatMap((move, i) => [1, -1].map((way) => moves.map((_, k) => (k === i ? way * move : 0))));

const together = (moves: readonly number[]): readonly (readonly number[])[] =>
  moves.flatMap((move, i) =>
    moves
      .slice(i + 1)
      .flatMap((other, j) =>
        [1, -1].flatMap((way) =>
          [1, -1].map((side) => moves.map((_, k) => (k === i ? way * move : k === i + 1 + j ? side * other : 0))),
        ),
      ),
  );
