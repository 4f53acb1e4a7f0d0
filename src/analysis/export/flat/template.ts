/** 1:1 templates for what the tub is fastened to: its bolt pattern, and what has to be cut out for the tub to sit. */
import { Clipper, EndType, FillRule, JoinType, type PathsD } from 'clipper2-ts';
import type { FoldedPart } from '../../fold/flat-pattern.js';
import { flattenContour } from '../../geometry/contour.js';
import { heightOver, toPlane, toSpace, type Frame } from '../../geometry/frame.js';
import { levelAxes } from '../../geometry/level-axes.js';
import { addScaled, cross, distance, dot, scale, type Vec2, type Vec3 } from '../../geometry/vec.js';
import { contourOfOpening } from '../../fold/lay-openings.js';
import { holeOf } from '../../join/fasteners/fastener-size.js';
import { seamFastenersOf } from '../../join/seam-fasteners.js';
import { roleOf } from '../../model/roles.js';
import { fastenerHole } from '../../material/fastener-holes.js';
import type { Opening, Tub } from '../../model/tub.js';
import type { Face } from '../../shape/shape.js';
import type { Stages } from '../../stages/stages.js';
import { OFF_PLANE, SAME_SURFACE } from '../../model/tolerance.js';
import { meshOf } from '../../solid/mesh.js';
import { hemsOf, lyingOn, type Hem } from './hems-lying.js';

/**
 * Seen from the tub onto the surface that it is fastened to; mm, x level, y up (on a level surface: x right, y back).
 * A template lies on that surface with its print up.
 */
export interface Template {
  readonly name: string;
  /** Of what is fastened, on which the surface lies. */
  readonly side: MountingSide;
  /** On a thing that stands there: hung from below the tub keeps to one side of it, dropped in from above it goes through. */
  readonly hung?: 'from below' | 'from above' | undefined;
  /** Panels that lie on the surface, to their sharp corners. */
  readonly panels: readonly (readonly Vec2[])[];
  readonly bolts: readonly TemplateBolt[];
  readonly slots: readonly TemplateSlot[];
  /** What of the tub goes on beyond the surface, with room around it; counter-clockwise. */
  readonly cutOut: readonly (readonly Vec2[])[];
}

export type MountingSide = 'left' | 'right' | 'front' | 'back' | 'bottom' | 'top';

export interface TemplateBolt {
  readonly center: Vec2;
  /** To drill in the surface, mm. */
  readonly diameter: number;
  /** `M6`, for a fastener. */
  readonly thread: string | undefined;
}

export interface TemplateSlot {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly width: number;
}

/** mm. Room all round what goes through a cut-out, so that it drops in. Common practice, no source. */
export const CUT_OUT_ROOM = 2;

/** mm. Metal that stands beyond the surface by less lies on it. */
const BEYOND = 0.1;

/** One for each plane surface that is fastened through: with plain holes, screws, rivet nuts or slots. */
export const templatesOf = (stages: Stages): Template[] => {
  const { tub } = stages;
  const faces = stages.shape().faces.filter(({ usable }) => usable);
  const firsts: Face[] = [];
  for (const face of faces) {
    if (isFastened(tub, face) && !firsts.some((first) => isOnePlane(first, face))) firsts.push(face);
  }
  const folded = stages.folded().filter((part): part is FoldedPart => part !== undefined);
  const hems = hemsOf(stages);
  // A tub is fastened at a handful of surfaces, so each may look through all panels.
  const ofPanels = firsts.map((first) =>
    templateOf(
      tub,
      faces.filter((face) => isOnePlane(first, face)),
      folded,
      hems,
    ),
  );
  return [...ofPanels, ...existingTemplatesOf(stages, folded)];
};

