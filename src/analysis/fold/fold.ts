import { boxesOfPolygons, indexBoxes } from '../geometry/box-index.js';
import type { Frame } from '../geometry/frame.js';
import { frameOn, toSpace } from '../geometry/frame.js';
import { extentOfContour, flattenContour } from '../geometry/contour.js';
import { isInside } from '../geometry/polygon.js';
import {
  add,
  addScaled,
  cross,
  dot,
  scale,
  subtract,
  subtract2,
  turnVector,
  unit,
  unit2,
  dot2,
  type Vec2,
  type Vec3,
} from '../geometry/vec.js';
import { SAME_DIRECTION } from '../geometry/tolerance.js';
import { allowanceOf } from '../material/bend-allowance.js';
import type { FlatPattern, FoldedPart, Plate, Roll, ZoneEnd } from './flat-pattern.js';
import type { Contour } from '../geometry/contour.js';
import { splitFlat, type Crossing, type FlatRegion, type SplitFlat } from './split-flat.js';

export interface FoldOptions {
  /** Turned so far, per bend of the flat, 0 to the bend's angle; undefined: all of them fully. */
  readonly angles?: readonly number[];
  /** Where the root panel's flat coordinates lie in space; default: the flat's own place, else the plane z = 0. */
  readonly place?: Frame;
}

const GROUND: Frame = { origin: [0, 0, 0], u: [1, 0, 0], v: [0, 1, 0], normal: [0, 0, 1] };
/** mm. Fineness with which holes are told apart from plates. */
const HOLE_FINENESS = 1;

/**
 * Folds a flat pattern with true radii: the solid that comes out of nothing but its outline, bend lines, angles, R, T and K.
 *
 * A bend that is only partly turned keeps its zone's flat width (the neutral line does not stretch), so its radius is larger.
 * Returns plates (one per panel, same indices) and rolls (one per bend that is turned at all). Cost: O(n log n).
 */
export const foldFlat = (flat: FlatPattern, options: FoldOptions = {}): FoldedPart => {
  const split = splitFlat(flat);
  const angleOf = (i: number): number => options.angles?.[i] ?? flat.bends[i].angle;
  const rootPlate = split.plates.length === 1 ? 0 : rootOf(flat, split);
  const frames = new Map<number, Frame>([[rootPlate, options.place ?? flat.place ?? GROUND]]);
  const rolls: Roll[] = [];
  for (const { bend, parent, child } of walkPlates(split, rootPlate)) {
    const hinge = turnHinge(flat, bend, split.crossings[bend], frames.get(parent)!, angleOf(bend));
    frames.set(child, hinge.frame);
    if (hinge.roll) rolls.push(hinge.roll);
  }
  const panelOf = panelsOfPlates(flat, split, rootPlate);
  const holes = holesByPlate(flat, split.plates);
  const plates = split.plates.map((plate, i): Plate => {
    const panel = panelOf[i];
    return {
      panel,
      name: flat.panels[panel].name,
      face: flat.panels[panel].face,
      frame: frames.get(i)!,
      contour: plate.contour,
      holes: holes[i],
    };
  });
  plates.sort((a, b) => a.panel - b.panel);
  return { name: flat.name, thickness: flat.thickness, plates, rolls };
};

/** The plate that no bend names as its child. */
const rootOf = (flat: FlatPattern, split: SplitFlat): number => {
  const children = new Set(split.joins.map(([, child]) => child));
  const root = split.plates.findIndex((_, i) => !children.has(i));
  if (root < 0) throw new Error(`flat pattern ${flat.name} has no root panel`);
  return root;
};

const panelsOfPlates = (flat: FlatPattern, split: SplitFlat, root: number): readonly number[] => {
  const panelOf = split.plates.map(() => 0);
  panelOf[root] = flat.bends.length > 0 ? rootPanel(flat) : 0;
  flat.bends.forEach((bend, i) => {
    panelOf[split.joins[i][0]] = bend.parent;
    panelOf[split.joins[i][1]] = bend.child;
  });
  return panelOf;
};

const rootPanel = (flat: FlatPattern): number => {
  const children = new Set(flat.bends.map((bend) => bend.child));
  return flat.panels.findIndex((_, i) => !children.has(i));
};

