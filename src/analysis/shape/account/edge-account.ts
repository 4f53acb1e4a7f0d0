/** The account of every edge: what each stretch is, found by geometry and not by names. */
import type { Face, FaceIndex, Shape, Stretch } from '../shape.js';
import { distance, type Vec3 } from '../../geometry/vec.js';
import { memoBy } from '../../cache/memo.js';
import { facesAlong } from '../feet.js';
import { findNearMisses, type NearMiss, type NearMisses } from './near-miss.js';

/**
 * What a stretch is.
 * `unjoined`: another panel's edge lies along it and nothing joins them. `near`: another edge runs close by without
 * touching. `uncovered`: the rest of its edge is joined and this length is not. `free`: nothing is near; the water's rim.
 */
export type EdgeUse = 'bend' | 'seam' | 'rim' | 'free' | 'unjoined' | 'near' | 'uncovered';

export interface EdgeEntry {
  readonly stretch: Stretch;
  readonly use: EdgeUse;
  readonly length: number;
  /** The panel on the other side: the first mate, or the one that is nearly met. */
  readonly other: FaceIndex | undefined;
  /** Set for `near`. */
  readonly miss: NearMiss | undefined;
}

export interface EdgeAccount {
  /** Every stretch of every usable face, in face, edge and stretch order. */
  readonly entries: readonly EdgeEntry[];
  /** Length in mm of each use; both sides of a joint count. */
  readonly lengths: Readonly<Record<EdgeUse, number>>;
}

/**
 * Says for every stretch of every usable face whether it is a bend, a seam, a rim, or open and in which way.
 *
 * A stretch that another face lies along and that no bend and no seam takes is `unjoined`, whatever else names it.
 * Cost: O(n log n) in stretches, through one spatial index for the near misses; once for each shape.
 */
export const accountEdges = memoBy((shape: Shape): EdgeAccount => {
  const misses = findNearMisses(shape);
  const entries = shape.faces.flatMap((face, i) => entriesOf(face, misses[i]));
  const lengths = { bend: 0, seam: 0, rim: 0, free: 0, unjoined: 0, near: 0, uncovered: 0 };
  for (const { use, length } of entries) lengths[use] += length;
  return { entries, lengths };
});

const entriesOf = (face: Face, misses: NearMisses): readonly EdgeEntry[] =>
  face.stretches.flatMap((list) => list.map((stretch) => entryOf(face, stretch, misses)));

const entryOf = (face: Face, stretch: Stretch, misses: NearMisses): EdgeEntry => {
  const miss = misses.get(stretch);
  const other = facesAlong(stretch)[0] ?? miss?.face;
  return { stretch, use: useOf(face, stretch, miss), length: distance(stretch.start, stretch.end), other, miss };
};

const useOf = (face: Face, stretch: Stretch, miss: NearMiss | undefined): EdgeUse => {
  if (stretch.bend !== undefined) return 'bend';
  if (stretch.seams.length > 0 || stretch.isLaid) return 'seam';
  if (stretch.mates.length > 0) return 'unjoined';
  if (stretch.rim !== undefined) return 'rim';
  if (miss) return 'near';
  return face.stretches[stretch.edge].some((s) => s.mates.length > 0) ? 'uncovered' : 'free';
};

/** The lower end of a stretch, and its height. */
export const lowEnd = (stretch: Pick<Stretch, 'start' | 'end'>): Vec3 =>
  stretch.start[2] <= stretch.end[2] ? stretch.start : stretch.end;
