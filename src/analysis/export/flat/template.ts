/** 1:1 templates for what the tub is fastened to: its bolt pattern, and what has to be cut out for the tub to sit. */
import { memoBy } from '../../cache/memo.js';
import type { FoldedPart } from '../../fold/flat-pattern.js';
import { toPlane, toSpace, type Frame } from '../../geometry/frame.js';
import { signedArea } from '../../geometry/polygon.js';
import { inflateRound, type Ring } from '../../geometry/region.js';
import { addScaled, distance, dot, type Vec2, type Vec3 } from '../../geometry/vec.js';
import { roleOf } from '../../model/around/roles.js';
import { mountingRow, type MountingRow } from '../../report/joining/mountings.js';
import type { Tub } from '../../model/tub.js';
import type { Face } from '../../shape/shape.js';
import type { Stages } from '../../stages/stages.js';
import { OFF_PLANE, SAME_SURFACE } from '../../model/tolerance.js';
import { hemsOf, lyingOn, type Hem } from '../../solid/room/hems-lying.js';
import { patternOf, takesFastener, type BoltPattern } from '../../solid/bolt-pattern.js';
import { levelFrame, type Mounting } from '../../solid/mountings.js';
import { shadowBeyond, SHADOW_CHORD } from '../../solid/shadow.js';

/**
 * Seen from the tub onto the surface that it is fastened to; mm, x level, y up (on a level surface: x right, y back).
 * A template lies on that surface with its print up.
 */
export interface Template extends BoltPattern {
  readonly name: string;
  /** Of what is fastened, on which the surface lies. */
  readonly side: MountingSide;
  /** On a thing that stands there: hung from below the tub keeps to one side of it, dropped in from above it goes through. */
  readonly hung?: 'from below' | 'from above' | undefined;
  /** Panels that lie on the surface, to their sharp corners. */
  readonly panels: readonly (readonly Vec2[])[];
  /** The mouths as stated, or else what of the tub goes on beyond the surface, with room around it. */
  readonly cutOut: readonly Ring[];
  /** Where mouths are stated: what goes through them. */
  readonly mouth?: MountingRow | undefined;
}

export type MountingSide = 'left' | 'right' | 'front' | 'back' | 'bottom' | 'top';

/** mm. Room all round what goes through a cut-out, so that it drops in. Common practice, no source. */
export const CUT_OUT_ROOM = 2;

/** One for each plane surface that is fastened through, and for each mouth of what stands there already that the tub comes to. */
export const templatesOf = memoBy((stages: Stages): readonly Template[] => {
  const { tub } = stages;
  const mountings = stages.mountings();
  const lying = new Set(mountings.flatMap(({ lying: panels }) => panels));
  const faces = stages.shape().faces.filter((face) => face.usable && isHeldBy(tub, face) && !lying.has(face.panel));
  const firsts: Face[] = [];
  for (const face of faces) {
    if (isFastened(tub, face) && !firsts.some((first) => isOnePlane(first, face))) firsts.push(face);
  }
  const folded = stages.folded().filter((part): part is FoldedPart => part !== undefined);
  const hems = hemsOf(stages.folded(), stages.flats());
  // A tub is fastened at a handful of surfaces, so each may look through all panels.
  const ofPanels = firsts.map((first) =>
    templateOf(
      tub,
      faces.filter((face) => isOnePlane(first, face)),
      folded,
      hems,
    ),
  );
  return [...ofPanels, ...mountings.map((mounting) => mountingTemplate(stages, mounting, folded, hems))];
});

/** Of what stands there: its mouth as stated, or what is to be cut into it, and the holes of all that is fastened to it. */
const mountingTemplate = (
  stages: Stages,
  mounting: Mounting,
  folded: readonly FoldedPart[],
  hems: readonly Hem[],
): Template => {
  const { faces } = stages.shape();
  const { face, surface, lying, mouths, bolts, slots } = mounting;
  const up = surface.normal[2];
  const isLevel = Math.abs(up) > Math.cos(SAME_SURFACE);
  const own = hems.filter((hem) => lying.includes(hem.face));
  return {
    name: faces[face].name,
    side: isLevel ? (up < 0 ? 'top' : 'bottom') : sideOf(surface.normal),
    hung: isLevel ? (up < 0 ? 'from below' : 'from above') : undefined,
    panels: lying.map((panel) =>
      faces[panel].outline.map((point) => toPlane(surface, toSpace(faces[panel].frame, point))),
    ),
    bolts,
    slots,
    cutOut: mouths.length > 0 ? mouths.map(({ ring }) => ring) : cutOutOf(surface, folded, own),
    mouth: mouths.length > 0 ? mountingRow(stages, mounting) : undefined,
  };
};

/** May the tub be held by it? Not by what comes out of it again, nor by what stands inside it, whose holes let water by. */
const isHeldBy = (tub: Tub, { panel, stretches }: Face): boolean => {
  const role = roleOf(tub, panel);
  const stands = stretches.some((edge) => edge.some(({ feet = [] }) => feet.length > 0));
  return (role === 'tub' && !stands) || role === 'support';
};

const isOnePlane = (a: Face, b: Face): boolean =>
  dot(a.frame.normal, b.frame.normal) > Math.cos(SAME_SURFACE) &&
  Math.abs(dot(a.frame.normal, b.frame.origin) - dot(a.frame.normal, a.frame.origin)) <= OFF_PLANE;

const isFastened = (tub: Tub, face: Face): boolean =>
  face.openings.some(({ opening }) => takesFastener(tub.openings[opening]));

const templateOf = (
  tub: Tub,
  faces: readonly Face[],
  folded: readonly FoldedPart[],
  hems: readonly Hem[],
): Template => {
  const [first] = faces;
  const thickness = Math.max(...faces.map((face) => tub.sheets[tub.panels[face.panel].sheet].thickness));
  const { origin, normal } = first.frame;
  const frame = levelFrame(addScaled(origin, normal, -thickness), normal);
  return {
    name: faces.map(({ name }) => name).join(', '),
    side: sideOf(first.frame.normal),
    panels: faces.map((face) => face.outline.map((point) => toPlane(frame, toSpace(face.frame, point)))),
    ...patternOf(tub, frame, faces),
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
const cutOutOf = (frame: Frame, folded: readonly FoldedPart[], lying: readonly Hem[]): Ring[] => {
  const shadow = shadowBeyond({ frame, isLying: lyingOn(frame, lying) }, folded).filter((ring) => signedArea(ring) > 0);
  // Out and in again: what lies between two tabs is not worth sawing around.
  return inflateRound(inflateRound(shadow, CUT_OUT_ROOM + BAY / 2, SHADOW_CHORD), -BAY / 2, SHADOW_CHORD).filter(
    (ring) => signedArea(ring) > 0,
  );
};

/** mm. Bays of the cut-out that are narrower are bridged: the pitch of tabs. */
const BAY = 80;

/** Distance between two bolts, for a check by hand: the two that stand farthest apart; undefined with fewer than two. */
export const longestSpan = ({ bolts }: Template): number | undefined => {
  const spans = bolts.flatMap(({ center: a }, i) =>
    bolts.slice(i + 1).map(({ center: b }) => distance([...a, 0], [...b, 0])),
  );
  return spans.length === 0 ? undefined : Math.max(...spans);
};
