/** Room that must stay between things, and the room that does. */
import { keepBy } from '../../cache/memo.js';
import type { Part } from '../../fold/flat-pattern.js';
import { truenessOfMade } from '../../join/seam/seam-gap.js';
import type { Clear, GroupIndex, Tub } from '../../model/tub.js';
import type { Shape } from '../../shape/shape.js';
import type { Piece } from './body-pieces.js';
import { nearestOfBodies, type Nearness } from './clearance.js';
import { leastMoveOutOf } from './out-of-thing.js';
import type { Body } from '../bodies/prisms.js';
import { slackOf } from './slack.js';
import { worstOfPieces } from './worst-clearance.js';

export interface ClearOutcome {
  readonly clear: Clear;
  /** As drawn. */
  readonly nearest: Nearness;
  /** With every bend and mark off in the worst way. */
  readonly worst: Nearness;
}

/** In the order of the text. Cost: O(n log n) in plates, rolls and triangles of both, and the pairs that are near. */
export const clearOutcomesOf = (
  tub: Tub,
  shape: Shape,
  parts: readonly Part[],
  pieces: ReadonlyMap<GroupIndex | -1, readonly Piece[]>,
): readonly ClearOutcome[] => {
  const { clears = [] } = tub;
  if (clears.length === 0) return [];
  const trueness = truenessOfMade(tub, shape);
  const slack = slackOf(shape, parts, trueness);
  return clears.flatMap((clear): ClearOutcome[] => {
    const [own, theirs] = clear.bodies.map((body) => pieces.get(body) ?? []);
    // What stands beside the tub is the better key: several things may be kept clear of the tub.
    const key = (clear.bodies[0] === -1 ? theirs : own).at(0)?.body;
    const nearest = key && nearestKept(key, own, theirs, tub);
    if (!key || !nearest) return [];
    const inputs = [
      shape.faces,
      shape.bends,
      trueness.bends,
      trueness.marks,
      [...(trueness.read ?? [])].join(' '),
      theirs.length,
      ...bodiesIn(own, theirs),
    ];
    const worst = worstFor(key, inputs, () => worstOfPieces(own, theirs, slack, nearest));
    return [{ clear, nearest, worst }];
  });
};

const bodiesIn = (own: readonly Piece[], theirs: readonly Piece[]): readonly Body[] =>
  [...own, ...theirs].map(({ body }) => body);

const worstFor = keepBy<Body, Nearness>();

const nearestFor = keepBy<Body, { readonly of: Nearness | undefined }>();

/** The same object while all metal of both is. */
const nearestKept = (
  key: Body,
  own: readonly Piece[],
  theirs: readonly Piece[],
  { things = [] }: Tub,
): Nearness | undefined =>
  nearestFor(key, [theirs.length, ...bodiesIn(own, theirs)], () => {
    const nearest = nearestOfBodies(
      own.map(({ body }) => body),
      theirs.map(({ body }) => body),
    );
    if (!nearest || nearest.gap >= 0) return { of: nearest };
    const { gap, points, bodies } = nearest;
    const [thing] = [...own, ...theirs].flatMap((piece) => (bodies.includes(piece.body) ? (piece.thing ?? []) : []));
    const body = bodies.find((each) => each.thickness > 0);
    const isThing = thing !== undefined && body !== undefined;
    return { of: { gap: isThing ? -leastMoveOutOf(body, things[thing].mesh) : gap, points } };
  }).of;
