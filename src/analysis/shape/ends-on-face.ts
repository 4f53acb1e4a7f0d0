/** Edges that lie on a face along part of their length and go past it, parted where they leave it. */
import { heightOver, toPlane } from '../geometry/frame.js';
import { cross2, distance, lerp, subtract2 } from '../geometry/vec.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { OFF_PLANE } from '../model/tolerance.js';
import type { Seam, SeamMember, Tub } from '../model/tub.js';
import type { Face, Stretch } from './shape.js';

/**
 * Faces of which an edge that nothing lies along, and that a seam joins to a face that it goes past, is parted where it leaves that
 * face: the part on it is what the seam closes. Cost: O(1) for each edge without a mate and each face of the seam's other member.
 */
export const partedPastFaces = (tub: Tub, faces: readonly Face[]): readonly Face[] => {
  const made = new Map<number, Face>();
  const at = (panel: number): Face => made.get(panel) ?? faces[panel];
  for (const { members } of tub.seams) {
    for (const [standing, under] of [members, [...members].reverse()] as readonly Seam['members'][]) {
      if (under.edge) continue;
      for (const panel of standing.panels) {
        const face = at(panel);
        if (!face?.usable) continue;
        const parted = partEdges(tub, face, standing, under.panels.map(at));
        if (parted) made.set(panel, parted);
      }
    }
  }
  return made.size === 0 ? faces : faces.map((face, panel) => made.get(panel) ?? face);
};

const partEdges = (tub: Tub, face: Face, { edge }: SeamMember, grounds: readonly Face[]): Face | undefined => {
  let isChanged = false;
  const stretches = face.stretches.map((list, i): readonly Stretch[] => {
    if (list.length !== 1 || list[0].mates.length > 0) return list;
    if (edge && face.panelEdge[i] !== edge.edge) return list;
    for (const ground of grounds) {
      if (!ground?.usable || ground.panel === face.panel) continue;
      const stops = stopsOn(list[0], ground, tub.sheets[tub.panels[ground.panel].sheet]?.thickness ?? 0);
      if (stops.length === 0) continue;
      isChanged = true;
      return partedAt(list[0], stops);
    }
    return list;
  });
  return isChanged ? { ...face, stretches } : undefined;
};

/** Shares of a stretch that lies on a skin of a face at which it comes onto that face or leaves it, ascending. */
const stopsOn = ({ start, end }: Stretch, { frame, outline }: Face, thickness: number): readonly number[] => {
  const heights = [start, end].map((corner) => heightOver(frame, corner));
  const isOn = [0, -thickness].some((skin) => heights.every((height) => Math.abs(height - skin) <= OFF_PLANE));
  if (!isOn) return [];
  const from = toPlane(frame, start);
  const along = subtract2(toPlane(frame, end), from);
  const least = SAME_POINT / distance(start, end);
  const stops = outline.flatMap((corner, i): readonly number[] => {
    const side = subtract2(outline[(i + 1) % outline.length], corner);
    const turn = cross2(along, side);
    const share = cross2(subtract2(corner, from), side) / turn;
    const onSide = cross2(subtract2(corner, from), along) / turn;
    return share > least && share < 1 - least && onSide >= 0 && onSide <= 1 ? [share] : [];
  });
  return stops.sort((p, q) => p - q).filter((share, i, all) => i === 0 || share - all[i - 1] > least);
};

const partedAt = (stretch: Stretch, stops: readonly number[]): readonly Stretch[] =>
  [...stops, 1].map((share, i) => ({
    ...stretch,
    start: i === 0 ? stretch.start : lerp(stretch.start, stretch.end, stops[i - 1]),
    end: share === 1 ? stretch.end : lerp(stretch.start, stretch.end, share),
  }));
