/** Hand-made flat patterns: strips, boxes and trees of flanges, without the unfolding that the product does. */
import type { FlatBend, FlatPanel, FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import type { Contour } from '../../../src/analysis/geometry/contour.js';
import { straightContour } from '../../../src/analysis/geometry/contour.js';
import type { Vec2 } from '../../../src/analysis/geometry/vec.js';

export const DEG = Math.PI / 180;

export interface SheetSketch {
  readonly thickness?: number;
  readonly radius?: number;
  readonly kFactor?: number;
}

/** A leg of flat metal and, unless it is the last, the bend after it: positive up, negative down, degrees. */
export interface LegSketch {
  readonly flat: number;
  readonly bend?: number;
}

const rectangle = (x0: number, y0: number, x1: number, y1: number): Contour =>
  straightContour([
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ]);

interface Hinge {
  readonly name: string;
  readonly line: readonly [Vec2, Vec2];
  /** Unit, from parent to child. */
  readonly away: Vec2;
  readonly bendDeg: number;
  readonly parent: number;
  readonly child: number;
}

/** A bend whose parent tangent is `line`. */
const bendAt = (hinge: Hinge, index: number, sheet: Required<SheetSketch>): FlatBend => {
  const angle = Math.abs(hinge.bendDeg) * DEG;
  const allowance = angle * (sheet.radius + sheet.kFactor * sheet.thickness);
  const move = ([x, y]: Vec2, by: number): Vec2 => [x + hinge.away[0] * by, y + hinge.away[1] * by];
  const [a, b] = hinge.line;
  return {
    bend: index,
    name: hinge.name,
    start: move(a, allowance / 2),
    end: move(b, allowance / 2),
    tangents: [
      [a, b],
      [move(a, allowance), move(b, allowance)],
    ],
    allowance,
    angle,
    direction: hinge.bendDeg > 0 ? 'up' : 'down',
    radius: sheet.radius,
    kFactor: sheet.kFactor,
    parent: hinge.parent,
    child: hinge.child,
  };
};

const sheetOf = (sketch: SheetSketch): Required<SheetSketch> => ({
  thickness: 1.2,
  radius: 1.2,
  kFactor: 0.35,
  ...sketch,
});

const patternOf = (
  name: string,
  sheet: Required<SheetSketch>,
  panels: readonly FlatPanel[],
  bends: readonly FlatBend[],
  outline: Contour,
): FlatPattern => ({
  name,
  part: 0,
  sheet: 0,
  thickness: sheet.thickness,
  quantity: 1,
  outline,
  holes: [],
  bends,
  panels,
  marks: [],
  place: undefined,
});

/** Legs one after the other along y, all `width` wide. `flat` is the length between tangent lines. */
export const stripFlat = (width: number, legs: readonly LegSketch[], sketch: SheetSketch = {}): FlatPattern => {
  const sheet = sheetOf(sketch);
  const panels: FlatPanel[] = [];
  const bends: FlatBend[] = [];
  let y = 0;
  legs.forEach(({ flat, bend }, i) => {
    panels.push({ name: `leg${i}`, face: i, region: rectangle(0, y, width, y + flat) });
    y += flat;
    if (bend === undefined || i + 1 === legs.length) return;
    const made = bendAt(
      {
        name: `leg${i} leg${i + 1}`,
        line: [
          [0, y],
          [width, y],
        ],
        away: [0, 1],
        bendDeg: bend,
        parent: i,
        child: i + 1,
      },
      i,
      sheet,
    );
    bends.push(made);
    y += made.allowance;
  });
  return patternOf('strip', sheet, panels, bends, rectangle(0, 0, width, y));
};

export interface SideSketch {
  readonly height: number;
  readonly bend: number;
  /** A further flange on this side. */
  readonly flange?: { readonly height: number; readonly bend: number };
  /** How much shorter than the floor's edge the side is, at each end. */
  readonly inset?: number;
}

/** A floor with up to four sides, in the order front (y = 0), right, back, left. The outline is the floor's only. */
export const boxFlat = (
  width: number,
  depth: number,
  sides: readonly (SideSketch | undefined)[],
  sketch: SheetSketch = {},
): FlatPattern => {
  const sheet = sheetOf(sketch);
  const panels: FlatPanel[] = [{ name: 'floor', face: 0, region: rectangle(0, 0, width, depth) }];
  const bends: FlatBend[] = [];
  const edges: readonly { name: string; from: Vec2; to: Vec2; away: Vec2 }[] = [
    { name: 'front', from: [0, 0], to: [width, 0], away: [0, -1] },
    { name: 'right', from: [width, 0], to: [width, depth], away: [1, 0] },
    { name: 'back', from: [width, depth], to: [0, depth], away: [0, 1] },
    { name: 'left', from: [0, depth], to: [0, 0], away: [-1, 0] },
  ];
  const flangeOn = (
    name: string,
    line: readonly [Vec2, Vec2],
    away: Vec2,
    height: number,
    bendDeg: number,
    parent: number,
  ): readonly [Vec2, Vec2] => {
    const child = panels.length;
    const made = bendAt(
      { name: `${panels[parent].name} ${name}`, line, away, bendDeg, parent, child },
      bends.length,
      sheet,
    );
    bends.push(made);
    const [a, b] = made.tangents[1];
    const out = ([x, y]: Vec2): Vec2 => [x + away[0] * height, y + away[1] * height];
    panels.push({ name, face: child, region: straightContour([b, a, out(a), out(b)]) });
    return [out(a), out(b)];
  };
  sides.forEach((side, i) => {
    if (!side) return;
    const { name, from, to, away } = edges[i];
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const step = (p: Vec2, q: Vec2, by: number): Vec2 => [
      p[0] + ((q[0] - p[0]) * by) / length,
      p[1] + ((q[1] - p[1]) * by) / length,
    ];
    const inset = side.inset ?? 0;
    const top = flangeOn(name, [step(from, to, inset), step(to, from, inset)], away, side.height, side.bend, 0);
    if (side.flange) flangeOn(`${name}Flange`, top, away, side.flange.height, side.flange.bend, panels.length - 1);
  });
  return patternOf('box', sheet, panels, bends, panels[0].region);
};
