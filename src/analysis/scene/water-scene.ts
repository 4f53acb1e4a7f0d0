import { toSpace } from '../geometry/frame.js';
import type { Vec2, Vec3 } from '../geometry/vec.js';
import { unit } from '../geometry/vec.js';
import { SAME_DIRECTION } from '../tolerance.js';
import type { Face, FaceOpening } from '../shape/shape.js';
import type { Stages } from '../stages.js';
import { drawn3, drawnDegrees, drawnUnit, note } from './drawn.js';
import type { SceneEntry } from './scene.js';

/** The wet faces with the way the water takes on each; pools, levels and flows as far as they are known. */
export const waterScene = (stages: Stages): SceneEntry[] => {
  const faces = stages.shape().faces.filter((face) => face.usable);
  if (faces.length === 0) return [note('no-faces', 'No wet face yet: the text has no panel that can be used', stages.tub.at)];
  return faces.map((face): SceneEntry => faceEntry(stages, face));
};

const faceEntry = (stages: Stages, face: Face): SceneEntry => {
  const { normal } = face.frame;
  const slope = Math.atan2(Math.hypot(normal[0], normal[1]), Math.abs(normal[2]));
  return {
    key: `panel:${face.name}`,
    at: stages.tub.panels[face.panel].at,
    item: {
      kind: 'water-face',
      name: face.name,
      corners: face.corners.map(drawn3),
      holes: face.openings.map((opening) => openingOutline(opening).map((p) => drawn3(toSpace(face.frame, p)))),
      normal: drawnUnit(normal),
      slope_deg: drawnDegrees(slope),
      downhill: slope < SAME_DIRECTION ? [0, 0, 0] : drawnUnit(downhillOn(normal)),
    },
  };
};

/** Straight down, projected onto the plane. */
const downhillOn = (normal: Vec3): Vec3 => unit([normal[0] * normal[2], normal[1] * normal[2], normal[2] * normal[2] - 1]);

const ROUND_SIDES = 32;

/** For drawing only: rounds as polygons. */
const openingOutline = ({ shape }: FaceOpening): Vec2[] => {
  if (shape.kind === 'polygon') return [...shape.corners];
  if (shape.kind === 'round') return arcPoints(shape.center, shape.radius, 0, 2 * Math.PI, ROUND_SIDES);
  const angle = Math.atan2(shape.to[1] - shape.from[1], shape.to[0] - shape.from[0]);
  return [
    ...arcPoints(shape.to, shape.radius, angle - Math.PI / 2, Math.PI, ROUND_SIDES / 2),
    ...arcPoints(shape.from, shape.radius, angle + Math.PI / 2, Math.PI, ROUND_SIDES / 2),
  ];
};

const arcPoints = (center: Vec2, radius: number, start: number, sweep: number, sides: number): Vec2[] =>
  Array.from({ length: sides }, (_, i): Vec2 => {
    const angle = start + (sweep * i) / sides;
    return [center[0] + radius * Math.cos(angle), center[1] + radius * Math.sin(angle)];
  });