/** One for each face of an existing thing that is bolted to: its holes, and what is to be cut into it. */
const existingTemplatesOf = (stages: Stages, folded: readonly FoldedPart[]): Template[] => {
  const { tub } = stages;
  const { faces } = stages.shape();
  const all = seamFastenersOf(tub, { seams: [], faces: stages.joints().faces });
  const bolted = new Set(
    stages.joints().faces.flatMap((contact) => contact.faces.filter((face) => roleOf(tub, face) === 'existing')),
  );
  return [...bolted].map((surface) => {
    const contacts = stages.joints().faces.filter((contact) => contact.faces.includes(surface));
    const others = contacts.map((contact) => faces[contact.faces.find((face) => face !== surface) ?? surface]);
    const face = faces[surface];
    const frame = surfaceFrame(face, 0);
    const place = (from: Frame) => (point: Vec2): Vec2 => toPlane(frame, toSpace(from, point)); // prettier-ignore
    const isBelow = heightOver({ ...face.frame, normal: [0, 0, 1] }, others[0].corners[0]) <= 0;
    const isLevel = Math.abs(face.frame.normal[2]) > Math.cos(SAME_SURFACE);
    const mouths = face.openings.map((opening) =>
      flattenContour(contourOfOpening(opening), CHORD_ERROR).map(place(face.frame)),
    );
    return {
      name: face.name,
      side: isLevel ? (isBelow ? 'top' : 'bottom') : sideOf(towards(face, others[0].corners[0])),
      hung: isLevel ? (isBelow ? 'from below' : 'from above') : undefined,
      panels: others.map((other) => other.outline.map(place(other.frame))),
      bolts: all
        .filter(({ faces: pair }) => pair.includes(surface))
        .map(({ fastener, place: { point, nutIn, holes } }) => ({
          center: toPlane(frame, point),
          diameter: holeOf(
            fastener,
            holes.some(({ face: of, sheet }) => of === surface && nutIn === sheet),
          ),
          thread: fastener.kind === 'screw' ? `M${fastener.size.thread}` : undefined,
        })),
      slots: [],
      cutOut: mouths.length > 0 ? mouths : cutOutOf(frame, folded),
    };
  });
};

/** Square out of the face, to the side on which the point lies. */
const towards = ({ frame }: Face, point: Vec3): Vec3 => scale(frame.normal, heightOver(frame, point) < 0 ? -1 : 1);

/** Seen from the tub onto a face, that much behind it; x level. */
const surfaceFrame = ({ frame: { origin, normal } }: Face, behind: number): Frame => {
  const { level, upright } = levelAxes(normal);
  const u = dot(cross(level, upright), normal) > 0 ? level : ([-level[0], -level[1], -level[2]] as Vec3);
  return { origin: addScaled(origin, normal, -behind), u, v: cross(normal, u), normal };
};

const isOnePlane = (a: Face, b: Face): boolean =>
  dot(a.frame.normal, b.frame.normal) > Math.cos(SAME_SURFACE) &&
  Math.abs(dot(a.frame.normal, b.frame.origin) - dot(a.frame.normal, a.frame.origin)) <= OFF_PLANE;

const isFastener = ({ use, fastener }: Opening): boolean => use === 'hole' || use === 'slot' || fastener !== undefined;

const isFastened = (tub: Tub, face: Face): boolean =>
  face.openings.some(({ opening }) => isFastener(tub.openings[opening]));

const templateOf = (
  tub: Tub,
  faces: readonly Face[],
  folded: readonly FoldedPart[],
  hems: readonly Hem[],
): Template => {
  const [first] = faces;
  const thickness = Math.max(...faces.map((face) => tub.sheets[tub.panels[face.panel].sheet].thickness));
  const frame = surfaceFrame(first, thickness);
  const place =
    (face: Face) =>
    (point: Vec2): Vec2 =>
      toPlane(frame, toSpace(face.frame, point));
  const openings = faces
    .flatMap((face) => face.openings.map((opening) => ({ ...opening, place: place(face) })))
    .filter(({ opening }) => isFastener(tub.openings[opening]));
  return {
    name: faces.map(({ name }) => name).join(', '),
    side: sideOf(first.frame.normal),
    panels: faces.map((face) => face.outline.map(place(face))),
    bolts: openings.flatMap(({ opening, shape, place: to }) => {
      if (shape.kind !== 'round') return [];
      const { fastener } = tub.openings[opening];
      // The other half of a rivet nut, or the hole under a screw, is a clearance hole for the same thread.
      const diameter = (fastener && fastenerHole('screw', fastener.thread)) ?? 2 * shape.radius;
      return [{ center: to(shape.center), diameter, thread: fastener && `M${fastener.thread}` }];
    }),
    slots: openings.flatMap(({ shape, place: to }) =>
      shape.kind === 'slot' ? [{ from: to(shape.from), to: to(shape.to), width: 2 * shape.radius }] : [],
    ),
    cutOut: cutOutOf(
      frame,
      folded,
      hems.filter((hem) => faces.some(({ panel }) => panel === hem.face)),
    ),
  };
};

