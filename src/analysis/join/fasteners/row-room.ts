/** The room that rivets and screws of seams have: to edges and bends, and to one another. */
import { distance, type Vec3 } from '../../geometry/vec.js';
import type { Tub } from '../../model/tub.js';
import type { Joints } from '../joints.js';
import { edgeNeeds, holeOf, pitchNeeds } from './fastener-size.js';
import { seamFastenersOf, type SeamFastener } from '../seam-fasteners.js';

export interface RowRoom {
  readonly seam: number;
  readonly fastener: SeamFastener;
  /** From the middle of the hole to where the flat metal of the sheet ends, mm; negative: off it. */
  readonly has: number;
  readonly needs: number;
  readonly hole: number;
  /** The panel, or undefined for a tab or clip. */
  readonly face: number | undefined;
  readonly point: Vec3;
}

/** Of every sheet that every one goes through. Cost: O(n log n) in them. */
export const rowRoomsOf = (tub: Tub, joints: Joints): readonly RowRoom[] =>
  seamFastenersOf(tub, joints).flatMap((each): RowRoom[] => {
    const { place, fastener } = each;
    const roomOf = (has: number, face: number | undefined, isSecond: boolean): RowRoom => {
      const isNut = place.nutIn === (isSecond ? 'second' : 'panel');
      const [needs, hole] = [edgeNeeds(fastener, isNut), holeOf(fastener, isNut)];
      return { seam: each.index, fastener: each, has, needs, hole, face, point: place.point };
    };
    const panels = place.holes.flatMap(({ face, point, sheet }) => {
      const has = joints.reach.roomAt(face, point);
      return has === undefined ? [] : [roomOf(has, face, sheet === 'second')];
    });
    if (!place.leg) return panels;
    return [...panels, roomOf(Math.min(place.along, place.across), undefined, true)];
  });

export interface RowPitch {
  readonly seam: number;
  readonly fastener: SeamFastener;
  readonly has: number;
  readonly needs: number;
}

/** Neighbours in one lap, or on one leg. */
export const rowPitchesOf = (tub: Tub, joints: Joints): readonly RowPitch[] => {
  const all = seamFastenersOf(tub, joints);
  return all.slice(1).flatMap((each, i): RowPitch[] => {
    const before = all[i];
    const isOneRow =
      before.index === each.index &&
      before.place.leg?.centre === each.place.leg?.centre &&
      before.place.leg?.side === each.place.leg?.side &&
      before.faces.join() === each.faces.join();
    if (!isOneRow) return [];
    const has = distance(before.place.point, each.place.point);
    return [{ seam: each.index, has, needs: pitchNeeds(each.fastener), fastener: each }];
  });
};
