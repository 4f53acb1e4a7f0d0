import ManifoldModule, { type CrossSection, type Manifold } from 'manifold-3d';
import type { FoldedPart, Plate, Roll } from '../../../src/analysis/fold/flat-pattern.js';
import { flattenContour } from '../../../src/analysis/geometry/contour.js';
import type { Frame } from '../../../src/analysis/geometry/frame.js';

import { levelOn } from './meeting.js';

export type { Manifold } from 'manifold-3d';

/** Slices of a roll; each is as large as the true wedge, so that volumes are exact. */
const SLICES = 32;

/** An independent solid modeller, and folded parts built in it from plates that are extruded and rolls that are sliced. */
export const solidKernel = async () => {
  const kernel = await ManifoldModule();
  kernel.setup();
  const { CrossSection: Section, Manifold: Solid } = kernel;

  const pairs = (points: readonly (readonly [number, number])[]): [number, number][] => points.map(([x, y]) => [x, y]);

  const placed = (solid: Manifold, { origin, u, v, normal }: Frame): Manifold =>
    solid.transform([
      u[0],
      u[1],
      u[2],
      0,
      v[0],
      v[1],
      v[2],
      0,
      normal[0],
      normal[1],
      normal[2],
      0,
      origin[0],
      origin[1],
      origin[2],
      1,
    ]);

  const plateSolid = (plate: Plate, thickness: number): Manifold => {
    const rings = [plate.contour, ...plate.holes].map((ring) => pairs(flattenContour(ring, 0.0005)));
    const section: CrossSection = new Section(rings, 'EvenOdd');
    return placed(section.extrude(thickness).translate(0, 0, -thickness), plate.frame);
  };

  const rollSolid = ({ axis, sweep, innerRadius, outerRadius, near, far }: Roll): Manifold => {
    // A slice with straight sides loses area to the arcs; radii a little larger give it back.
    const grown = Math.sqrt(sweep / SLICES / Math.sin(sweep / SLICES));
    const arc = (radius: number): [number, number][] =>
      Array.from({ length: SLICES + 1 }, (_, i) => [
        radius * grown * Math.cos((sweep * i) / SLICES),
        radius * grown * Math.sin((sweep * i) / SLICES),
      ]);
    const inner = innerRadius > 1e-6 ? arc(innerRadius).reverse() : [[0, 0] as [number, number]];
    const prism = new Section([[...arc(outerRadius), ...inner]], 'NonZero').extrude(1).warp((p) => {
      const share = Math.hypot(p[0], p[1]) > 1e-9 ? Math.min(1, Math.max(0, Math.atan2(p[1], p[0]) / sweep)) : 0;
      const [low, high] = [near, far].map((line) => levelOn(line, share));
      p[2] = low + (high - low) * p[2];
    });
    return placed(prism, axis);
  };

  const solidOf = ({ plates, rolls, thickness }: FoldedPart): Manifold =>
    Solid.union([...plates.map((plate) => plateSolid(plate, thickness)), ...rolls.map(rollSolid)]);

  /** The hull of points. */
  const hull = (points: readonly (readonly [number, number, number])[]): Manifold =>
    Solid.hull(points.map(([x, y, z]): [number, number, number] => [x, y, z]));

  return { solidOf, plateSolid, rollSolid, hull };
};
