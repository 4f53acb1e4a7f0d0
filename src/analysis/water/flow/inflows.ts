import { toPlane } from '../../geometry/frame.js';
import { lerp2, type Vec2, type Vec3 } from '../../geometry/vec.js';
import type { Inflow, OutletIndex, Tub } from '../../model/tub.js';
import type { Stretch } from '../../shape/shape.js';
import { spoutOver } from '../../shape/spouts.js';
import type { FlowNet } from './flow-net.js';
import type { FlowEnd } from './route/route-ends.js';
import { routeFlow } from './route/route.js';
import type { FlowSource, Routed, Stops } from './route/routing.js';
import { trianglesOfFace } from '../surface/mesh.js';

/** Where a share of an inflow ends. */
export type InflowEnd = { readonly share: number; readonly rateMm3S: number } & (
  | { readonly kind: 'outlet'; readonly outlet: OutletIndex }
  /** Through a hole, cutout or slot. */
  | { readonly kind: 'opening'; readonly opening: number }
  /** Over a rim or free edge: the part of it between two points. */
  | {
      readonly kind: 'rim';
      readonly stretch: Stretch;
      readonly start: Vec3;
      readonly end: Vec3;
      readonly isOverfull?: true;
    }
  /** Into standing water that nothing leads out of. */
  | { readonly kind: 'pool'; readonly flatArea: number }
  | { readonly kind: 'unresolved' }
);

export interface InflowFlow {
  /** Index into `Tub.inflows`. */
  readonly inflow: number;
  /** Of a pumped one with its tank as low as it stands while it runs. */
  readonly rateMm3S: number;
  /** Shares of all ends sum to 1. Empty where the panel cannot be used. */
  readonly ends: readonly InflowEnd[];
  readonly routed: Routed | undefined;
}

/** Follows every inflow to where it ends. `overfull`: free edges over which water leaves for want of outlets. */
export const followInflows = (
  tub: Tub,
  net: FlowNet,
  stops?: Stops,
  overfull?: ReadonlySet<number>,
): readonly InflowFlow[] =>
  tub.inflows.map((inflow, index) => {
    const source = sourceOf(net, inflow);
    const { rateMm3S } = inflow;
    if (!source) return { inflow: index, rateMm3S, ends: [], routed: undefined };
    const routed = routeFlow(net, source, undefined, stops);
    return { inflow: index, rateMm3S, ends: endsOf(tub, net, routed, { rate: rateMm3S, overfull }), routed };
  });

interface Ending {
  readonly rate: number;
  readonly overfull?: ReadonlySet<number> | undefined;
}

export const endsOf = (tub: Tub, net: FlowNet, routed: Routed, { rate, overfull }: Ending): readonly InflowEnd[] =>
  routed.ends
    .map((end): InflowEnd => {
      const amount = { share: end.flux / rate, rateMm3S: end.flux };
      const outlet = outletAt(tub, net, end);
      if (outlet >= 0) return { kind: 'outlet', outlet, ...amount };
      if (end.kind === 'edge') {
        const { a, b, border } = net.surface.edge(end.edge);
        if (!border) return { kind: 'unresolved', ...amount };
        return {
          kind: 'rim',
          stretch: border.stretch,
          start: net.surface.points[a],
          end: net.surface.points[b],
          ...(overfull?.has(end.edge) ? { isOverfull: true } : {}),
          ...amount,
        };
      }
      if (end.kind === 'opening') return { kind: 'opening', opening: end.opening, ...amount };
      return end.kind === 'flatArea'
        ? { kind: 'pool', flatArea: end.flatArea, ...amount }
        : { kind: 'unresolved', ...amount };
    })
    .sort((p, q) => q.share - p.share);

/** The outlet in which a way of the water ends, through its hole or over its edge; -1: it does not end in one. */
export const outletAt = (tub: Tub, { surface }: FlowNet, end: FlowEnd): OutletIndex | -1 => {
  if (end.kind === 'opening') return tub.outlets.findIndex(({ opening }) => opening === end.opening);
  const stretch = end.kind === 'edge' ? surface.edge(end.edge).border?.stretch : undefined;
  return stretch ? spoutOver(tub, surface.faces, stretch) : -1;
};

const sourceOf = (net: FlowNet, { panel, point, rateMm3S }: Inflow): FlowSource | undefined => {
  const face = net.surface.faces[panel];
  if (!face?.usable) return undefined;
  if (!point) return { kind: 'face', face: panel, rate: rateMm3S };
  const spot = triangleAt(net, panel, toPlane(face.frame, point));
  return spot && { kind: 'point', ...spot, rate: rateMm3S };
};

/** The triangle of a face at a place on its plane; for a place off the face the nearest one, moved onto it. */
export const triangleAt = (
  { surface }: Pick<FlowNet, 'surface'>,
  face: number,
  at: Vec2,
): { readonly triangle: number; readonly at: Vec2 } | undefined => {
  let best: { readonly triangle: number; readonly at: Vec2; readonly off: number } | undefined;
  for (const t of trianglesOfFace(surface.mesh, face)) {
    const on = nearestOn(surface.triangle(t).plane, at);
    const off = Math.hypot(on[0] - at[0], on[1] - at[1]);
    if (!best || off < best.off) best = { triangle: t, at: on, off };
    if (best.off === 0) break;
  }
  return best;
};

const nearestOn = (corners: readonly Vec2[], at: Vec2): Vec2 => {
  let nearest: Vec2 | undefined;
  let inside = true;
  corners.forEach((p, i) => {
    const q = corners[(i + 1) % corners.length];
    const [ex, ey] = [q[0] - p[0], q[1] - p[1]];
    if (ex * (at[1] - p[1]) - ey * (at[0] - p[0]) >= 0) return;
    inside = false;
    const t = Math.min(1, Math.max(0, ((at[0] - p[0]) * ex + (at[1] - p[1]) * ey) / (ex * ex + ey * ey)));
    const on = lerp2(p, q, t);
    if (!nearest || Math.hypot(on[0] - at[0], on[1] - at[1]) < Math.hypot(nearest[0] - at[0], nearest[1] - at[1]))
      nearest = on;
  });
  return inside ? at : (nearest ?? at);
};
