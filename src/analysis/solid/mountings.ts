/** Where the tub is fastened to, hangs on or goes through what stands there already. */
import { flattenContour } from '../geometry/contour.js';
import { heightOver, toPlane, toSpace, type Frame } from '../geometry/frame.js';
import { levelAxes } from '../geometry/level-axes.js';
import { distanceToSegment, isInside } from '../geometry/polygon.js';
import { areaOfPiece, commonRegion, insideOf, outsideOf, type Ring } from '../geometry/region.js';
import { addScaled, angleBetween, cross, dot, scale, type Vec2, type Vec3 } from '../geometry/vec.js';
import type { FlatPattern, FoldedPart, Part } from '../fold/flat-pattern.js';
import { isSideKnown } from '../fold/existing-slabs.js';
import { contourOfOpening } from '../fold/lay-openings.js';
import type { FaceContact } from '../join/faces/face-contact.js';
import { bodyOf, isMade, isWet, roleOf } from '../model/around/roles.js';
import { LEAST_CONTACT, SAME_SURFACE } from '../model/tolerance.js';
import type { Tub } from '../model/tub.js';
import type { Face, FaceIndex, FaceOpening, Shape } from '../shape/shape.js';
import { eachOnce, patternOf, rowsOn, takesFastener, type BoltPattern } from './bolt-pattern.js';
import { hemsOf, lyingOn } from './room/hems-lying.js';
import { shadowBeyond, SHADOW_CHORD, trianglesOf } from './shadow.js';

export interface Mounting extends BoltPattern {
  /** A panel of what stands there already. */
  readonly face: FaceIndex;
  /** On the skin that the tub keeps to: `normal` out of it towards the tub, `u` level. */
  readonly surface: Frame;
  /** Panels of the tub that lie on it, with a gasket between them or none. */
  readonly lying: readonly FaceIndex[];
  /** As stated. */
  readonly mouths: readonly Mouth[];
  /** What of the tub goes beyond the surface; none where no mouth is stated. */
  readonly through: readonly Through[];
}

export interface Mouth {
  /** Index into `Tub.openings`. */
  readonly opening: number;
  /** On the surface, counter-clockwise or not as it is stated. */
  readonly ring: Ring;
}

export interface Through {
  /** Index into the parts. */
  readonly part: number;
  /** mm. Least from its metal to the edge of the mouth, all along a straight way in; negative: it reaches so far past the edge. */
  readonly room: number;
  /** Where, on the surface. */
  readonly at: Vec3;
}

/** mm. A panel no farther than this from what stands there lies on it, with a gasket or washers between. Common practice, no source. */
const LIES_WITHIN = 10;

/** mm. Metal that reaches no farther past the edge of a mouth is round-off of its chords. */
const PAST = SHADOW_CHORD;

export interface MountingInput {
  readonly tub: Tub;
  readonly shape: Shape;
  readonly parts: readonly Part[];
  readonly flats: readonly (FlatPattern | undefined)[];
  readonly folded: readonly (FoldedPart | undefined)[];
  readonly contacts: readonly FaceContact[];
}

/**
 * One for each panel of an existing thing that the tub is fastened to, and for each with a mouth that the tub lies on, ends at or
 * goes through. Cost: existing panels by panels of the tub, and the corners of all metal for each that has a mouth.
 */
export const mountingsOf = (input: MountingInput): readonly Mounting[] =>
  input.shape.faces.flatMap((face) =>
    face.usable && roleOf(input.tub, face.panel) === 'existing' ? at(input, face) : [],
  );

