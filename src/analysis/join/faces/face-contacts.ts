import { heightOver, toPlane, toSpace } from '../../geometry/frame.js';
import { flattenContour } from '../../geometry/contour.js';
import { commonRegion, areaOfPiece, type RegionPiece, type Ring } from '../../geometry/region.js';
import { addScaled, angleBetween, dot, scale, type Vec2, type Vec3 } from '../../geometry/vec.js';
import { keepBy } from '../../cache/memo.js';
import { isSideKnown } from '../../fold/existing-slabs.js';
import { contourOfOpening } from '../../fold/lay-openings.js';
import { roleOf } from '../../model/around/roles.js';
import type { FaceJoint, Tub } from '../../model/tub.js';
import { LEAST_CONTACT, SAME_SURFACE } from '../../model/tolerance.js';
import type { Face, Shape } from '../../shape/shape.js';
import type { FastenerPlace } from '../fasteners/fastener-places.js';
import type { PlateReach } from '../seam/plate-reach.js';
import { bandsOf, rowOn, type FaceRow } from './face-rows.js';
import type { FaceContact } from './face-contact.js';

/** mm. Fineness with which round openings are left out of the contact. */
const OPENING_FINENESS = 0.05;

/** rad. Faces that lean farther from one another are not meant to lie on one another: 30 deg. */
const NO_CONTACT = Math.PI / 6;

/**
 * Of every face joint, the pairs of its panels that lie over one another. Holes are on both panels in the same places, square to
 * the first. Cost: O(n log n) in corners for each pair.
 */
export const faceContactsOf = (tub: Tub, shape: Shape, reach: PlateReach): readonly FaceContact[] =>
  (tub.faceJoints ?? []).flatMap((stated, joint) =>
    stated.members[0].panels.flatMap((first) =>
      stated.members[1].panels.flatMap((second) => {
        const faces = [shape.faces[first], shape.faces[second]] as const;
        if (first === second || faces.some((face) => !face?.usable || !hasKnownSides(tub, face.panel))) return [];
        return contactOf({ tub, reach, stated, joint }, faces) ?? [];
      }),
    ),
  );

/** Of what stands there already it may not be stated on which side of its face the metal lies: then nothing is judged of it. */
export const hasKnownSides = (tub: Tub, panel: number): boolean =>
  roleOf(tub, panel) !== 'existing' || isSideKnown(tub.panels[panel]);

interface Site {
  readonly tub: Tub;
  readonly reach: PlateReach;
  readonly stated: FaceJoint;
  readonly joint: number;
}

/** The same object while faces, sheets and joint are. */
const contactFor = keepBy<Face, FaceContact | undefined>();

const contactOf = (site: Site, [a, b]: readonly [Face, Face]): FaceContact | undefined => {
  const { tub, reach, stated, joint } = site;
  const regions = [a, b].map((face) => reach.regionOf(face.panel) ?? face.outline);
  const inputs = [stated, joint, b, sheetOf(tub, a), sheetOf(tub, b), regions.flat(2).join()];
  return contactFor(a, inputs, () => newContact(site, [a, b], regions));
};

