/** The ways of all that has to come out of a tub again. */
import type { Part } from '../../fold/flat-pattern.js';
import type { Joints } from '../../join/joints.js';
import type { GroupIndex, Tub } from '../../model/tub.js';
import type { Shape } from '../../shape/shape.js';
import type { Piece } from '../room/body-pieces.js';
import { moversOf } from './movers.js';
import { waysOutOf, type WayOut } from './ways-out.js';

export interface Assembled {
  readonly tub: Tub;
  readonly shape: Shape;
  readonly parts: readonly Part[];
  readonly joints: Joints;
  readonly pieces: ReadonlyMap<GroupIndex | -1, readonly Piece[]>;
}

/** Removable things first, then what is screwed on. Screws that hold two things together are out before either moves. */
export const waysOfTub = ({ tub, shape, parts, joints, pieces }: Assembled): readonly WayOut[] => {
  const movers = moversOf(tub, parts, joints);
  if (movers.length === 0) return [];
  const moverOf = new Map(movers.flatMap(({ parts: own }, i) => own.map((part) => [part, i] as const)));
  const moverAt = (face: Piece['face']): number | undefined => {
    const part = face === undefined ? undefined : joints.paths.partOf(face);
    return part === undefined ? undefined : moverOf.get(part);
  };
  const own = movers.map((): Piece[] => []);
  const others: Piece[] = [];
  for (const piece of [...pieces.values()].flat()) {
    const [mover, other] = (piece.holds ?? [piece.face, piece.face]).map(moverAt);
    if (mover !== other) continue;
    (mover === undefined ? others : own[mover]).push(piece);
  }
  return waysOutOf(shape, movers, own, others);
};
