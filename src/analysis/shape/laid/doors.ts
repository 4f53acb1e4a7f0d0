/** Openings that another sheet lies over: a cover on a gasket, a door that comes out. */
import { memoBy } from '../../cache/memo.js';
import { heightOver, toPlane, toSpace } from '../../geometry/frame.js';
import { areaOfPiece, commonRegion, type Ring } from '../../geometry/region.js';
import { NO_AREA, SAME_HEADING } from '../../geometry/tolerance.js';
import { angleBetween, dot } from '../../geometry/vec.js';
import { FACES_APART } from '../../model/tolerance.js';
import { roleOf } from '../../model/around/roles.js';
import type { Tub } from '../../model/tub.js';
import { openingOutlines } from '../opening-outline.js';
import type { Face, FaceIndex } from '../shape.js';

export interface Door {
  readonly cover: FaceIndex;
  /** Index into `Tub.faceJoints`: what holds it there; undefined: it only lies there. */
  readonly joint: number | undefined;
}

/**
 * By opening, what lies over all of it: a face that a face joint lays on the opened one, or a face of what comes out that lies against
 * it. One on a gasket goes before one without. Cost: openings of a panel times faces that are laid on it or come out.
 */
export const doorsOf = (tub: Tub, faces: readonly Face[]): ReadonlyMap<number, Door> => doorsIn(faces)(tub);

const doorsIn = memoBy((faces: readonly Face[]) =>
  memoBy((tub: Tub): ReadonlyMap<number, Door> => {
    const found = new Map<number, Door>();
    const loose = tub.panels.flatMap((_, i) => (roleOf(tub, i) === 'removable' ? [i] : []));
    if (loose.length === 0 && !tub.faceJoints) return found;
    for (const face of faces.slice(0, tub.panels.length)) {
      if (!face.usable || face.openings.length === 0) continue;
      const covers: readonly Door[] = [
        ...laidOn(tub, face.panel),
        ...loose.map((cover) => ({ cover, joint: undefined })),
      ];
      for (const { opening, corners } of openingOutlines(face)) {
        const door = covers.find(
          (each) => each.cover !== face.panel && liesOver(tub, [face, faces[each.cover]], corners, each),
        );
        if (door) found.set(opening, door);
      }
    }
    return found;
  }),
);

/** What face joints lay on a panel; on a gasket first. */
const laidOn = ({ faceJoints = [] }: Tub, panel: FaceIndex): readonly Door[] => {
  const all = faceJoints.flatMap(({ members, gasket }, joint) =>
    [0, 1].flatMap((side) =>
      members[side].panels.includes(panel)
        ? members[1 - side].panels.map((cover) => ({ cover, joint, isSealed: gasket > 0 }))
        : [],
    ),
  );
  return [...all.filter(({ isSealed }) => isSealed), ...all.filter(({ isSealed }) => !isSealed)];
};

const liesOver = (tub: Tub, [face, cover]: readonly [Face, Face], opening: Ring, { joint }: Door): boolean => {
  if (cover.outline.length < 3) return false;
  const lean = angleBetween(face.frame.normal, cover.frame.normal);
  if (Math.min(lean, Math.PI - lean) > SAME_HEADING) return false;
  if (Math.abs(gapBetween(tub, face, cover) - neededBy(tub, joint)) > FACES_APART) return false;
  const onFace = (ring: Ring): Ring => ring.map((point) => toPlane(face.frame, toSpace(cover.frame, point)));
  const windows = openingOutlines(cover).map(({ corners }) => onFace(corners));
  const covered = commonRegion(opening, onFace(cover.outline), windows);
  const all = commonRegion(opening, opening, []);
  return Math.abs(areaOf(all) - areaOf(covered)) < NO_AREA;
};

/** mm. Between the skins of two sheets that are parallel. */
const gapBetween = (tub: Tub, face: Face, cover: Face): number => {
  const thick = ({ panel }: Face): number => tub.sheets[tub.panels[panel].sheet]?.thickness ?? 0;
  const at = heightOver(face.frame, toSpace(cover.frame, cover.outline[0]));
  const isAlike = dot(face.frame.normal, cover.frame.normal) > 0;
  const [low, high] = isAlike ? [at - thick(cover), at] : [at, at + thick(cover)];
  return Math.max(low, -thick(face) - high);
};

const neededBy = ({ faceJoints = [] }: Tub, joint: number | undefined): number =>
  joint === undefined ? 0 : faceJoints[joint].gasket * (1 - faceJoints[joint].pressed);

const areaOf = (pieces: ReturnType<typeof commonRegion>): number =>
  pieces.reduce((sum, piece) => sum + areaOfPiece(piece), 0);

/** Openings that a cover closes on a gasket. */
export const sealedOpenings = (tub: Tub, faces: readonly Face[]): ReadonlySet<number> =>
  new Set([...doorsOf(tub, faces)].flatMap(([opening, { joint }]) => (isGasketed(tub, joint) ? [opening] : [])));

const isGasketed = ({ faceJoints = [] }: Tub, joint: number | undefined): joint is number =>
  joint !== undefined && faceJoints[joint].gasket > 0;
