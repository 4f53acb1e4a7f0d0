/** Sheet and tools as solids of an independent mesh kernel, folded by its own arithmetic, not by the planner's. */
import type { CrossSection, Manifold, ManifoldToplevel } from 'manifold-3d';
import ManifoldModule from 'manifold-3d';
import type { FlatBend, FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import { flattenContour } from '../../../src/analysis/geometry/contour.js';
import type { Vec2 } from '../../../src/analysis/geometry/vec.js';

let kernel: Promise<ManifoldToplevel> | undefined;

export const loadKernel = (): Promise<ManifoldToplevel> =>
  (kernel ??= ManifoldModule().then((module) => {
    module.setup();
    return module;
  }));

/** Column-major 4 x 4. */
type Matrix = readonly number[];

const IDENTITY: Matrix = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];

const multiply = (a: Matrix, b: Matrix): Matrix =>
  Array.from({ length: 16 }, (_, k) => {
    const [row, column] = [k % 4, Math.floor(k / 4)];
    return [0, 1, 2, 3].reduce((sum, i) => sum + a[row + 4 * i] * b[i + 4 * column], 0);
  });

const translation = (x: number, y: number, z: number): Matrix => [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, x, y, z, 1];

/** Rodrigues about an axis through the origin. */
const rotation = ([x, y, z]: readonly [number, number, number], angle: number): Matrix => {
  const [c, s, t] = [Math.cos(angle), Math.sin(angle), 1 - Math.cos(angle)];
  return [
    t * x * x + c,
    t * x * y + s * z,
    t * x * z - s * y,
    0,
    t * x * y - s * z,
    t * y * y + c,
    t * y * z + s * x,
    0,
    t * x * z + s * y,
    t * y * z - s * x,
    t * z * z + c,
    0,
    0,
    0,
    0,
    1,
  ];
};

const unitOf = ([x, y]: Vec2): Vec2 => [x / Math.hypot(x, y), y / Math.hypot(x, y)];

/** Child's flat coordinates in the parent's once the bend is made, about the axis at the parent's tangent. */
const foldMatrix = (flat: FlatPattern, bend: FlatBend): Matrix => {
  const [a, b] = bend.tangents[0];
  const [ux, uy] = unitOf([b[0] - a[0], b[1] - a[1]]);
  const c = bend.tangents[1][0];
  // The axis turned so that the child, off to one side of it, comes up for a positive angle.
  const childLeft = ux * (c[1] - a[1]) - uy * (c[0] - a[0]) > 0;
  const [nx, ny] = childLeft ? [-uy, ux] : [uy, -ux];
  const sense = (childLeft ? 1 : -1) * (bend.direction === 'up' ? 1 : -1);
  const height = bend.direction === 'up' ? bend.radius : -flat.thickness - bend.radius;
  const turned = multiply(
    translation(a[0], a[1], height),
    multiply(rotation([ux, uy, 0], bend.angle * sense), translation(-a[0], -a[1], -height)),
  );
  return multiply(turned, translation(-nx * bend.allowance, -ny * bend.allowance, 0));
};

export interface SolidSide {
  /** Metal in one plane with the bend line, and the rest. */
  readonly level: Manifold | undefined;
  readonly raised: Manifold | undefined;
}

export interface SideQuestion {
  readonly flat: FlatPattern;
  /** Bend in question and the side of it: 0 parent's, 1 child's. */
  readonly bend: number;
  readonly side: 0 | 1;
  readonly isBent: (bend: number) => boolean;
  /** Taken off both faces of the sheet (negative: put on). */
  readonly thinner: number;
  /** Taken off the outline of every plate and the ends of every roll. Default 0. */
  readonly inset?: number;
}

