/** Frames that are bolted over an outlet to hold its wire cloth, with the same holes in frame and panel. */
import { reverseContour, straightContour } from '../../geometry/contour.js';
import { toPlane } from '../../geometry/frame.js';
import { levelAxes } from '../../geometry/level-axes.js';
import { distanceToSegment, isInside } from '../../geometry/polygon.js';
import { add, addScaled, scale, type Vec2, type Vec3 } from '../../geometry/vec.js';
import type { FlatHole, FlatPattern } from '../../fold/flat-pattern.js';
import { fastenerHole } from '../../material/fastener-holes.js';
import type { Fastener, Outlet, OutletIndex, SheetIndex, Strainer, Tub } from '../../model/tub.js';
import type { FaceIndex, Shape, Stretch } from '../../shape/shape.js';
import { holeThrough } from './hole-through.js';
import { generalTolerance } from '../seam/general-tolerance.js';
import type { PlateReach } from '../seam/plate-reach.js';

export interface StrainerFrame {
  readonly name: string;
  readonly outlet: OutletIndex;
  readonly face: FaceIndex;
  readonly sheet: SheetIndex;
  readonly bolted: Fastener;
  /** Outside, as drawn: the upper limit. It must go in between what stands around it. */
  readonly outer: readonly [number, number];
  /** Limits on the outside: nothing over, twice the general tolerance under. */
  readonly under: number;
  readonly window: readonly [number, number];
  readonly frameHole: number;
  readonly panelHole: number;
  /** Bolt centres in the frame's own plane, and on the panel's wet face. */
  readonly bolts: readonly Vec2[];
  readonly places: readonly Vec3[];
  /** Least room from the frame's outside to where the flat of the panel ends; negative: it does not lie on the panel. */
  readonly room: number;
}

/** Width of the frame around its window, in bolt diameters: a bolt and its washer in the middle. Common practice, no source. */
const BORDER = 4;

/** Greatest distance between bolts that keeps the frame pressed down, in bolt diameters. Common practice, no source. */
export const SEALING_PITCH = 10;

/** Frames of all strainers that are said to be bolted; none for a thread that the tables do not hold. */
export const strainerFramesOf = (tub: Tub, shape: Shape): readonly StrainerFrame[] =>
  tub.outlets.flatMap((outlet, index) => {
    const { strainer, panel } = outlet;
    const bolted = strainer?.bolted;
    const face = shape.faces[panel];
    if (!strainer || !bolted || !face?.usable) return [];
    const panelHole = fastenerHole(bolted.kind, bolted.thread);
    const frameHole = fastenerHole('screw', bolted.thread);
    if (panelHole === undefined || frameHole === undefined) return [];
    const outer = outerOf(strainer, bolted);
    const bolts = boltsOf(outer, bolted);
    const { level, upright } = levelAxes(face.frame.normal, shape.lean);
    const placeOf = ([x, y]: Vec2): Vec3 => add(outlet.center, add(scale(level, x), scale(upright, y)));
    return [
      {
        name: `${outlet.name} frame`,
        outlet: index,
        face: panel,
        sheet: tub.panels[panel].sheet,
        bolted,
        outer,
        under: 2 * generalTolerance(Math.max(...outer)),
        window: strainer.size,
        frameHole,
        panelHole,
        bolts,
        places: bolts.map(placeOf),
        room: roomAround(shape, panel, cornersOf(shape, outlet, outer), setbackAt),
      },
    ];
  });

/** Corners of what lies over an outlet with its middle on it, on the wet face. */
const cornersOf = (
  shape: Shape,
  { panel, center }: Outlet,
  [wide, deep]: readonly [number, number],
): readonly Vec3[] => {
  const { level, upright } = levelAxes(shape.faces[panel].frame.normal, shape.lean);
  const signs = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ] as const;
  return signs.map(([x, y]) => add(center, add(scale(level, (x * wide) / 2), scale(upright, (y * deep) / 2))));
};

/** Least room from the outside of an outlet's cloth to the edge of its panel, mm; negative: it reaches past it. Undefined without a usable panel. */
export const clothRoom = (shape: Shape, outlet: Outlet, size: Strainer['size']): number | undefined =>
  shape.faces[outlet.panel]?.usable
    ? roomAround(shape, outlet.panel, cornersOf(shape, outlet, size), () => 0)
    : undefined;

