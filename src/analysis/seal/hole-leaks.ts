/** Leaks through single holes: openings, fasteners, reliefs, the notches of tabs. */
import { toSpace } from '../geometry/frame.js';
import { addScaled, distance, type Vec3 } from '../geometry/vec.js';
import type { Unfolded } from '../fold/unfolded.js';
import { levelAxes } from '../geometry/level-axes.js';
import type { Joints } from '../join/joints.js';
import { doorsOf } from '../shape/laid/doors.js';
import { dividersOf, letsBy } from '../shape/account/dividers.js';
import { lowestOfHole } from '../join/fasteners/strainer-frame.js';
import { holeClosed } from '../join/seam/hole-closed.js';
import type { Tub } from '../model/tub.js';
import type { Face, FaceOpening, Shape } from '../shape/shape.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { closes } from './face-leaks.js';
import { standing, runsToClose } from './edge-leaks.js';
import type { LevelAt } from '../water/standing/level-at.js';
import type { Water } from '../water/water.js';
import type { JointEnds } from './joint-ends.js';
import { CLINGS, type Leak } from './leak.js';

/**
 * Holes, slots and cut-outs that nothing closes, and holes whose fastener is not sealed. Outlets are plugged for a test. An
 * open hole is judged by the level that there would be without any; all else by the level to which such holes let it rise.
 * What lies over one on a gasket that is pressed all along closes it. A hole through a divider leads to the next chamber and is none.
 */
export const openingLeaks = (
  tub: Tub,
  shape: Shape,
  { faces: contacts }: Joints,
  { levelAt, levelIfClosed }: Pick<Water, 'levelAt' | 'levelIfClosed'>,
): readonly Leak[] => {
  const dividers = dividersOf(tub, shape);
  const doors = doorsOf(tub, shape.faces);
  return shape.faces.flatMap((face) =>
    face.openings.flatMap((opening): Leak[] => {
      const { use, fastener } = tub.openings[opening.opening];
      if (use === 'outlet' || fastener?.sealed) return [];
      const joint = doors.get(opening.opening)?.joint;
      if (
        joint !== undefined &&
        closes(
          tub.faceJoints![joint],
          contacts.filter((each) => each.joint === joint),
        )
      )
        return [];
      if (dividers.has(face.panel) && letsBy(tub, opening.opening)) return [];
      const [low, high] = endsOf(face, opening);
      const size = distance(low, high);
      return [
        {
          kind: fastener ? 'fastener' : 'opening',
          point: low,
          length: size,
          gap: size,
          closes: 0,
          isAsDrawn: true,
          ...standing(fastener ? levelAt : levelIfClosed, face.panel, low),
          faces: [face.panel],
          seam: undefined,
          bend: undefined,
          opening: opening.opening,
        },
      ];
    }),
  );
};

/** Bolts of strainer frames that are not said to be sealed: the lowest of each frame. */
export const frameLeaks = (tub: Tub, shape: Shape, joints: Joints, levelAt: LevelAt): readonly Leak[] =>
  joints.frames.flatMap((frame): Leak[] => {
    if (frame.bolted.sealed) return [];
    const point = frame.places
      .map((place) => lowestOfHole(shape, frame, place))
      .reduce((low, p) => (low[2] <= p[2] ? low : p));
    return [
      {
        kind: 'fastener',
        point,
        length: frame.panelHole,
        gap: frame.panelHole,
        closes: 0,
        isAsDrawn: true,
        ...standing(levelAt, frame.face, point),
        faces: [frame.face],
        seam: undefined,
        bend: undefined,
        opening: tub.outlets[frame.outlet].opening,
      },
    ];
  });

/** Lowest and highest point of an opening on the wet face. */
const endsOf = (face: Face, { shape }: FaceOpening): readonly [Vec3, Vec3] => {
  const { upright } = levelAxes(face.frame.normal);
  if (shape.kind === 'polygon') {
    const corners = shape.corners.map((corner) => toSpace(face.frame, corner));
    const byHeight = [...corners].sort((a, b) => a[2] - b[2]);
    return [byHeight[0], byHeight[byHeight.length - 1]];
  }
  const middles = (shape.kind === 'round' ? [shape.center, shape.center] : [shape.from, shape.to]).map((p) =>
    toSpace(face.frame, p),
  );
  const [low, high] = middles[0][2] <= middles[1][2] ? middles : [middles[1], middles[0]];
  return [addScaled(low, upright, -shape.radius), addScaled(high, upright, shape.radius)];
};

/** Cuts at the ends of bends that no joint running up to them closes; the wider where both panels are cut. */
export const reliefLeaks = (unfolded: readonly Unfolded[], ends: JointEnds, levelAt: LevelAt): readonly Leak[] => {
  const widest = new Map<string, Leak>();
  for (const { face, bend, point, width, depth } of unfolded.flatMap(({ reliefs }) => reliefs)) {
    const closes = ends.holeClosedAt(point);
    if (width <= closes + CLINGS) continue;
    const leak: Leak = {
      kind: 'relief',
      point,
      length: depth,
      gap: width,
      closes,
      isAsDrawn: true,
      ...standing(levelAt, face, point),
      faces: [face],
      seam: undefined,
      bend,
      opening: undefined,
    };
    const key = point.map((c) => Math.round(c / SAME_POINT)).join(' ');
    const known = widest.get(key);
    if (!known || known.gap < width) widest.set(key, leak);
  }
  return [...widest.values()];
};

/** Notches beside integral tabs that the seam's own joint does not close: the lowest of each seam. */
export const notchLeaks = (tub: Tub, joints: Joints, levelAt: LevelAt): readonly Leak[] =>
  joints.seams.flatMap((joint) => {
    const leaks = runsToClose(tub, joint).flatMap(({ run, tabs }) => {
      if (tabs.length === 0) return [];
      const thickness = Math.min(run.sides[0].thickness, run.sides[1].thickness);
      const closes = holeClosed(joint.method.closing, thickness, tub.seams[joint.seam].sealant);
      return tabs.flatMap((tab) =>
        tab.notch && tab.notch.width > closes + CLINGS
          ? [notchLeak(joint.seam, { ...tab, notch: tab.notch }, closes, levelAt)]
          : [],
      );
    });
    return leaks.length === 0 ? [] : [leaks.reduce((low, leak) => (low.height <= leak.height ? low : leak))];
  });

interface Notch {
  readonly face: number;
  readonly point: Vec3;
  readonly notch: { readonly width: number; readonly depth: number };
}

const notchLeak = (seam: number, { face, point, notch }: Notch, closes: number, levelAt: LevelAt): Leak => ({
  kind: 'notch',
  point,
  length: notch.depth,
  gap: notch.width,
  closes,
  isAsDrawn: true,
  ...standing(levelAt, face, point),
  faces: [face],
  seam,
  bend: undefined,
  opening: undefined,
});
