import { toSpace } from '../../geometry/frame.js';
import { distance, dot, subtract, type Vec3 } from '../../geometry/vec.js';
import type { Face, FaceIndex, Shape, Stretch } from '../../shape/shape.js';
import { memoBy } from '../../cache/memo.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { cutFace, type CutFace } from './cut-face.js';
import { areApart, openingOutlines, type OpeningOutline } from '../../shape/opening-outline.js';

/** A face and its openings: as they are where all lie apart inside it, else cut out of each other. */
export interface FaceRegions {
  readonly openings: readonly OpeningOutline[];
  readonly cut: CutFace | undefined;
}

/** A place on an edge of a face where something that reaches the edge begins or ends. */
export interface EdgeStop {
  readonly edge: number;
  readonly at: Vec3;
}

export const regionsOf = memoBy((face: Face): FaceRegions => {
  const openings = openingOutlines(face);
  return { openings, cut: areApart(openings, face.outline) ? undefined : cutFace(face.outline, openings) };
});

const NONE: readonly EdgeStop[] = [];

/** Per face, the places at which its edges are to be split: its own openings that reach them, and its neighbours'. */
export const stopsOnEdges = ({ faces }: Shape): ((face: FaceIndex) => readonly EdgeStop[]) => {
  const stops = new Map<FaceIndex, EdgeStop[]>();
  const add = (face: FaceIndex, stop: EdgeStop): void => {
    const list = stops.get(face);
    if (list) list.push(stop);
    else stops.set(face, [stop]);
  };
  for (const face of faces) {
    if (!face.usable) continue;
    for (const { edge, at } of regionsOf(face).cut?.cuts ?? []) {
      const point = toSpace(face.frame, at);
      add(face.panel, { edge, at: point });
      for (const stretch of face.stretches[edge]) {
        if (!isOn(stretch, point)) continue;
        for (const mate of stretch.mates) add(mate.face, { edge: mate.edge, at: point });
      }
    }
  }
  return (face) => stops.get(face) ?? NONE;
};

/** The stretches of a face, split where something reaches its edges. */
export const splitSides = (face: Face, stops: readonly EdgeStop[]): readonly SplitSide[] =>
  face.stretches.flat().flatMap((stretch) => pointsAlong(stretch, stops).map((start) => ({ start, stretch })));

export interface SplitSide {
  readonly start: Vec3;
  readonly stretch: Stretch;
}

/** The start of a stretch and the places on it where it is split, in its direction. */
const pointsAlong = (stretch: Stretch, stops: readonly EdgeStop[]): readonly Vec3[] => {
  const inside = stops.filter(({ edge, at }) => edge === stretch.edge && isOn(stretch, at)).map(({ at }) => at);
  return [stretch.start, ...inside.sort((p, q) => distance(stretch.start, p) - distance(stretch.start, q))];
};

const isOn = ({ start, end }: Stretch, point: Vec3): boolean => {
  const length = distance(start, end);
  const along = dot(subtract(point, start), subtract(end, start)) / length;
  return along > SAME_POINT && along < length - SAME_POINT;
};
