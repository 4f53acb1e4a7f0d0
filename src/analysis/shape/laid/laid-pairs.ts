/** Which faces lie on one another, as face joints say, and over what region. */
import { heightOver, toPlane, toSpace } from '../../geometry/frame.js';
import { areaOfPiece, commonRegion, type RegionPiece, type Ring } from '../../geometry/region.js';
import { addScaled, angleBetween, dot, type Vec3 } from '../../geometry/vec.js';
import { LEAST_CONTACT } from '../../model/tolerance.js';
import type { FaceJoint, Tub } from '../../model/tub.js';
import { NEARLY_MEETS } from '../account/near-miss.js';
import { openingOutlines } from '../opening-outline.js';
import type { Face } from '../shape.js';

/** A piece of contact between two faces; corners on their wet faces, however much metal lies between. */
export interface LaidPair {
  /** Index into `Tub.faceJoints`. */
  readonly joint: number;
  readonly faces: readonly [Face, Face];
  /** The side that each turns to the other. */
  readonly facing: readonly ['wet' | 'dry', 'wet' | 'dry'];
  /** In the first face's frame. */
  readonly piece: RegionPiece;
  /** From the first face's plane to the second's. */
  readonly onto: (point: Vec3) => Vec3;
}

/** rad. Faces that lean farther from one another are not meant to lie on one another: 30 deg. */
export const NO_CONTACT = Math.PI / 6;

/**
 * The pairs of usable faces that face joints lay on one another, to the sharp corners: what bends round off there is filled.
 * Faces farther apart than what was meant to meet do not lie on one another. Cost: O(n log n) in corners for each pair.
 */
export const laidPairsOf = (tub: Tub, faces: readonly Face[]): readonly LaidPair[] =>
  (tub.faceJoints ?? []).flatMap((stated, joint) =>
    stated.members[0].panels.flatMap((first) =>
      stated.members[1].panels.flatMap((second) => {
        const [a, b] = [faces[first], faces[second]];
        return first === second || !a?.usable || !b?.usable ? [] : pairsBetween(tub, { stated, joint }, [a, b]);
      }),
    ),
  );

const pairsBetween = (
  tub: Tub,
  { stated, joint }: { readonly stated: FaceJoint; readonly joint: number },
  [a, b]: readonly [Face, Face],
): readonly LaidPair[] => {
  const lean = angleBetween(a.frame.normal, b.frame.normal);
  if (Math.min(lean, Math.PI - lean) > NO_CONTACT) return [];
  const cosine = dot(a.frame.normal, b.frame.normal);
  const rise = (point: Vec3): number => -heightOver(b.frame, point) / cosine;
  const onto = (point: Vec3): Vec3 => addScaled(point, a.frame.normal, rise(point));
  const onA = (face: Face, ring: Ring): Ring => ring.map((point) => toPlane(a.frame, toSpace(face.frame, point)));
  const windows = [a, b].flatMap((face) => windowsIn(face).map((ring) => onA(face, ring)));
  return commonRegion(a.outline, onA(b, b.outline), windows)
    .filter((piece) => areaOfPiece(piece) > LEAST_CONTACT)
    .flatMap((piece): readonly LaidPair[] => {
      const rises = piece.outer.map((point) => rise(toSpace(a.frame, point)));
      const facing = facingOf(tub, [a, b], rises, stated.gasket * (1 - stated.pressed));
      return facing ? [{ joint, faces: [a, b], facing, piece, onto }] : [];
    });
};

/** What a screw or a bolt fills is covered; what is cut out is not. The same polygons as the liquid meets. */
const windowsIn = (face: Face): readonly Ring[] =>
  openingOutlines({ ...face, openings: face.openings.filter(({ use }) => use === 'cutout' || use === 'outlet') }).map(
    ({ corners }) => corners,
  );

/** Of the two ways in which the sheets can lie, the one in which their skins are nearer to where they are meant to be. */
const facingOf = (
  tub: Tub,
  [a, b]: readonly [Face, Face],
  rises: readonly number[],
  needs: number,
): LaidPair['facing'] | undefined => {
  const [ta, tb] = [a, b].map(({ panel }) => tub.sheets[tub.panels[panel].sheet]?.thickness ?? 0);
  const isAlike = dot(a.frame.normal, b.frame.normal) > 0;
  const ways = [
    { facing: ['wet', isAlike ? 'dry' : 'wet'], apart: rises.map((at) => at - (isAlike ? tb : 0)) },
    { facing: ['dry', isAlike ? 'wet' : 'dry'], apart: rises.map((at) => -at - ta - (isAlike ? 0 : tb)) },
  ] as const;
  const off = ways.map(({ apart }) => Math.max(...apart.map((each) => Math.abs(each - needs))));
  const best = off[0] <= off[1] ? 0 : 1;
  return off[best] <= NEARLY_MEETS ? ways[best].facing : undefined;
};

/** Outer ring and holes of the piece, each corner on both faces. */
export const ringsOf = ({ faces: [a], piece, onto }: LaidPair): readonly (readonly OnBoth[])[] =>
  [piece.outer, ...piece.holes].map((ring) =>
    ring.map((point) => {
      const at = toSpace(a.frame, point);
      return [at, onto(at)] as const;
    }),
  );

/** A place on the first face, and the one over it on the second. */
export type OnBoth = readonly [Vec3, Vec3];