const walkPlates = (split: SplitFlat, root: number): readonly { bend: number; parent: number; child: number }[] => {
  const below = new Map<number, { bend: number; child: number }[]>();
  split.joins.forEach(([parent, child], bend) => {
    const list = below.get(parent);
    if (list) list.push({ bend, child });
    else below.set(parent, [{ bend, child }]);
  });
  const steps: { bend: number; parent: number; child: number }[] = [];
  const queue = [root];
  for (const parent of queue) {
    for (const { bend, child } of below.get(parent) ?? []) {
      steps.push({ bend, parent, child });
      queue.push(child);
    }
  }
  return steps;
};

interface Hinge {
  readonly frame: Frame;
  readonly roll: Roll | undefined;
}

/** Where the child's flat coordinates go once the bend is turned by `angle`, and the bent zone. */
const turnHinge = (
  flat: FlatPattern,
  index: number,
  [first, last]: SplitFlat['crossings'][number],
  parent: Frame,
  angle: number,
): Hinge => {
  if (angle <= SAME_DIRECTION) return { frame: parent, roll: undefined };
  const bend = flat.bends[index];
  const thickness = flat.thickness;
  const allowance = allowanceOf({ ...bend, thickness });
  // Full angle: the stated radius. Less: the same neutral length over a smaller angle.
  const innerRadius = angle === bend.angle ? bend.radius : allowance / angle - bend.kFactor * thickness;
  const outerRadius = innerRadius + thickness;
  const foot = pointAt(first[0]);
  const along = unit2(subtract2(pointAt(last[0]), foot));
  const outward: Vec2 = [along[1], -along[0]];
  const inSpace = ([x, y]: Vec2): Vec3 => add(scale(parent.u, x), scale(parent.v, y));
  const outwardSpace = inSpace(outward);
  const up = bend.direction === 'up';
  const lift = up ? innerRadius : -outerRadius;
  const axisPoint = addScaled(toSpace(parent, foot), parent.normal, lift);
  const turnAbout = scale(unit(cross(outwardSpace, parent.normal)), up ? 1 : -1);
  const slid: Frame = { ...parent, origin: addScaled(parent.origin, outwardSpace, -allowance) };
  const frame = turnFrame(slid, axisPoint, turnAbout, angle);
  const axisU = scale(parent.normal, up ? -1 : 1);
  const axis: Frame = { origin: axisPoint, u: axisU, v: cross(turnAbout, axisU), normal: turnAbout };
  const spaceAlong = inSpace(along);
  const sense = dot(spaceAlong, turnAbout) > 0 ? 1 : -1;
  const endOf = (crossing: Crossing): ZoneEnd =>
    crossing.map((vertex, i) => {
      const arm = subtract2(pointAt(vertex), foot);
      const x = i === 0 ? 0 : i === crossing.length - 1 ? allowance : dot2(arm, outward);
      return { x, y: sense * dot2(arm, along), bulge: sense * vertex.bulge || 0 };
    });
  const [near, far] = sense > 0 ? [first, last] : [last, first];
  const roll: Roll = {
    bend: index,
    axis,
    sweep: angle,
    innerRadius,
    outerRadius,
    wet: up ? 'outside' : 'inside',
    near: endOf(near),
    far: endOf(far),
  };
  return { frame, roll };
};

const pointAt = ({ x, y }: { readonly x: number; readonly y: number }): Vec2 => [x, y];

/** Made square and of unit length again at every step: left to itself, rounding doubles with each bend of a long strip. */
const turnFrame = (frame: Frame, point: Vec3, axis: Vec3, angle: number): Frame => {
  const turn = (v: Vec3): Vec3 => turnVector(v, axis, angle);
  return frameOn(add(point, turn(subtract(frame.origin, point))), unit(turn(frame.normal)), turn(frame.u));
};

/** Per plate, the holes that lie in it. */
const holesByPlate = (flat: FlatPattern, plates: readonly FlatRegion[]): readonly (readonly Contour[])[] => {
  const inPlate: Contour[][] = plates.map(() => []);
  if (flat.holes.length === 0) return inPlate;
  const extents = plates.map(({ contour }) => extentOfContour(contour));
  const search = indexBoxes(boxesOfPolygons(extents.map(({ min, max }) => [min, max])));
  const corners = plates.map(({ contour }) => flattenContour(contour, HOLE_FINENESS));
  for (const { contour } of flat.holes) {
    const { x, y } = contour[0];
    const [plate] = search(x, y, x, y, (i) => isInside([x, y], corners[i]));
    if (plate !== undefined) inPlate[plate].push(contour);
  }
  return inPlate;
};
