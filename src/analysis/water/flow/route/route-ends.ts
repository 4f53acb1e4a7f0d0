import type { Vec2 } from '../../../geometry/vec.js';
import type { FaceIndex } from '../../../shape/shape.js';
import { isHole, type FlowNet } from '../flow-net.js';
import { listOf } from '../../surface/mesh.js';

/** Where water ends, and how much of it, mm3/s. */
export type FlowEnd = { readonly flux: number } & (
  | { readonly kind: 'opening'; readonly opening: number }
  /** `span`: the part of the edge that it runs over, from its first point, 0, to its second, 1. */
  | { readonly kind: 'edge'; readonly edge: number; readonly span: readonly [number, number] }
  | { readonly kind: 'flatArea'; readonly flatArea: number }
  | { readonly kind: 'face'; readonly face: FaceIndex }
  | { readonly kind: 'unresolved' }
);

/** Water that comes over the rim of an opening, with the way it travels in plan; undefined: from standing water. */
export interface Entry {
  readonly opening: number;
  readonly travel: Vec2 | undefined;
  readonly flux: number;
}

export interface Ends {
  readonly opening: (edge: number, from: number | undefined, flux: number) => void;
  /** Water that falls into the hole itself, or runs into it at a corner. */
  readonly openingOf: (triangle: number, flux: number, from?: 'around') => void;
  /** Standing water that an opening takes; `around`: the part of it that did not run to the opening. */
  readonly taken: (opening: number, flux: number, around: number) => void;
  readonly edge: (edge: number, flux: number, span: readonly [number, number]) => void;
  readonly flatArea: (flatArea: number, flux: number) => void;
  readonly face: (face: FaceIndex, flux: number) => void;
  readonly unresolved: (flux: number) => void;
  readonly ends: () => readonly FlowEnd[];
  readonly entries: () => readonly Entry[];
}

/** Adds up where water ends, one sum for each place. `isHeld`: does the water of an opening stand over it, and go on from there? */
export const collectEnds = (
  net: FlowNet,
  isHeld: (opening: number, triangle: number, flux: number) => boolean,
): Ends => {
  const { mesh, faces } = net.surface;
  const sums = new Map<string, FlowEnd>();
  const entries: Entry[] = [];
  const add = (key: string, made: FlowEnd): void => {
    const known = sums.get(key);
    sums.set(key, known ? { ...made, flux: known.flux + made.flux } : made);
  };
  const enter = (triangle: number, travel: Vec2 | undefined, flux: number): void => {
    const opening = mesh.openingOf[triangle];
    entries.push({ opening, travel, flux });
    if (isHeld(opening, triangle, flux)) return;
    add(`opening ${opening}`, { kind: 'opening', opening, flux });
  };
  const travelOn = (triangle: number): Vec2 | undefined => {
    const { normal } = faces[mesh.faceOf[triangle]].frame;
    const length = Math.hypot(normal[0], normal[1]);
    return length > 0 ? [normal[0] / length, normal[1] / length] : undefined;
  };
  return {
    opening: (edge, from, flux) => {
      const around = listOf(mesh.trianglesOfEdge, edge);
      const hole = around.find((t) => isHole(net, t)) ?? around[0];
      enter(hole, from === undefined ? undefined : travelOn(from), flux);
    },
    taken: (opening, flux, around) => {
      if (around > 0) entries.push({ opening, travel: undefined, flux: around });
      add(`opening ${opening}`, { kind: 'opening', opening, flux });
    },
    openingOf: (triangle, flux, from) => enter(triangle, from ? undefined : travelOn(triangle), flux),
    edge: (edge, flux, span) => {
      const known = sums.get(`edge ${edge}`);
      const all =
        known?.kind === 'edge' ? ([Math.min(known.span[0], span[0]), Math.max(known.span[1], span[1])] as const) : span;
      add(`edge ${edge}`, { kind: 'edge', edge, flux, span: all });
    },
    flatArea: (flatArea, flux) => add(`flatArea ${flatArea}`, { kind: 'flatArea', flatArea, flux }),
    face: (face, flux) => add(`face ${face}`, { kind: 'face', face, flux }),
    unresolved: (flux) => {
      if (flux !== 0) add('unresolved', { kind: 'unresolved', flux });
    },
    ends: () => [...sums.values()],
    entries: () => entries,
  };
};