const outerOf = (strainer: Strainer, bolted: Fastener): readonly [number, number] => {
  const border = BORDER * bolted.thread;
  return [strainer.size[0] + 2 * border, strainer.size[1] + 2 * border];
};

/** Around the middle of the border: one in each corner, and between them so that none is farther than the sealing pitch. */
const boltsOf = (outer: readonly [number, number], bolted: Fastener): readonly Vec2[] => {
  const [w, d] = outer.map((length) => length / 2 - (BORDER / 2) * bolted.thread);
  const corners: readonly Vec2[] = [
    [-w, -d],
    [w, -d],
    [w, d],
    [-w, d],
  ];
  return corners.flatMap((corner, i) => {
    const next = corners[(i + 1) % 4];
    const length = Math.hypot(next[0] - corner[0], next[1] - corner[1]);
    const count = Math.ceil(length / (SEALING_PITCH * bolted.thread));
    return Array.from({ length: count }, (_, k): Vec2 => [
      corner[0] + ((next[0] - corner[0]) * k) / count,
      corner[1] + ((next[1] - corner[1]) * k) / count,
    ]);
  });
};

/** How much of a panel beside an edge its bend takes. */
const setbackAt = (shape: Shape, stretches: readonly Stretch[]): number =>
  Math.max(0, ...stretches.map((s) => (s.bend === undefined ? 0 : shape.bends[s.bend].setback)));

const roomAround = (
  shape: Shape,
  panel: FaceIndex,
  corners: readonly Vec3[],
  takenAt: (shape: Shape, stretches: readonly Stretch[]) => number,
): number => {
  const face = shape.faces[panel];
  const n = face.outline.length;
  const rooms = corners.map((corner) => {
    const at = toPlane(face.frame, corner);
    const edges = face.outline.map((from, edge) => ({
      off: distanceToSegment(at, from, face.outline[(edge + 1) % n]),
      taken: takenAt(shape, face.stretches[edge]),
    }));
    if (isInside(at, face.outline)) return Math.min(...edges.map(({ off, taken }) => off - taken));
    // Past the outline it has to come back over the nearest edge.
    const nearest = edges.reduce((near, each) => (each.off < near.off ? each : near));
    return -nearest.off - nearest.taken;
  });
  return Math.min(...rooms);
};

/** The frame to cut: outside, window, bolt holes. */
export const framePattern = (tub: Tub, frame: StrainerFrame): FlatPattern => {
  const outline = rectangle(frame.outer);
  const holes = frame.bolts.map((bolt) => holeThrough(bolt, frame.frameHole, `screw M${frame.bolted.thread}`));
  const window: FlatHole = { contour: reverseContour(rectangle(frame.window)), circle: undefined, opening: undefined };
  return {
    name: frame.name,
    part: undefined,
    sheet: frame.sheet,
    thickness: tub.sheets[frame.sheet].thickness,
    quantity: 1,
    outline,
    holes: [window, ...holes],
    bends: [],
    panels: [{ name: frame.name, face: undefined, region: outline }],
    marks: [],
    place: undefined,
  };
};

/** The same holes in the flat of the panel, for its own kind of fastener. */
export const panelHolesOf = (reach: PlateReach, frame: StrainerFrame): readonly FlatHole[] =>
  frame.places.flatMap((place) => {
    const at = reach.toFlat(frame.face, place);
    return at
      ? [
          holeThrough(
            at,
            frame.panelHole,
            `${frame.bolted.kind === 'rivetnut' ? 'rivet nut' : 'screw'} M${frame.bolted.thread} of ${frame.name}`,
          ),
        ]
      : [];
  });

const rectangle = ([w, d]: readonly [number, number]): FlatPattern['outline'] =>
  straightContour([
    [-w / 2, -d / 2],
    [w / 2, -d / 2],
    [w / 2, d / 2],
    [-w / 2, d / 2],
  ]);

/** Lowest point of a bolt's hole on the panel. */
export const lowestOfHole = (shape: Shape, frame: StrainerFrame, place: Vec3): Vec3 =>
  addScaled(place, levelAxes(shape.faces[frame.face].frame.normal).upright, -frame.panelHole / 2);