/** By where the dry face looks most: the tub is fastened with that. */
const sideOf = (wet: Vec3): MountingSide => {
  const [x, y, z] = wet;
  const most = Math.max(Math.abs(x), Math.abs(y), Math.abs(z));
  if (Math.abs(z) === most) return z > 0 ? 'bottom' : 'top';
  if (Math.abs(y) === most) return y > 0 ? 'front' : 'back';
  return x > 0 ? 'left' : 'right';
};

/** Outline of all metal beyond the surface, projected straight onto it, with room around. */
const cutOutOf = (frame: Frame, folded: readonly FoldedPart[], lying: readonly Hem[] = []): Vec2[][] => {
  const isLying = lyingOn(frame, lying);
  const triangles: PathsD = [];
  for (const part of folded) {
    const { positions, triangles: indices } = meshOf(part, CHORD_ERROR);
    for (const triangle of indices) {
      const corners = triangle.map((i) => positions[i]);
      if (isLying(corners)) continue;
      const beyond = clipBeyond(frame, corners);
      if (beyond.length >= 3) triangles.push(beyond.map((point) => toPlane(frame, point)).map(([x, y]) => ({ x, y })));
    }
  }
  const facingUp = triangles.map((path) => (Clipper.areaD(path) < 0 ? path.reverse() : path));
  const shadow = Clipper.unionD(facingUp, [], FillRule.NonZero, PRECISION);
  const whole = shadow.filter((path) => Clipper.areaD(path) > 0);
  // Out and in again: what lies between two tabs is not worth sawing around.
  const bridged = Clipper.inflatePathsD(
    whole,
    CUT_OUT_ROOM + BAY / 2,
    JoinType.Round,
    EndType.Polygon,
    2,
    PRECISION,
    CHORD_ERROR,
  );
  return Clipper.inflatePathsD(bridged, -BAY / 2, JoinType.Round, EndType.Polygon, 2, PRECISION, CHORD_ERROR)
    .filter((path) => Clipper.areaD(path) > 0)
    .map((path) => path.map(({ x, y }): Vec2 => [x, y]));
};

const CHORD_ERROR = 0.05;
/** mm. Bays of the cut-out that are narrower are bridged: the pitch of tabs. */
const BAY = 80;
/** Decimals of a mm. */
const PRECISION = 3;

/** The part of a triangle that lies beyond the surface, away from the tub's wet side. */
const clipBeyond = (frame: Frame, corners: readonly Vec3[]): Vec3[] => {
  const depth = (point: Vec3): number => -(dot(frame.normal, point) - dot(frame.normal, frame.origin)) - BEYOND;
  return corners.flatMap((from, i): Vec3[] => {
    const to = corners[(i + 1) % corners.length];
    const [a, b] = [depth(from), depth(to)];
    const crossing =
      a > 0 !== b > 0 ? [addScaled(from, [to[0] - from[0], to[1] - from[1], to[2] - from[2]], a / (a - b))] : [];
    return [...(a > 0 ? [from] : []), ...crossing];
  });
};

/** Distance between two bolts, for a check by hand: the two that stand farthest apart; undefined with fewer than two. */
export const longestSpan = ({ bolts }: Template): number | undefined => {
  const spans = bolts.flatMap(({ center: a }, i) =>
    bolts.slice(i + 1).map(({ center: b }) => distance([...a, 0], [...b, 0])),
  );
  return spans.length === 0 ? undefined : Math.max(...spans);
};