const at = (input: MountingInput, face: Face): Mounting | [] => {
  const { tub, shape } = input;
  const bolted = input.contacts.flatMap(({ faces }) =>
    faces.includes(face.panel) ? [faces.find((each) => each !== face.panel)!] : [],
  );
  const lying = shape.faces.flatMap((other): Lying | [] =>
    other.usable && isMade(tub, other.panel) ? (lyingOf(tub, face, other, bolted.includes(other.panel)) ?? []) : [],
  );
  const cutOuts = face.openings.filter(({ use }) => use === 'cutout');
  const isFastened =
    bolted.length > 0 || [face, ...lying.map(({ face: of }) => of)].some((each) => hasFasteners(tub, each));
  if (lying.length > 0 ? !isFastened && cutOuts.length === 0 : cutOuts.length === 0) return [];
  const side = lying.length > 0 ? sideOfMost(lying) : sideAt(input, face, cutOuts);
  if (side === undefined) return [];
  const surface = surfaceOf(face, side > 0 ? 0 : thicknessOf(tub, face), side);
  const onto = (ring: Ring): Ring => ring.map((point) => toPlane(surface, toSpace(face.frame, point)));
  const mouths = cutOuts.map((opening) => ({ opening: opening.opening, ring: onto(ringOf(opening)) }));
  const panels = lying.filter((each) => each.side === side).map(({ face: { panel } }) => panel);
  const { bolts, slots } = patternOf(tub, surface, [...panels.map((panel) => shape.faces[panel]), face]);
  return {
    face: face.panel,
    surface,
    lying: panels,
    mouths,
    through: throughOf(input, { face, surface, panels, mouths }),
    bolts: eachOnce([...rowsOn(tub, surface, face.panel, input.contacts), ...bolts]),
    slots,
  };
};

const hasFasteners = (tub: Tub, face: Face): boolean =>
  face.openings.some(({ opening }) => takesFastener(tub.openings[opening]));

const ringOf = (opening: FaceOpening): Ring => flattenContour(contourOfOpening(opening), SHADOW_CHORD);

/** Behind the stated face; 0 where it is not known on which side of it the metal lies. */
const thicknessOf = (tub: Tub, { panel }: Face): number =>
  roleOf(tub, panel) === 'existing' && !isSideKnown(tub.panels[panel])
    ? 0
    : tub.sheets[tub.panels[panel].sheet].thickness;

interface Lying {
  readonly face: Face;
  /** 1: on the stated face, -1: on the back of its metal. */
  readonly side: 1 | -1;
  /** mm2, over one another. */
  readonly area: number;
}

/** Does a panel lie on the skin of another that stands there? One that is bolted to it does, however far off it is stated. */
const lyingOf = (tub: Tub, there: Face, made: Face, isBolted: boolean): Lying | undefined => {
  const lean = angleBetween(there.frame.normal, made.frame.normal);
  if (Math.min(lean, Math.PI - lean) > SAME_SURFACE) return undefined;
  const wet = heightOver(there.frame, made.frame.origin);
  const dry = wet - Math.sign(dot(there.frame.normal, made.frame.normal)) * thicknessOf(tub, made);
  const [low, high] = [Math.min(wet, dry), Math.max(wet, dry)];
  const thickness = thicknessOf(tub, there);
  const [over, under] = [low, -thickness - high];
  const apart = Math.max(over, under);
  // Sheet that was stated to lie in the other by no more than its own thickness is meant to lie on it.
  if (!isBolted && (apart > LIES_WITHIN || apart < low - high)) return undefined;
  const ring = made.outline.map((point) => toPlane(there.frame, toSpace(made.frame, point)));
  const area = commonRegion(there.outline, ring, []).reduce((sum, piece) => sum + areaOfPiece(piece), 0);
  return area > LEAST_CONTACT ? { face: made, side: over >= under ? 1 : -1, area } : undefined;
};

const sideOfMost = (lying: readonly Lying[]): 1 | -1 =>
  lying.reduce((sum, { side, area }) => sum + side * area, 0) >= 0 ? 1 : -1;

/** Of a mouth on whose panel nothing lies: on which side most of the tub is, where it comes to the mouth; undefined: nowhere near. */
const sideAt = (input: MountingInput, face: Face, cutOuts: readonly FaceOpening[]): 1 | -1 | undefined => {
  const boxes = cutOuts.map((opening) => boxOf(ringOf(opening)));
  const thickness = thicknessOf(input.tub, face);
  let isNear = false;
  let [sum, count] = [0, 0];
  for (const corners of partsOf(input).flatMap(({ folded }) => trianglesOf(folded))) {
    const heights = corners.map((point) => heightOver(face.frame, point) + thickness / 2);
    sum += heights[0] + heights[1] + heights[2];
    count += 3;
    const reach = thickness / 2 + LIES_WITHIN;
    if (isNear || Math.min(...heights) > reach || Math.max(...heights) < -reach) continue;
    const box = boxOf(corners.map((point) => toPlane(face.frame, point)));
    isNear = boxes.some((mouth) =>
      [0, 1].every((k) => box[k] < mouth[k + 2] + LIES_WITHIN && box[k + 2] > mouth[k] - LIES_WITHIN),
    );
  }
  if (!isNear) return undefined;
  return sum >= 0 || count === 0 ? 1 : -1;
};

