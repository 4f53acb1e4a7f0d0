import type { FaceIndex } from '../shape/shape.js';
import { SAME_DIRECTION } from '../geometry/tolerance.js';
import type { Tub } from '../model/tub.js';
import { inclinationOf } from './standing/slopes.js';
import type { Routed } from './flow/route/routing.js';
import { panelAt } from './surface/surface.js';
import { solidsData } from './flow/solids.js';
import type { Water } from './water.js';

/** A place on the way of an inflow where what it carries comes to rest. */
export interface RestPlace {
  readonly inflow: number;
  readonly kind: 'panel' | 'crease' | 'pool';
  readonly faces: readonly FaceIndex[];
  /** At worst within `level`, rad; 0 for standing water. */
  readonly worst: number;
  /** Least inclination that keeps them moving, rad. */
  readonly needed: number;
  /** Part of the inflow that comes through here; undefined for a panel, of which it is not known. */
  readonly share: number | undefined;
  /** Highest point of the place: the first on the way lies highest. */
  readonly height: number;
}

/** Panels, creases and pools that an inflow's solids do not get over, the first on the way first. */
export const restPlaces = (tub: Tub, water: Water): readonly RestPlace[] =>
  water.flows().flatMap(({ inflow, routed, rateMm3S }): readonly RestPlace[] => {
    const { solids } = tub.inflows[inflow];
    if (!solids || !routed) return [];
    const needed = solidsData[solids.kind].slope;
    const { net } = water.followedOn();
    const { faces, points } = net.surface;
    const worstOf = (inclination: number): number => Math.max(0, inclination - water.within);
    const panels = [...routed.faces].map((face): RestPlace => {
      const height = Math.max(...faces[face].corners.map((corner) => corner[2]));
      return {
        inflow,
        kind: 'panel',
        faces: [face],
        worst: worstOf(inclinationOf(faces[face].frame.normal)),
        needed,
        share: undefined,
        height,
      };
    });
    const creases = [...new Set(routed.streams.flatMap(({ edge }) => edge ?? []))].flatMap(
      (edge): readonly RestPlace[] => {
        const { a, b, triangles } = net.surface.edge(edge);
        const sides = [...new Set(triangles.map((t) => panelAt(net.surface, t)))].sort((p, q) => p - q);
        if (sides.length < 2) return [];
        const [p, q] = [points[a], points[b]];
        const inclination = Math.atan2(Math.abs(p[2] - q[2]), Math.hypot(p[0] - q[0], p[1] - q[1]));
        return [
          {
            inflow,
            kind: 'crease',
            faces: sides,
            worst: worstOf(inclination),
            needed,
            share: inCrease(routed, edge) / rateMm3S,
            height: Math.max(p[2], q[2]),
          },
        ];
      },
    );
    const pools = [...routed.through.keys()]
      .filter((flatArea) => net.flatAreas[flatArea].pools.length > 0)
      .map((flatArea): RestPlace => {
        const { faces: around, level } = net.flatAreas[flatArea];
        const share = (routed.through.get(flatArea) ?? 0) / rateMm3S;
        return {
          inflow,
          kind: 'pool',
          faces: [...around].sort((p, q) => p - q),
          worst: 0,
          needed,
          share,
          height: level,
        };
      });
    const rests = [...panels, ...onePerPair(creases), ...pools].filter(({ worst }) => worst < needed - SAME_DIRECTION);
    return rests.sort((p, q) => q.height - p.height);
  });

/** What runs along an edge, mm3/s. */
const inCrease = ({ streams }: Routed, edge: number): number =>
  streams.reduce((sum, stream) => sum + (stream.edge === edge ? stream.flux : 0), 0);

/** A crease cut into several edges is one place: its flattest part, at its highest point. */
const onePerPair = (creases: readonly RestPlace[]): readonly RestPlace[] => {
  const byPair = new Map<string, RestPlace>();
  for (const crease of creases) {
    const key = crease.faces.join(' ');
    const known = byPair.get(key);
    byPair.set(
      key,
      known
        ? {
            ...known,
            worst: Math.min(known.worst, crease.worst),
            share: Math.max(known.share ?? 0, crease.share ?? 0),
            height: Math.max(known.height, crease.height),
          }
        : crease,
    );
  }
  return [...byPair.values()];
};
