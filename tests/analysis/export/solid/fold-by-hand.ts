/** A second, plain way from a flat to the folded part, for tests of what is written from folded parts. */
import type { FoldedPart, Plate, Roll, ZoneEnd } from '../../../../src/analysis/fold/flat-pattern.js';
import type { Contour } from '../../../../src/analysis/geometry/contour.js';
import type { Frame } from '../../../../src/analysis/geometry/frame.js';
import {
  add,
  addScaled,
  cross,
  dot,
  scale,
  subtract,
  type Vec2,
  type Vec3,
} from '../../../../src/analysis/geometry/vec.js';

export interface HandBend {
  readonly parent: number;
  readonly child: number;
  /** Tangent line at the parent, the child's side on the left; and that at the child in the same direction. */
  readonly tangents: readonly [readonly [Vec2, Vec2], readonly [Vec2, Vec2]];
  readonly angle: number;
  readonly direction: 'up' | 'down';
  readonly radius: number;
}

export interface HandFlat {
  readonly thickness: number;
  readonly panels: readonly { readonly contour: Contour; readonly holes?: readonly Contour[] }[];
  readonly bends: readonly HandBend[];
}

export const polygon = (...points: readonly Vec2[]): Contour => points.map(([x, y]) => ({ x, y, bulge: 0 }));

/** Two half circles, clockwise: a round hole. */
export const roundHole = ([x, y]: Vec2, radius: number): Contour => [
  { x: x - radius, y, bulge: -1 },
  { x: x + radius, y, bulge: -1 },
];

const startFrame: Frame = {
  origin: [12, -7, 3],
  u: [0.6, 0.8, 0],
  v: [-0.8 * 0.28, 0.6 * 0.28, 0.96],
  normal: cross([0.6, 0.8, 0], [-0.8 * 0.28, 0.6 * 0.28, 0.96]),
};

export const foldByHand = ({ thickness, panels, bends }: HandFlat, start: Frame = startFrame): FoldedPart => {
  const frames: Frame[] = [start];
  const rolls: Roll[] = [];
  bends.forEach((bend, i) => {
    const { roll, child } = foldOne(frames[bend.parent], bend, thickness, i);
    rolls.push(roll);
    frames[bend.child] = child;
  });
  const plates = panels.map(({ contour, holes = [] }, panel): Plate => ({
    panel,
    name: `panel${panel}`,
    face: panel,
    frame: frames[panel],
    contour,
    holes,
  }));
  return { name: 'by hand', thickness, plates, rolls };
};

const foldOne = (frame: Frame, bend: HandBend, thickness: number, index: number): { roll: Roll; child: Frame } => {
  const [[a, b], [c, d]] = bend.tangents;
  const at = ([x, y]: Vec2): Vec3 => add(frame.origin, add(scale(frame.u, x), scale(frame.v, y)));
  const direction = (p: Vec3, q: Vec3): Vec3 => scale(subtract(q, p), 1 / Math.hypot(...subtract(q, p)));
  const along = direction(at(a), at(b));
  const onward = cross(frame.normal, along);
  const allowance = dot(subtract(at(c), at(a)), onward);
  const isUp = bend.direction === 'up';
  const arm = scale(frame.normal, isUp ? -1 : 1);
  const dry = isUp ? bend.radius : bend.radius + thickness;
  const normal = cross(arm, onward);
  const origin = addScaled(at(a), arm, -dry);
  const axis: Frame = { origin, u: arm, v: cross(normal, arm), normal };
  const levels = (p: Vec2, q: Vec2): [number, number] => {
    const [l, m] = [dot(subtract(at(p), origin), normal), dot(subtract(at(q), origin), normal)];
    return l < m ? [l, m] : [m, l];
  };
  const [atParent, atChild] = [levels(a, b), levels(c, d)];
  const turn = (vector: Vec3): Vec3 => {
    const [x, y, z] = [dot(vector, axis.u), dot(vector, axis.v), dot(vector, normal)];
    const [cos, sin] = [Math.cos(bend.angle), Math.sin(bend.angle)];
    return add(add(scale(axis.u, x * cos - y * sin), scale(axis.v, x * sin + y * cos)), scale(normal, z));
  };
  const child: Frame = {
    origin: add(origin, turn(subtract(addScaled(frame.origin, onward, -allowance), origin))),
    u: turn(frame.u),
    v: turn(frame.v),
    normal: turn(frame.normal),
  };
  const roll: Roll = {
    bend: index,
    axis,
    sweep: bend.angle,
    innerRadius: bend.radius,
    outerRadius: bend.radius + thickness,
    wet: isUp ? 'outside' : 'inside',
    near: straightEnd(allowance, atParent[0], atChild[0]),
    far: straightEnd(allowance, atParent[1], atChild[1]),
  };
  return { roll, child };
};

const straightEnd = (width: number, from: number, to: number): ZoneEnd => [
  { x: 0, y: from, bulge: 0 },
  { x: width, y: to, bulge: 0 },
];

/** From the parent's tangent line to the child's; straight ends only. */
const levels = (end: ZoneEnd): readonly [number, number] => [end[0].y, end[1].y];

/** Mean level of a zone's end, arcs included: what it encloses with the line at level 0, over its width. */
const meanOf = (end: ZoneEnd): number => {
  const [first, last] = [end[0], end[end.length - 1]];
  // Run along the end, then back along level 0: clockwise where the end stands above it.
  return -contourArea([...end, { x: last.x, y: 0, bulge: 0 }, { x: first.x, y: 0, bulge: 0 }]) / last.x;
};

