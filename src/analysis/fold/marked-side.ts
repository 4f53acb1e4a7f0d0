/**
 * Which side of a piece lies up when it is cut and marked. A sheet is bent up from the bed, so that whoever bends it sees the
 * lines of the bends that turn up on the marked side; the others lie underneath.
 */
import { memoBy } from '../cache/memo.js';
import { extentOfContour, mapContour } from '../geometry/contour.js';
import { toSpace } from '../geometry/frame.js';
import { ROUND_OFF } from '../geometry/tolerance.js';
import { distance2, scale, type Vec2 } from '../geometry/vec.js';
import type { SheetSide } from '../model/marked.js';
import type { Tub } from '../model/tub.js';
import type { FlatBend, FlatMark, FlatPattern } from './flat-pattern.js';

/** The side that lies up in a flat as it is: dry unless it was turned over to be marked. */
export const sideUpOf = ({ dryUp }: FlatPattern): SheetSide => (dryUp ? 'wet' : 'dry');

export const otherSide = (side: SheetSide): SheetSide => (side === 'dry' ? 'wet' : 'dry');

/** Is a mark on the side that lies down? It is drawn as if the sheet were glass, and not marked. */
export const isHidden = (flat: FlatPattern, { side = 'dry' }: FlatMark): boolean => side !== sideUpOf(flat);

/** Marks of what stands on a face of the piece: closed ones on the side on which it stands, its wet face along the first two points. */
export const feetOn = ({ marks }: FlatPattern): readonly FlatMark[] => marks.filter(({ isFoot }) => isFoot);

/** The same piece dry side up, as it is folded and planned. */
export const dryUpOf = (flat: FlatPattern): FlatPattern => flat.dryUp ?? flat;

/**
 * A flat (dry side up) with the side up that is marked: the stated one, else the one on which more of its bend lines are
 * seen while they are bent. Places cannot be carried round an edge as a line can, so a piece on which clips sit stays dry
 * side up, and one on which dividers stand lies wet side up. The same object for the same flat.
 */
export const asMarked = ({ marks }: Pick<Tub, 'marks'>, flat: FlatPattern): FlatPattern => {
  const isOn = (panel: number): boolean => flat.panels.some(({ face }) => face === panel);
  const stated = marks?.find(({ panels }) => panels.some(isOn)) ?? marks?.find(({ panels }) => panels.length === 0);
  return (stated?.side ?? seenSideOf(flat)) === 'wet' ? wetUp(flat) : flat;
};

const seenSideOf = (flat: FlatPattern): SheetSide => {
  const places = flat.marks.filter(({ kind }) => kind === 'place').map(({ side = 'dry' }) => side);
  if (places.length > 0) return places.includes('dry') ? 'dry' : 'wet';
  const lengths = { up: 0, down: 0 };
  for (const { direction, start, end } of flat.bends) lengths[direction] += distance2(start, end);
  return lengths.down > lengths.up + ROUND_OFF ? 'wet' : 'dry';
};

const wetUp = memoBy((flat: FlatPattern): FlatPattern => {
  const { min, max } = extentOfContour(flat.outline);
  const turn = ([x, y]: Vec2): Vec2 => [min[0] + max[0] - x, y];
  const { place } = flat;
  return {
    ...flat,
    dryUp: flat,
    outline: mapContour(flat.outline, turn),
    holes: flat.holes.map((hole) => ({
      ...hole,
      contour: mapContour(hole.contour, turn),
      circle: hole.circle && { ...hole.circle, center: turn(hole.circle.center) },
    })),
    bends: flat.bends.map((bend) => bendTurned(bend, turn)),
    panels: flat.panels.map((panel) => ({ ...panel, region: mapContour(panel.region, turn) })),
    marks: flat.marks.map((mark) => ({ ...mark, points: mark.points.map(turn) })),
    place: place && { ...place, origin: toSpace(place, [min[0] + max[0], 0]), u: scale(place.u, -1) },
  };
});

const bendTurned = (bend: FlatBend, turn: (point: Vec2) => Vec2): FlatBend => {
  const [parent, child] = bend.tangents;
  return {
    ...bend,
    direction: bend.direction === 'up' ? 'down' : 'up',
    start: turn(bend.start),
    end: turn(bend.end),
    tangents: [
      [turn(parent[0]), turn(parent[1])],
      [turn(child[0]), turn(child[1])],
    ],
  };
};
