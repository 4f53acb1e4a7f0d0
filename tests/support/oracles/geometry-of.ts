import { findParts } from '../../../src/analysis/fold/find-parts.js';
import type { FlatPattern, FoldedPart, Part } from '../../../src/analysis/fold/flat-pattern.js';
import { foldFlat } from '../../../src/analysis/fold/fold.js';
import { unfoldPart } from '../../../src/analysis/fold/unfold.js';
import type { Unfolded } from '../../../src/analysis/fold/unfolded.js';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import type { Shape } from '../../../src/analysis/shape/shape.js';

export interface Geometry {
  readonly tub: Tub;
  readonly shape: Shape;
  readonly parts: readonly Part[];
  readonly unfolded: readonly Unfolded[];
  readonly flats: readonly (FlatPattern | undefined)[];
  readonly folded: readonly (FoldedPart | undefined)[];
}

/** The geometry core alone, from a tub to its folded parts, without the stages of water, joints and making. */
export const geometryOf = (tub: Tub): Geometry => {
  const shape = buildShape(tub);
  const parts = findParts(tub, shape);
  const unfolded = parts.map((part) => unfoldPart(tub, shape, part));
  const flats = unfolded.map(({ flat }) => flat);
  return { tub, shape, parts, unfolded, flats, folded: flats.map((flat) => flat && foldFlat(flat)) };
};