/** Volume of the metal by formula: plates by area, rolls by the ring sector under a mean length. mm3 */
export const volumeByFormula = (folded: FoldedPart): number => {
  const plates = folded.plates.map(
    ({ contour, holes }) => [contour, ...holes].reduce((sum, c) => sum + contourArea(c), 0) * folded.thickness,
  );
  const rolls = folded.rolls.map((r) => {
    const length = meanOf(r.far) - meanOf(r.near);
    return (length * r.sweep * (r.outerRadius ** 2 - r.innerRadius ** 2)) / 2;
  });
  return [...plates, ...rolls].reduce((a, b) => a + b, 0);
};

/** Skin of the metal by formula; an end that runs askew through a roll by integration of the helicoid. mm2 */
export const skinByFormula = (folded: FoldedPart): number => {
  const plates = folded.plates.map(({ contour, holes }) => {
    const rings = [contour, ...holes];
    return (
      2 * rings.reduce((s, c) => s + contourArea(c), 0) +
      folded.thickness * rings.reduce((s, c) => s + contourLength(c), 0)
    );
  });
  const rolls = folded.rolls.map((r) => {
    const [near, far] = [levels(r.near), levels(r.far)];
    const length = (far[0] + far[1] - near[0] - near[1]) / 2;
    const skins = length * r.sweep * (r.outerRadius + r.innerRadius);
    const ends = [near, far].map(
      ([from, to]) => r.sweep * bladeArea(r.innerRadius, r.outerRadius, (to - from) / r.sweep),
    );
    // The walls of the plates were counted all round: two of them are inside the metal here.
    const joints = folded.thickness * (far[0] - near[0] + far[1] - near[1]);
    return skins + ends[0] + ends[1] - joints;
  });
  return [...plates, ...rolls].reduce((a, b) => a + b, 0);
};

/** Integral of sqrt(r^2 + rise^2) over r: area of a helicoid per radian. */
const bladeArea = (inner: number, outer: number, rise: number): number => {
  const primitive = (r: number): number =>
    rise === 0 ? (r * r) / 2 : (r * Math.hypot(r, rise) + rise * rise * Math.asinh(r / Math.abs(rise))) / 2;
  return primitive(outer) - primitive(inner);
};

const contourArea = (contour: Contour): number =>
  contour.reduce((sum, p, i) => {
    const q = contour[(i + 1) % contour.length];
    const sweep = 4 * Math.atan(p.bulge);
    const chord = Math.hypot(q.x - p.x, q.y - p.y);
    const radius = p.bulge === 0 ? 0 : chord / 2 / Math.sin(sweep / 2);
    return (
      sum +
      (p.x * q.y - q.x * p.y) / 2 +
      (Math.sign(p.bulge) * (radius * radius * (Math.abs(sweep) - Math.sin(Math.abs(sweep))))) / 2
    );
  }, 0);

const contourLength = (contour: Contour): number =>
  contour.reduce((sum, p, i) => {
    const q = contour[(i + 1) % contour.length];
    const chord = Math.hypot(q.x - p.x, q.y - p.y);
    const sweep = 4 * Math.atan(p.bulge);
    return sum + (p.bulge === 0 ? chord : (chord / 2 / Math.sin(sweep / 2)) * sweep);
  }, 0);

/** A tray with one wall square to its bend, one askew wall with slanted ends to its bend zone, and round holes. */
export const askewTray: HandFlat = {
  thickness: 1.2,
  panels: [
    {
      contour: polygon([0, 0], [200, 0], [200, 120], [0, 120]),
      holes: [roundHole([60, 60], 11), polygon([120, 40], [120, 70], [160, 80], [160, 40])],
    },
    { contour: polygon([200, 123], [200, 160], [20, 160], [-4, 123]), holes: [roundHole([100, 140], 4)] },
    { contour: polygon([204, 10], [240, 20], [240, 90], [204, 112]) },
    {
      contour: [
        { x: 240 + 3, y: 30, bulge: 0 },
        { x: 260, y: 30, bulge: 0.3 },
        { x: 260, y: 80, bulge: 0 },
        { x: 243, y: 80, bulge: 0 },
      ],
    },
  ],
  bends: [
    {
      parent: 0,
      child: 1,
      tangents: [
        [
          [0, 120],
          [200, 120],
        ],
        [
          [-4, 123],
          [200, 123],
        ],
      ],
      angle: 1.2,
      direction: 'up',
      radius: 1.3,
    },
    {
      parent: 0,
      child: 2,
      tangents: [
        [
          [200, 110],
          [200, 8],
        ],
        [
          [204, 112],
          [204, 10],
        ],
      ],
      angle: Math.PI / 2,
      direction: 'down',
      radius: 2,
    },
    {
      parent: 2,
      child: 3,
      tangents: [
        [
          [240, 80],
          [240, 30],
        ],
        [
          [243, 80],
          [243, 30],
        ],
      ],
      angle: 0.9,
      direction: 'down',
      radius: 2.5,
    },
  ],
};

/** A strip whose end is folded flat on itself, the inside radius 0. */
export const closedHem: HandFlat = {
  thickness: 1,
  panels: [
    { contour: polygon([0, 0], [80, 0], [80, 40], [0, 40]) },
    { contour: polygon([0, 40 + Math.PI / 2], [80, 40 + Math.PI / 2], [75, 48], [5, 48]) },
  ],
  bends: [
    {
      parent: 0,
      child: 1,
      tangents: [
        [
          [0, 40],
          [80, 40],
        ],
        [
          [0, 40 + Math.PI / 2],
          [80, 40 + Math.PI / 2],
        ],
      ],
      angle: Math.PI,
      direction: 'up',
      radius: 0,
    },
  ],
};
