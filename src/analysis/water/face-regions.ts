import { toSpace } from '../geometry/frame.js';
import { distance, dot, subtract, type Vec3 } from '../geometry/vec.js';
import type { Face, Shape, Stretch } from '../shape/shape.js';
import { SAME_POINT } from '../tolerance.js';
import { cutFace, type CutFace } from './cut-face.js';
import { areApart, openingOutlines, type OpeningOutline } from './opening-outline.js';

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

export const regionsOf = (face: Face): FaceRegions => {
  const openings = openingOutlines(face);
  return { openings, cut: areApart(openings, face.outline) ? undefined : cutFace(face.outline, openings) };
};

/** Per face, the places at which its edges are to be split: its own openings that reach them, and its neighbours'. */
export const stopsOnEdges = (
  { faces }: Shape,
  regions: readonly (FaceRegions | undefined)[],
): readonly (readonly EdgeStop[])[] => {
  const stops: EdgeStop[][] = faces.map(() => []);
  regions.forEach((own, i) => {
    for (const { edge, at } of own?.cut?.cuts ?? []) {
      const point = toSpace(faces[i].frame, at);
      stops[i].push({ edge, at: point });
      for (const stretch of faces[i].stretches[edge]) {
        if (!isOn(stretch, point)) continue;
        for (const mate of stretch.mates) stops[mate.face].push({ edge: mate.edge, at: point });
      }
    }
  });
  return stops;
};

/** The start of a stretch and the places on it where it is split, in its direction. */
export const pointsAlong = (stretch: Stretch, stops: readonly EdgeStop[]): readonly Vec3[] => {
  const inside = stops.filter(({ edge, at }) => edge === stretch.edge && isOn(stretch, at)).map(({ at }) => at);
  return [stretch.start, ...inside.sort((p, q) => distance(stretch.start, p) - distance(stretch.start, q))];
};

const isOn = ({ start, end }: Stretch, point: Vec3): boolean => {
  const length = distance(start, end);
  const along = dot(subtract(point, start), subtract(end, start)) / length;
  return along > SAME_POINT && along < length - SAME_POINT;
};
