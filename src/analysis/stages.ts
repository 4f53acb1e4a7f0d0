import { memo } from './memo.js';
import type { FlatPattern, FoldedPart, Part } from './fold/flat-pattern.js';
import { findParts } from './fold/find-parts.js';
import { foldFlat } from './fold/fold.js';
import { unfoldPart } from './fold/unfold.js';
import type { Unfolded } from './fold/unfolded.js';
import type { Tub } from './model.js';
import { buildShape } from './shape/build-shape.js';
import type { Shape } from './shape/shape.js';

/** What is known of one tub, each stage computed once, when first asked for. */
export interface Stages {
  readonly tub: Tub;
  readonly shape: () => Shape;
  readonly parts: () => readonly Part[];
  /** Per part: its flat pattern, or what keeps it from being laid flat; reliefs and placements. */
  readonly unfolded: () => readonly Unfolded[];
  /** `flats()[i]` belongs to `parts()[i]`; undefined where the part cannot be laid flat (a finding says why). */
  readonly flats: () => readonly (FlatPattern | undefined)[];
  readonly folded: () => readonly (FoldedPart | undefined)[];
}

export const createStages = (tub: Tub): Stages => {
  const shape = memo(() => buildShape(tub));
  const parts = memo(() => findParts(tub, shape()));
  const unfolded = memo(() => parts().map((part) => unfoldPart(tub, shape(), part)));
  const flats = memo(() => unfolded().map(({ flat }) => flat));
  const folded = memo(() => flats().map((flat) => flat && foldFlat(flat)));
  return { tub, shape, parts, unfolded, flats, folded };
};
