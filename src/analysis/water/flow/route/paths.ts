import type { DrainPath, OutletIndex, PathStop } from '../../../model/tub.js';
import type { FaceIndex } from '../../../shape/shape.js';
import type { FlowNet } from '../flow-net.js';
import type { FlowEnd } from './route-ends.js';
import { panelAt } from '../../surface/surface.js';
import { routeFlow } from './route.js';

/** One step of a declared path, and what the water on its first panel does. */
export interface PathStep {
  readonly from: PathStop;
  readonly to: PathStop;
  /** Share of water spread evenly over the first panel that goes on to the second stop. */
  readonly share: number;
  /** Where the rest goes, largest first. */
  readonly strays: readonly Stray[];
}

export type Stray = { readonly share: number } & (
  | { readonly kind: 'face'; readonly face: FaceIndex }
  | { readonly kind: 'opening'; readonly opening: number }
  | { readonly kind: 'rim'; readonly face: FaceIndex }
  | { readonly kind: 'pool' }
);

/** Follows evenly spread water from each panel of a path to where it first leaves it. */
export const followPath = (
  net: FlowNet,
  endsIn: (outlet: OutletIndex, end: FlowEnd) => boolean,
  { stops }: DrainPath,
): readonly PathStep[] =>
  stops.slice(1).flatMap((to, i): readonly PathStep[] => {
    const from = stops[i];
    if (from.kind !== 'panel' || !net.surface.faces[from.panel]?.usable) return [];
    const next = to.kind === 'panel' ? to.panel : undefined;
    const { ends } = routeFlow(net, { kind: 'face', face: from.panel, rate: 1 }, { from: from.panel, next });
    const isNext = (end: FlowEnd): boolean =>
      to.kind === 'panel' ? end.kind === 'face' && end.face === to.panel : endsIn(to.outlet, end);
    const share = ends.filter(isNext).reduce((sum, { flux }) => sum + flux, 0);
    const strays = new Map<string, Stray>();
    for (const end of ends) {
      if (isNext(end)) continue;
      const stray = strayOf(net, end);
      const key = JSON.stringify({ ...stray, share: 0 });
      strays.set(key, { ...stray, share: stray.share + (strays.get(key)?.share ?? 0) });
    }
    return [{ from, to, share, strays: [...strays.values()].sort((p, q) => q.share - p.share) }];
  });

const strayOf = ({ surface }: FlowNet, end: FlowEnd): Stray => {
  if (end.kind === 'face') return { kind: 'face', face: end.face, share: end.flux };
  if (end.kind === 'opening') return { kind: 'opening', opening: end.opening, share: end.flux };
  if (end.kind === 'edge')
    return { kind: 'rim', face: panelAt(surface, surface.edge(end.edge).triangles[0]), share: end.flux };
  return { kind: 'pool', share: end.flux };
};
