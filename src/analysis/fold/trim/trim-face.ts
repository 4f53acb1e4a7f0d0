import { toSpace } from '../../geometry/frame.js';
import { addScaled2, dot2, left2, subtract2, type Vec2 } from '../../geometry/vec.js';
import { leastKerfOf } from '../../model/shop/default-shop.js';
import type { Tub } from '../../model/tub.js';
import type { Face, FaceIndex, Shape, Stretch } from '../../shape/shape.js';
import { SAME_DIRECTION, SAME_POINT } from '../../geometry/tolerance.js';
import { cutBackShortEnds } from './cut-back.js';
import { lengthOfSide, sidesOf, type FaceSide } from './face-sides.js';
import type { ContourVertex } from '../../geometry/contour.js';
import type { HemSize } from './hem.js';
import { junctionOf, type Junction } from './junction.js';
import type { Metal } from './metal.js';
import { mitreStation } from './mitred-bend.js';
import type { FlatFault, Relief } from '../unfolded.js';

/** The flat region of one face in its own frame (wet view, counter-clockwise): plain vertices, and tangent lines. */
export type LoopItem = { readonly kind: 'vertex'; readonly vertex: ContourVertex } | BendItem | HemItem;

export interface BendItem {
  readonly kind: 'bend';
  readonly bend: number;
  readonly from: Vec2;
  readonly to: Vec2;
  /** Faces along the cut that meets the tangent line at `from`, and at `to`; none where the metal is relieved. */
  readonly beside: readonly [readonly FaceIndex[], readonly FaceIndex[]];
  /** Is that cut set back from the wet edge, at `from` and at `to`? */
  readonly isSetBack: readonly [boolean, boolean];
}

export interface HemItem {
  readonly kind: 'hem';
  readonly rim: number;
  readonly size: HemSize;
  readonly from: Vec2;
  readonly to: Vec2;
  readonly along: Vec2;
  /** How much the lip narrows at each end for every mm outward, so that it lies within the panel once folded. */
  readonly taper: readonly [number, number];
}

export interface TrimmedFace {
  readonly items: readonly LoopItem[];
  readonly faults: readonly FlatFault[];
  readonly reliefs: readonly Relief[];
}

/** Cuts a face back to its tangent lines and out to its cut edges; where a bend ends in the metal it is relieved. */
export const trimFace = (tub: Tub, shape: Shape, face: Face): TrimmedFace => {
  const thickness = tub.sheets[tub.panels[face.panel].sheet].thickness;
  const metal: Metal = { thickness, cut: Math.max(thickness, leastKerfOf(tub)) };
  const sides = cutBackShortEnds(shape, metal, sidesOf(tub, shape, face));
  const n = sides.length;
  const junctions = sides.map((side, i) => junctionOf(shape, face, metal, side, sides[(i + 1) % n]));
  const items: LoopItem[] = [];
  const faults: FlatFault[] = [];
  const reliefs: Relief[] = [];
  sides.forEach((side, i) => {
    const before = junctions[(i + n - 1) % n];
    const after = junctions[i];
    faults.push(...tooShort(face, sides, i, before.start, after.end));
    const item = itemOf(side, [sides[(i + n - 1) % n], before], [sides[(i + 1) % n], after]);
    if (item) items.push(item.kind === 'bend' ? mitred(shape, face, side, item) : item);
    items.push(...after.between.map((vertex): LoopItem => ({ kind: 'vertex', vertex })));
    if (after.relief) reliefs.push({ ...after.relief, ...placeOfRelief(face, side, sides[(i + 1) % n]) });
  });
  return { items, faults: worstOf(faults), reliefs };
};

/** The face's flat region as a closed line, counter-clockwise in its own frame. */
export const regionOf = (items: readonly LoopItem[]): ContourVertex[] =>
  items.flatMap((item): ContourVertex[] =>
    item.kind === 'vertex' ? [item.vertex] : [item.from, item.to].map(([x, y]) => ({ x, y, bulge: 0 })),
  );

const placeOfRelief = (face: Face, side: FaceSide, next: FaceSide): Pick<Relief, 'bend' | 'face' | 'point'> => {
  const bend = [next, side]
    .map(({ join }) => (join.kind === 'bend' ? join.bend : undefined))
    .find((b) => b !== undefined);
  return { bend, face: face.panel, point: toSpace(face.frame, side.to) };
};