type Box = readonly [number, number, number, number];

const boxOf = (ring: Ring): Box => {
  const of = (k: 0 | 1, pick: (...values: number[]) => number): number => pick(...ring.map((point) => point[k]));
  return [of(0, Math.min), of(1, Math.min), of(0, Math.max), of(1, Math.max)];
};

/** Seen from the tub onto the skin that lies that much behind the stated face. */
const surfaceOf = ({ frame: { origin, normal } }: Face, behind: number, side: 1 | -1): Frame =>
  levelFrame(addScaled(origin, normal, -behind), scale(normal, side));

/** A frame with `u` level and `v` up the face, or to the back on a level one. */
export const levelFrame = (origin: Vec3, normal: Vec3): Frame => {
  const { level, upright } = levelAxes(normal);
  const u = dot(cross(level, upright), normal) > 0 ? level : scale(level, -1);
  return { origin, u, v: cross(normal, u), normal };
};

/** Of the tub, or of those bodies. */
const partsOf = (
  { tub, parts, folded }: MountingInput,
  isMeant: (face: FaceIndex) => boolean = (face) => isWet(tub, face),
): readonly { readonly part: number; readonly folded: FoldedPart }[] =>
  parts.flatMap(({ faces }, part) => {
    const body = folded[part];
    return body && faces.some(isMeant) ? [{ part, folded: body }] : [];
  });

interface Site {
  readonly face: Face;
  readonly surface: Frame;
  readonly panels: readonly FaceIndex[];
  readonly mouths: readonly Mouth[];
}

/** Where panels lie on it their body is put in straight, so that all beyond goes through; else what stands in the sheet does. */
const throughOf = (input: MountingInput, { face, surface, panels, mouths }: Site): readonly Through[] => {
  if (mouths.length === 0) return [];
  const hems = hemsOf(input.folded, input.flats).filter((hem) => panels.includes(hem.face));
  const deep = panels.length > 0 ? undefined : thicknessOf(input.tub, face);
  const beyond = { frame: surface, deep, isLying: lyingOn(surface, hems) };
  const bodies = new Set(panels.map((panel) => bodyOf(input.tub, panel)));
  const isMeant = bodies.size > 0 ? (of: FaceIndex): boolean => bodies.has(bodyOf(input.tub, of)) : undefined;
  const openings = mouths.map(({ ring }) => ring);
  const sheet = face.outline.map((point) => toPlane(surface, toSpace(face.frame, point)));
  return partsOf(input, isMeant).flatMap(({ part, folded }): Through[] => {
    // What goes beyond beside the sheet is not in its way.
    const shadow = insideOf(shadowBeyond(beyond, [folded]), sheet);
    if (shadow.length === 0) return [];
    const { room, at: place } = roomIn(shadow, openings);
    return [{ part, room, at: toSpace(surface, place) }];
  });
};

/** Of a region in openings, mm, and where: negative is how far it reaches past their edges. */
const roomIn = (region: readonly Ring[], openings: readonly Ring[]): { readonly room: number; readonly at: Vec2 } => {
  const toEdges = (point: Vec2, rings: readonly Ring[]): number =>
    Math.min(
      ...rings.flatMap((ring) => ring.map((from, i) => distanceToSegment(point, from, ring[(i + 1) % ring.length]))),
    );
  const farthest = outsideOf(region, openings)
    .flat()
    .map((point) => ({ room: -toEdges(point, openings), at: point }))
    .reduce((most, each) => (each.room < most.room ? each : most), { room: 0, at: region[0][0] });
  if (farthest.room < -PAST) return farthest;
  return [
    ...region.flat().map((point) => ({ room: toEdges(point, openings), at: point })),
    ...openings.flat().map((point) => ({ room: toEdges(point, region), at: point })),
  ].reduce((least, each) => (each.room < least.room ? each : least));
};

/** Does a round on the surface lie in an open mouth, or run over its edge? */
export const isOverMouth = ({ mouths }: Mounting, center: Vec2, radius: number): boolean =>
  mouths.some(
    ({ ring }) =>
      isInside(center, ring) ||
      ring.some((from, i) => distanceToSegment(center, from, ring[(i + 1) % ring.length]) < radius),
  );