const newContact = (
  { tub, stated, joint }: Site,
  [a, b]: readonly [Face, Face],
  regions: readonly Ring[],
): FaceContact | undefined => {
  const needs = stated.gasket * (1 - stated.pressed);
  const lean = angleBetween(a.frame.normal, b.frame.normal);
  const turned = Math.min(lean, Math.PI - lean);
  if (turned > NO_CONTACT) return undefined;
  const onto = (face: Face, ring: Ring): Ring => ring.map((point) => toPlane(a.frame, toSpace(face.frame, point)));
  const openings = [a, b].flatMap((face) =>
    face.openings.map((opening) => onto(face, flattenContour(contourOfOpening(opening), OPENING_FINENESS))),
  );
  const sharp = commonRegion(a.outline, onto(b, b.outline), []).flatMap(bandsOf);
  const pieces = commonRegion(onto(a, regions[0]), onto(b, regions[1]), openings)
    .flatMap((piece) => alongBands(piece, sharp))
    .filter((piece) => areaOfPiece(piece) > LEAST_CONTACT);
  if (pieces.length === 0) return undefined;
  const thicknesses = [sheetOf(tub, a).thickness, sheetOf(tub, b).thickness] as const;
  const corners = pieces.flatMap(({ outer }) => outer.map((point) => toSpace(a.frame, point)));
  const { isUp, apart } = nearerSide(a, b, thicknesses, corners, needs);
  const way = isUp ? a.frame.normal : scale(a.frame.normal, -1);
  const skin = isUp ? 0 : -thicknesses[0];
  const rows = pieces.map((piece) => stated.fasteners && rowOn(piece, stated.fasteners.every));
  const onSkin = (point: Vec2): Vec3 => addScaled(toSpace(a.frame, point), a.frame.normal, skin);
  const faces = [a.panel, b.panel] as const;
  const site: PlaceSite = { stated, faces, way, thicknesses, apart: Math.max(0, (apart[0] + apart[1]) / 2) };
  return {
    joint,
    faces,
    way,
    turned: turned > SAME_SURFACE ? turned : 0,
    apart,
    needs,
    bands: pieces.map((piece, i) => {
      const { width, length } = rows[i] ?? rowOn(piece, Infinity);
      return { corners: piece.outer.map(onSkin), width, length, share: rows[i]?.share };
    }),
    places: rows.flatMap((row) => (row ? placesOf(site, row, onSkin) : [])),
  };
};

/** Corners that are cut round do not tell where a band turns: those of the faces as drawn do. */
const alongBands = (piece: RegionPiece, bands: readonly RegionPiece[]): readonly RegionPiece[] =>
  piece.holes.length > 0 || bands.length < 2 || bands.some(({ holes }) => holes.length > 0)
    ? [piece]
    : bands.flatMap(({ outer }) => commonRegion(piece.outer, outer, []));

/** On which side of the first panel the other lies, and how far from skin to skin at the corners: the one nearer to what is asked. */
const nearerSide = (
  a: Face,
  b: Face,
  [ta, tb]: readonly [number, number],
  corners: readonly Vec3[],
  needs: number,
): { readonly isUp: boolean; readonly apart: readonly [number, number] } => {
  const isAlike = dot(a.frame.normal, b.frame.normal) > 0;
  // The other's wet skin lies that far above the first's; its dry one a thickness to its own back.
  const rise = corners.map((corner) => -heightOver(b.frame, corner) / dot(a.frame.normal, b.frame.normal));
  const [low, high] = isAlike ? [-tb, 0] : [0, tb];
  const spans = [rise.map((at) => at + low), rise.map((at) => -ta - (at + high))];
  const [up, down] = spans.map((span): readonly [number, number] => [Math.min(...span), Math.max(...span)]);
  const off = ([least, most]: readonly [number, number]): number => Math.abs((least + most) / 2 - needs);
  return off(up) <= off(down) ? { isUp: true, apart: up } : { isUp: false, apart: down };
};

interface PlaceSite {
  readonly stated: FaceJoint;
  readonly faces: FaceContact['faces'];
  readonly way: Vec3;
  readonly thicknesses: readonly [number, number];
  readonly apart: number;
}

/** From the back of the first panel: that is the sheet on which the other lies. */
const placesOf = (
  { stated, faces, way, thicknesses, apart }: PlaceSite,
  { places, share, width }: FaceRow,
  onSkin: (point: Vec2) => Vec3,
): readonly FastenerPlace[] =>
  places.map((place): FastenerPlace => {
    const at = onSkin(place);
    const point = addScaled(at, way, -thicknesses[0]);
    const { headsOn, nutsIn } = stated.fasteners!;
    return {
      point,
      normal: scale(way, -1),
      holes: [
        { face: faces[0], point: at, sheet: 'panel' },
        { face: faces[1], point: at, sheet: 'second' },
      ],
      leg: undefined,
      stack: thicknesses,
      second: 'below',
      apart,
      along: share / 2,
      across: width / 2,
      headsOnSecond: headsOn !== 0,
      nutIn: nutsIn === undefined ? undefined : nutsIn === 0 ? 'panel' : 'second',
    };
  });

const sheetOf = (tub: Tub, face: Face): Tub['sheets'][number] => tub.sheets[tub.panels[face.panel].sheet];
