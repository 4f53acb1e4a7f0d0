/** Panels that stand in the tub: sheet with liquid on both of its sides. */
import { memoBy } from '../../cache/memo.js';
import { NO_AREA } from '../../geometry/tolerance.js';
import { cross, distance, dot, subtract } from '../../geometry/vec.js';
import type { Tub } from '../../model/tub.js';
import { accountEdges } from './edge-account.js';
import type { Face, FaceIndex, Foot, Shape, Stretch } from '../shape.js';

/** A panel that stands on the wet side of others. */
export interface Divider {
  readonly face: FaceIndex;
  /** Of its sheet, mm: its metal lies behind its face. */
  readonly thickness: number;
  /** By stretch of its edge, where it stands. */
  readonly feet: ReadonlyMap<Stretch, Foot>;
}

export type Dividers = ReadonlyMap<FaceIndex, Divider>;

/**
 * Panels of which an edge stands on the wet side of another panel, away from that one's edges, together with what hangs on them alone.
 * An edge within 6 mm of a face was meant to stand on it; the leak checks tell the gap. What holds an outlet, or covers
 * more of the plan than what it stands on, is the tub itself: a floor between sides that go on below it. A foot that is said to be
 * open lets the liquid by, so that its panel and all that hangs on it part no water. Cost: O(n log n) in stretches, once
 * for each shape.
 */
export const dividersOf = (tub: Tub, shape: Shape): Dividers => dividersIn(shape)(tub);

const dividersIn = memoBy((shape: Shape) =>
  memoBy((tub: Tub): Dividers => {
    const feet = feetOf(shape);
    if (feet.size === 0) return NONE;
    const found = new Map<FaceIndex, Divider>();
    for (const { group, holders } of standingGroups(shape, feet)) {
      const own = group.flatMap((face) => [...(feet.get(face) ?? NO_FEET).keys()]);
      if (own.some((stretch) => hasOpenSeam(tub, stretch)) || isTheTub(tub, shape, group, holders)) continue;
      for (const face of group) {
        const thickness = tub.sheets[tub.panels[face].sheet]?.thickness ?? 0;
        if (thickness > 0) found.set(face, { face, thickness, feet: feet.get(face) ?? NO_FEET });
      }
    }
    return found;
  }),
);

const hasOpenSeam = (tub: Tub, { seams }: Stretch): boolean => seams.some((seam) => tub.seams[seam].passage);

const isTheTub = (tub: Tub, shape: Shape, group: readonly FaceIndex[], holders: ReadonlySet<FaceIndex>): boolean =>
  tub.outlets.some(({ panel }) => group.includes(panel)) ||
  planOf(shape, group) > planOf(shape, [...holders]) + NO_AREA;

/** What faces cover seen from above, mm2. */
const planOf = ({ faces }: Shape, list: readonly FaceIndex[]): number =>
  list.reduce((sum, face) => sum + faces[face].area * Math.max(0, faces[face].frame.normal[2]), 0);

const NONE: Dividers = new Map();
const NO_FEET: Divider['feet'] = new Map();

/** An opening of a divider leads from one side to the other, but for outlets and what a fastener fills. */
export const letsBy = (tub: Tub, opening: number): boolean =>
  tub.openings[opening].use !== 'outlet' && tub.openings[opening].fastener === undefined;

/** Feet of the faces that stand on the wet side of at least one other. */
const feetOf = (shape: Shape): ReadonlyMap<FaceIndex, ReadonlyMap<Stretch, Foot>> => {
  const found = new Map<FaceIndex, Map<Stretch, Foot>>();
  for (const { stretch, use, miss } of accountEdges(shape).entries) {
    const foot =
      stretch.feet?.[0] ??
      (use === 'near' && miss?.edge === undefined && miss ? against(shape, stretch, miss.face) : undefined);
    if (!foot || !shape.faces[foot.face].usable) continue;
    const known = found.get(stretch.face);
    if (known) known.set(stretch, foot);
    else found.set(stretch.face, new Map([[stretch, foot]]));
  }
  for (const [face, feet] of found) if (!isOnFeet(shape.faces[face], feet)) found.delete(face);
  return found;
};

/**
 * Whether a face stands on those feet: on the wet side of something, and with more of some edge than is joined there to the edges of
 * others. The end of a wall that goes by a rail beyond the wall it is joined to is no foot.
 */
const isOnFeet = ({ stretches }: Face, feet: ReadonlyMap<Stretch, Foot>): boolean =>
  [...feet.values()].some(({ skin }) => skin === 'wet') &&
  stretches.some((edge) => {
    const standing = sumOf(edge.filter((stretch) => feet.has(stretch)));
    return standing > 0 && standing >= sumOf(edge.filter(({ mates }) => mates.length > 0));
  });

const sumOf = (stretches: readonly Stretch[]): number =>
  stretches.reduce((sum, { start, end }) => sum + distance(start, end), 0);

/** The side of a face on which the panel of a stretch stands. */
const against = ({ faces }: Shape, stretch: Stretch, under: FaceIndex): Foot => {
  const inward = cross(faces[stretch.face].frame.normal, subtract(stretch.end, stretch.start));
  return { face: under, skin: dot(inward, faces[under].frame.normal) > 0 ? 'wet' : 'dry' };
};

/** Panels that hang together, and the others on which they stand or whose edges they lie along. */
interface Standing {
  readonly group: readonly FaceIndex[];
  readonly holders: ReadonlySet<FaceIndex>;
}

/** Faces with feet, together with what hangs on them and on nothing that something stands on. O(n). */
const standingGroups = (
  { faces }: Shape,
  feet: ReadonlyMap<FaceIndex, ReadonlyMap<Stretch, Foot>>,
): readonly Standing[] => {
  const grounds = new Set([...feet.values()].flatMap((own) => [...own.values()].map(({ face }) => face)));
  const fixed = new Set<FaceIndex>();
  /** What hangs together by its edges without passing a face with feet; none where something stands on it. */
  const hangingFrom = (start: FaceIndex): readonly FaceIndex[] => {
    const reached = new Set([start]);
    for (const face of reached) {
      if (!grounds.has(face) && !fixed.has(face)) {
        for (const mate of matesOf(faces[face])) if (!feet.has(mate)) reached.add(mate);
        continue;
      }
      for (const other of reached) fixed.add(other);
      return [];
    }
    return [...reached];
  };
  const taken = new Set<FaceIndex>();
  return [...feet.keys()].flatMap((start): readonly Standing[] => {
    if (taken.has(start)) return [];
    const group = new Set([start]);
    const holders = new Set<FaceIndex>();
    for (const face of group) {
      taken.add(face);
      for (const foot of feet.get(face)?.values() ?? []) holders.add(foot.face);
      for (const mate of matesOf(faces[face])) {
        const hanging = group.has(mate) ? [] : feet.has(mate) ? [mate] : fixed.has(mate) ? [] : hangingFrom(mate);
        for (const other of hanging) group.add(other);
        if (hanging.length === 0 && !group.has(mate)) holders.add(mate);
      }
    }
    return [{ group: [...group], holders }];
  });
};

const matesOf = ({ stretches, usable }: Face): readonly FaceIndex[] =>
  usable ? stretches.flatMap((list) => list.flatMap(({ mates }) => mates.map(({ face }) => face))) : [];