/** Metal of one side, in (distance from the line, height over the underside, station along the line). */
export const solidSide = (
  { Manifold, CrossSection }: ManifoldToplevel,
  { flat, bend: index, side, isBent, thinner, inset = 0 }: SideQuestion,
): SolidSide => {
  const bend = flat.bends[index];
  const { thickness } = flat;
  const plate = (corners: readonly Vec2[]): Manifold => {
    const ring = corners.map(([x, y]): [number, number] => [x, y]);
    const whole: CrossSection = new CrossSection([ring], 'NonZero');
    const section = inset > 0 ? whole.offset(-inset, 'Miter', 2) : whole;
    return Manifold.extrude(section, thickness - 2 * thinner).translate([0, 0, thinner - thickness]);
  };
  /** The zone bent: a pie slice of a ring between the radii, swept in many steps by the kernel. */
  const roll = (made: FlatBend): Manifold => {
    const [a, b] = made.tangents[0];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const [ux, uy] = unitOf([b[0] - a[0], b[1] - a[1]]);
    const c = made.tangents[1][0];
    const left = ux * (c[1] - a[1]) - uy * (c[0] - a[0]) > 0;
    const [nx, ny] = left ? [-uy, ux] : [uy, -ux];
    const up = made.direction === 'up';
    const [inner, outer] = [made.radius + thinner, made.radius + thickness - thinner];
    const ring: [number, number][] = [];
    const steps = 32;
    for (let i = 0; i <= steps; i++)
      ring.push([outer * Math.sin((made.angle * i) / steps), -outer * Math.cos((made.angle * i) / steps)]);
    for (let i = steps; i >= 0; i--)
      ring.push([inner * Math.sin((made.angle * i) / steps), -inner * Math.cos((made.angle * i) / steps)]);
    // Section in (away, height), extruded along the bend.
    const solid = Manifold.extrude(new CrossSection([ring], 'NonZero'), length - 2 * inset).translate([0, 0, inset]);
    const flip = up ? 1 : -1;
    const height = up ? made.radius : -thickness - made.radius;
    const matrix: Matrix = [nx, ny, 0, 0, 0, 0, flip, 0, ux, uy, 0, 0, a[0], a[1], height, 1];
    return solid.transform(matrix as never);
  };
  const level: Manifold[] = [];
  const raised: Manifold[] = [];
  const start = side === 0 ? bend.parent : bend.child;
  const stack: { panel: number; place: Matrix; flatSoFar: boolean; through: number }[] = [
    { panel: start, place: IDENTITY, flatSoFar: true, through: index },
  ];
  for (let here = stack.pop(); here; here = stack.pop()) {
    const { panel, place, flatSoFar, through } = here;
    (flatSoFar ? level : raised).push(
      plate(flattenContour(flat.panels[panel].region, 0.005)).transform(place as never),
    );
    flat.bends.forEach((next, i) => {
      if (i === through || i === index || (next.parent !== panel && next.child !== panel)) return;
      const forward = next.parent === panel;
      const other = forward ? next.child : next.parent;
      if (!isBent(i)) {
        (flatSoFar ? level : raised).push(
          plate([...next.tangents[0], next.tangents[1][1], next.tangents[1][0]]).transform(place as never),
        );
        stack.push({ panel: other, place, flatSoFar, through: i });
        return;
      }
      const fold = foldMatrix(flat, next);
      const beyond = multiply(place, forward ? fold : invert(fold));
      raised.push(roll(next).transform((forward ? place : beyond) as never));
      stack.push({ panel: other, place: beyond, flatSoFar: false, through: i });
    });
  }
  const [ox, oy] = bend.start;
  const [ux, uy] = unitOf([bend.end[0] - ox, bend.end[1] - oy]);
  const c = bend.tangents[side][0];
  const left = ux * (c[1] - oy) - uy * (c[0] - ox) > 0;
  const [nx, ny] = left ? [-uy, ux] : [uy, -ux];
  const up = bend.direction === 'up';
  // Rows: distance, height, station; given column by column.
  const view: Matrix = [
    nx,
    0,
    ux,
    0,
    ny,
    0,
    uy,
    0,
    0,
    up ? 1 : -1,
    0,
    0,
    -(ox * nx + oy * ny),
    up ? thickness : 0,
    -(ox * ux + oy * uy),
    1,
  ];
  const together = (solids: readonly Manifold[]): Manifold | undefined =>
    solids.length > 0 ? Manifold.union([...solids]).transform(view as never) : undefined;
  return { level: together(level), raised: together(raised) };
};

/** Inverse of a rigid matrix. */
const invert = (m: Matrix): Matrix => {
  const shift = [m[12], m[13], m[14]];
  const back = [0, 1, 2].map((i) => -(m[4 * i] * shift[0] + m[4 * i + 1] * shift[1] + m[4 * i + 2] * shift[2]));
  return [m[0], m[4], m[8], 0, m[1], m[5], m[9], 0, m[2], m[6], m[10], 0, back[0], back[1], back[2], 1];
};

/** Tool outlines in (distance, height) as prisms between two stations, all grown by `grow` mm (shrunk when negative). */
export const toolSolid = (
  { Manifold, CrossSection }: ManifoldToplevel,
  outlines: readonly Float64Array[],
  from: number,
  to: number,
  grow: number,
): Manifold => {
  const prisms = outlines.map((outline) => {
    const ring: [number, number][] = [];
    for (let i = 0; i < outline.length; i += 2) ring.push([outline[i], outline[i + 1]]);
    const section = new CrossSection([ring], 'NonZero').offset(grow, 'Miter', 2);
    return Manifold.extrude(section, to - from + 2 * grow).translate([0, 0, from - grow]);
  });
  return Manifold.union(prisms);
};

/** The solid turned in the plane across the bend line and shifted in it. */
export const movedSolid = (solid: Manifold, cos: number, sin: number, x: number, y: number): Manifold =>
  solid.transform([cos, sin, 0, 0, -sin, cos, 0, 0, 0, 0, 1, 0, x, y, 0, 1] as never);

export const overlapVolume = (a: Manifold, b: Manifold): number => a.intersect(b).volume();