type Neighbour = readonly [FaceSide, Junction];

const itemOf = (
  side: FaceSide,
  [previous, before]: Neighbour,
  [next, after]: Neighbour,
): BendItem | HemItem | undefined => {
  const { join, along } = side;
  const [from, to] = [before.start, after.end];
  if (join.kind === 'bend') {
    const beside = [besideBend(previous, before, previous.last), besideBend(next, after, next.first)] as const;
    const isSetBack = [isSetBackAt(previous), isSetBackAt(next)] as const;
    return { kind: 'bend', bend: join.bend, from, to, beside, isSetBack };
  }
  if (join.kind === 'free') return undefined;
  const taper = [taperAt(along, previous, -1), taperAt(along, next, 1)] as const;
  return { kind: 'hem', rim: join.rim, size: join.size, from, to, along, taper };
};

/** Beside a mitred flange of another wall the tangent line ends where the other bend's surface comes up to it. */
const mitred = (shape: Shape, face: Face, side: FaceSide, item: BendItem): BendItem => {
  const bend = shape.bends[item.bend];
  const [from, to] = [item.from, item.to].map((tip, end) => {
    const corner = end === 0 ? side.from : side.to;
    const station = mitreStation(shape, face.panel, bend, toSpace(face.frame, corner), item.beside[end]);
    if (!station) return tip;
    const onTangent = addScaled2(corner, left2(side.along), side.inset);
    return addScaled2(onTangent, side.along, (end === 0 ? 1 : -1) * station(0));
  });
  return { ...item, from, to };
};

const isSetBackAt = ({ join, inset }: FaceSide): boolean => join.kind === 'free' && inset > SAME_POINT;

const besideBend = ({ join }: FaceSide, { relief }: Junction, { mates }: Stretch): readonly FaceIndex[] =>
  join.kind === 'free' && !relief ? mates.map(({ face }) => face) : [];

/** `end` -1: at the start of the hem, beside `neighbour` before it; 1: at its end. */
const taperAt = (along: Vec2, neighbour: FaceSide, end: 1 | -1): number => {
  const away: Vec2 = end === 1 ? neighbour.along : [-neighbour.along[0], -neighbour.along[1]];
  const inward = left2(along);
  let direction = away;
  // Two lips in one corner share it: each is mitred to the bisector.
  if (neighbour.join.kind === 'hem') direction = [away[0] - end * along[0], away[1] - end * along[1]];
  const rise = dot2(direction, inward);
  if (rise <= SAME_DIRECTION) return 0;
  return Math.max(0, (-end * dot2(direction, along)) / rise);
};

/** A leg is short once, however many of its edges show it. */
const worstOf = (faults: readonly FlatFault[]): readonly FlatFault[] => {
  const lack = (fault: FlatFault): number => (fault.kind === 'leg-too-short' ? fault.needs - fault.has : -Infinity);
  const most = Math.max(...faults.map(lack));
  const worst = faults.find((fault) => fault.kind === 'leg-too-short' && lack(fault) === most);
  return faults.filter((fault) => fault.kind !== 'leg-too-short' || fault === worst);
};

/** A side that its neighbours' setbacks use up, or a hem whose lip has no straight part. */
const tooShort = (face: Face, sides: readonly FaceSide[], i: number, from: Vec2, to: Vec2): FlatFault[] => {
  const side = sides[i];
  const has = lengthOfSide(side);
  const left = dot2(subtract2(to, from), side.along);
  const faults: FlatFault[] = [];
  if (side.join.kind === 'hem' && side.join.size.lip <= SAME_POINT) {
    const { inset, lip } = side.join.size;
    faults.push({ kind: 'hem-too-short', rim: side.join.rim, face: face.panel, has: lip + inset, needs: inset });
  }
  if (left > SAME_POINT) return faults;
  const n = sides.length;
  const bends = [sides[(i + n - 1) % n], side, sides[(i + 1) % n]].flatMap(({ join }) =>
    join.kind === 'bend' ? [join.bend] : [],
  );
  faults.push({
    kind: 'leg-too-short',
    face: face.panel,
    edge: side.edge,
    has,
    needs: has - left,
    bends: [...new Set(bends)],
  });
  return faults;
};
