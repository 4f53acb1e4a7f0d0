import { memo } from '../cache/memo.js';
import type { FlatPattern, FoldedPart, Part } from '../fold/flat-pattern.js';
import type { Joints } from '../join/joints.js';
import type { GroupIndex, Tub } from '../model/tub.js';
import type { Shape } from '../shape/shape.js';
import { piecesByBody, type Piece } from '../solid/room/body-pieces.js';
import { fittedOf, type Fitted } from '../solid/fitted/fitted.js';
import { clearOutcomesOf, type ClearOutcome } from '../solid/room/clear-outcomes.js';
import { mountingsOf, type Mounting } from '../solid/mountings.js';
import { waysOfTub } from '../solid/ways/ways-of-tub.js';
import { slackOf } from '../solid/room/slack.js';
import { truenessOfMade } from '../join/seam/seam-gap.js';
import { playsOf, type PlayOutcome } from '../solid/ways/play.js';
import type { WayOut } from '../solid/ways/ways-out.js';
import { straightMovesOf, type PlacedStep } from '../solid/ways/straight-moves.js';

/** How the things that a tub stands among keep off one another; each worked out when first asked for. */
export interface Surroundings {
  /** The parts in the order in which they go together, each with a straight move that nothing is in the way of. Not while typing. */
  readonly assembly: () => readonly PlacedStep[];
  /** All metal by the body that it is of; -1: of the tub with its parts. */
  readonly pieces: () => ReadonlyMap<GroupIndex | -1, readonly Piece[]>;
  /** Loose clips, frames of strainers and lips of outlets, where they sit. */
  readonly fitted: () => readonly Fitted[];
  /** How near things come that are stated to stay clear; none of what has no metal. */
  readonly clears: () => readonly ClearOutcome[];
  /** Where the tub is fastened to, hangs on or goes through what stands there already. */
  readonly mountings: () => readonly Mounting[];
  /** How removable things, and what is screwed on, come out past all that stays. */
  readonly waysOut: () => readonly WayOut[];
  /** How far removable things can be pushed to each side in their seats, where that is stated. */
  readonly plays: () => readonly PlayOutcome[];
}

export interface Made {
  readonly tub: Tub;
  readonly shape: () => Shape;
  readonly parts: () => readonly Part[];
  readonly flats: () => readonly (FlatPattern | undefined)[];
  readonly folded: () => readonly (FoldedPart | undefined)[];
  readonly existing: () => readonly FoldedPart[];
  readonly joints: () => Joints;
}

export const surroundingsOf = ({ tub, shape, parts, flats, folded, existing, joints }: Made): Surroundings => {
  const pieces = memo(() =>
    piecesByBody({ tub, flats: flats(), folded: folded(), existing: existing(), joints: joints(), shape: shape() }),
  );
  const fitted = memo(() => fittedOf(tub, shape(), joints()));
  return {
    fitted,
    assembly: memo(() => straightMovesOf(shape(), parts(), joints(), folded())),
    pieces,
    plays: memo(() => playsOf(tub, shape(), pieces(), slackOf(shape(), parts(), truenessOfMade(tub, shape())))),
    waysOut: memo(() => waysOfTub({ tub, shape: shape(), parts: parts(), joints: joints(), pieces: pieces() })),
    clears: memo(() => clearOutcomesOf(tub, shape(), parts(), pieces())),
    mountings: memo(() =>
      mountingsOf({
        tub,
        shape: shape(),
        parts: parts(),
        flats: flats(),
        folded: folded(),
        contacts: joints().faces,
      }),
    ),
  };
};
