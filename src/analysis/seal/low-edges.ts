/** Free edges far below the rim that the tub was given. */
import { distance, type Vec3 } from '../geometry/vec.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import type { Tub } from '../model/tub.js';
import type { FaceIndex, Shape } from '../shape/shape.js';
import { dividersOf } from '../shape/account/dividers.js';
import { lowEnd, type EdgeAccount, type EdgeEntry } from '../shape/account/edge-account.js';

export interface LowEdge {
  readonly entry: EdgeEntry;
  /** Level of the rim it falls short of, mm. */
  readonly rim: number;
}

/** mm. A free edge this much below the rim is no longer a rim that is a little out. */
const FALLS_SHORT = 1;

/**
 * The lowest free edge of each panel that water stands on, where it lies below the level that the tub's own rims set: the
 * lowest stated `rim`, or top of a side. Panels count from those with an outlet (or the lowest) outward, as far as they
 * connect below that level: a drip edge outside the rim is not meant, nor the top of a divider, nor the edge of a spout. Empty where nothing says how high the rim is.
 */
export const lowEdgesOf = (tub: Tub, shape: Shape, account: EdgeAccount): readonly LowEdge[] => {
  const rim = rimLevel(tub, shape, account);
  if (!Number.isFinite(rim)) return [];
  const dividers = dividersOf(tub, shape);
  const isAtSpout = atSpouts(tub, shape);
  const low = account.entries.filter(
    ({ stretch, use }) =>
      use === 'free' &&
      !dividers.has(stretch.face) &&
      lowEnd(stretch)[2] <= rim - FALLS_SHORT &&
      !isAtSpout(lowEnd(stretch)),
  );
  if (low.length === 0) return [];
  const wetted = wettedFaces(tub, shape, rim);
  const lowest = new Map<FaceIndex, EdgeEntry>();
  for (const entry of low) {
    const { stretch } = entry;
    if (!wetted.has(stretch.face)) continue;
    const known = lowest.get(stretch.face);
    if (!known || heightOf(entry) < heightOf(known)) lowest.set(stretch.face, entry);
  }
  return [...lowest.values()].map((entry) => ({ entry, rim }));
};

/** Is it an end of an edge that is an outlet? That edge is meant to be low, and what rises beside it as well. */
const atSpouts = (tub: Tub, { faces }: Shape): ((place: Vec3) => boolean) => {
  const ends = tub.outlets.flatMap(({ panel, spout }) => {
    if (!spout || !faces[panel].usable) return [];
    const { corners, panelEdge } = faces[panel];
    const edge = panelEdge.indexOf(spout.edge);
    return [corners[edge], corners[(edge + 1) % corners.length]];
  });
  return (place) => ends.some((end) => distance(end, place) <= SAME_POINT);
};

const heightOf = ({ stretch }: EdgeEntry): number => lowEnd(stretch)[2];

const rimLevel = (tub: Tub, shape: Shape, account: EdgeAccount): number => {
  let level = Infinity;
  for (const { stretch, use } of account.entries) {
    const { kind, edgeNames } = tub.panels[stretch.face];
    const isTop = kind.kind === 'side' && shape.faces[stretch.face].panelEdge[stretch.edge] === edgeNames.top;
    if (use === 'rim' || isTop) level = Math.min(level, lowEnd(stretch)[2]);
  }
  return level;
};

const wettedFaces = (tub: Tub, shape: Shape, rim: number): ReadonlySet<FaceIndex> => {
  const withOutlet = tub.outlets.map((outlet) => outlet.panel).filter((panel) => shape.faces[panel]?.usable);
  const reached = new Set(withOutlet.length > 0 ? withOutlet : lowestFace(shape));
  for (const face of reached) {
    for (const stretch of shape.faces[face].stretches.flat()) {
      if (lowEnd(stretch)[2] > rim - FALLS_SHORT) continue;
      for (const mate of stretch.mates) reached.add(mate.face);
    }
  }
  return reached;
};

const lowestFace = (shape: Shape): FaceIndex[] => {
  let [best, level] = [-1, Infinity];
  for (const face of shape.faces) {
    if (!face.usable || face.frame.normal[2] <= 0) continue;
    const low = Math.min(...face.corners.map((corner) => corner[2]));
    if (low < level) [best, level] = [face.panel, low];
  }
  return best < 0 ? [] : [best];
};
