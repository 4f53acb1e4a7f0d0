/** Flat walls, floors and dividers as the liquid bends them. mm, N. */
import { SAME_POINT } from '../../geometry/tolerance.js';
import { cross, distance, dot, lerp, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import { propertiesOf } from '../../material/properties.js';
import type { Tub } from '../../model/tub.js';
import type { Face, FaceIndex, Shape, Stretch } from '../../shape/shape.js';
import { GRAVITY } from '../flow/depth.js';
import type { Water } from '../water.js';
import { bend, type EdgeHold, type Plate } from './plate.js';
import { boxOf, sideOf, type Side, type WallBox } from './wall-box.js';

/** A flat as it bows when the tub is full. */
export interface WallBow {
  readonly face: FaceIndex;
  /** Of the rectangle around its widest bay. */
  readonly width: number;
  readonly height: number;
  /** Of the liquid on it, mm. */
  readonly level: number;
  /** With edges that turn, and with edges that do not: it lies between. Undefined where only stiff edges hold it. */
  readonly most: number | undefined;
  readonly least: number;
  /** What the tub holds more for it, mm3. */
  readonly volume: readonly [least: number, most: number];
  /** Bends as far as half its sheet: beyond that the linear law tells too much. */
  readonly isLinear: boolean;
  /** Largest bending stress, MPa: the larger of those with edges that turn and with edges that do not. */
  readonly stress: number;
}

/** mm. Less is not told: sheet is not flatter. */
export const LEAST_BOW = 0.05;

/** Of a strip held at both ends under an even load, 5/384 and a tenth: no plate held on two sides bows more. */
const STRIP = 0.0143;

/** All flats that bow more than LEAST_BOW, the tub full and each chamber with the next one empty; by face. Cost: O(n), and 1 ms for each. */
export const wallBowsOf = (tub: Tub, shape: Shape, water: Water): readonly WallBow[] =>
  wallSitesOf(tub, shape, water).flatMap(bowOf);

/** All flats that liquid stands on, the tub full and each chamber with the next one empty; by face. Cost: O(n). */
export const wallSitesOf = (tub: Tub, shape: Shape, water: Water): readonly WallSite[] => {
  const levels = levelsOn(water);
  if (levels.size === 0) return [];
  const supports = supportsOn(shape);
  return [...levels].flatMap(([index, level]): readonly WallSite[] => {
    const face = shape.faces[index];
    const sheet = tub.sheets[tub.panels[index].sheet];
    if (!face?.usable || !sheet) return [];
    const metal = propertiesOf(sheet);
    const { thickness } = sheet;
    const [youngsModulus, poisson] = [metal.youngsModulusMPa.value, metal.poissonsRatio.value];
    return [
      {
        ...{ tub, shape, face, level },
        perMm: (water.liquid.densityKgM3 * GRAVITY) / 1e12,
        supports: supports.get(index) ?? [],
        metal: { thickness, youngsModulus, poisson },
      },
    ];
  });
};

/** By face, the highest level that stands on it. */
const levelsOn = (water: Water): ReadonlyMap<FaceIndex, number> => {
  const levels = new Map<FaceIndex, number>();
  const { dividers } = water.surface();
  const raise = (face: FaceIndex, level: number): void => {
    if (Number.isFinite(level)) levels.set(face, Math.max(level, levels.get(face) ?? -Infinity));
  };
  for (const { faces, level } of water.full()) for (const face of faces) if (!dividers.has(face)) raise(face, level);
  for (const { faces, level } of water.chambers()) for (const face of faces) if (dividers.has(face)) raise(face, level);
  return new Map([...levels].sort(([p], [q]) => p - q));
};

/** By face, the stretches of other panels that stand on it and are seamed to it. O(n). */
const supportsOn = ({ faces }: Shape): ReadonlyMap<FaceIndex, readonly Stretch[]> => {
  const found = new Map<FaceIndex, Stretch[]>();
  for (const { stretches } of faces)
    for (const stretch of stretches.flat())
      for (const { face } of stretch.feet ?? []) found.set(face, [...(found.get(face) ?? []), stretch]);
  return found;
};

/** A flat under liquid. */
export interface WallSite {
  readonly tub: Tub;
  readonly shape: Shape;
  readonly face: Face;
  readonly level: number;
  /** MPa for each mm of depth. */
  readonly perMm: number;
  readonly supports: readonly Stretch[];
  readonly metal: Pick<Plate, 'thickness' | 'youngsModulus' | 'poisson'>;
}

const bowOf = (site: WallSite): readonly WallBow[] => {
  const { face, level, metal } = site;
  const box = boxOf(face);
  const width = widestBay(site, box);
  const bottom = Math.max(0, level - box.low) * site.perMm;
  const reach = Math.min(width, 2 * box.height);
  const rigidity = rigidityOf(site);
  const held = holdsOf(site, box);
  const isCantilever = !held.left && !held.right;
  if (!isCantilever && (STRIP * bottom * reach ** 4) / rigidity < LEAST_BOW) return [];
  const [stiff, turning] = [bend(plateOf(site, held, 'fixed')), bend(plateOf(site, held, 'hinged'))];
  if (!stiff || (turning?.most ?? stiff.most) < LEAST_BOW) return [];
  const { thickness } = metal;
  return [
    {
      ...{ face: face.panel, width, height: box.height, level },
      most: turning?.most,
      least: stiff.most,
      volume: [stiff.volume, turning?.volume ?? stiff.volume],
      isLinear: (turning?.most ?? stiff.most) <= thickness / 2,
      stress: (6 * Math.max(largestMoment(stiff), turning ? largestMoment(turning) : 0)) / thickness ** 2,
    },
  ];
};

/** N mm: E t3 / (12 (1 - nu2)). */
export const rigidityOf = ({ metal: { youngsModulus, thickness, poisson } }: WallSite): number =>
  (youngsModulus * thickness ** 3) / (12 * (1 - poisson ** 2));

const plateOf = (site: WallSite, held: Holds, hold: EdgeHold): Plate => {
  const box = boxOf(site.face);
  return {
    ...{ ...site.metal, width: widestBay(site, box), height: box.height, stiffener: held.stiffener },
    edges: {
      left: held.left ? hold : 'free',
      right: held.right ? hold : 'free',
      bottom: held.bottom ? hold : 'free',
      top: held.top ? hold : 'free',
    },
    pressure: { bottom: Math.max(0, site.level - box.low) * site.perMm, fall: site.perMm * box.rise },
  };
};

/**
 * How far a flat bows at an edge that nothing holds, its other edges free to turn, mm; undefined where it is no side of its rectangle or
 * nothing else holds it.
 */
export const bowAtFreeEdge = (site: WallSite, stretch: Stretch): number | undefined => {
  const box = boxOf(site.face);
  const side = sideOf(stretch, box);
  const held = holdsOf(site, box);
  if (!held[side]) return undefined;
  const top = held.top || isCornerHeld(site, box, side);
  const bent = bend(plateOf(site, { ...held, top, [side]: false }, 'hinged'));
  if (!bent) return undefined;
  const shares = Array.from({ length: EDGE_PLACES + 1 }, (_, i) => i / EDGE_PLACES);
  const at = (share: number): number => {
    if (side === 'left' || side === 'right') return bent.deflection(side === 'left' ? 0 : 1, share);
    return bent.deflection(share, side === 'bottom' ? 0 : 1);
  };
  return Math.max(...shares.map(at));
};

const EDGE_PLACES = 20;

/**
 * Whether what is turned up along the top is joined at that end of it: its own edge there takes, along the sheet, what the corner passes
 * on. A flange that ends free goes with the corner.
 */
const isCornerHeld = ({ shape, face }: WallSite, box: WallBox, side: Side): boolean => {
  const isAtSide = (point: Vec3): boolean => dot(point, box.across) - box.from[0] < box.width / 2 === (side === 'left');
  return face.stretches.flat().some((stretch) => {
    if (stretch.bend === undefined || sideOf(stretch, box) !== 'top') return false;
    const corner = [stretch.start, stretch.end].find(isAtSide);
    const turnedUp = shape.faces[shape.bends[stretch.bend].faces.find((each) => each !== face.panel) ?? face.panel];
    return turnedUp.stretches
      .flat()
      .some(
        (other) =>
          other.bend !== stretch.bend &&
          (other.bend !== undefined || other.seams.length > 0) &&
          corner !== undefined &&
          [other.start, other.end].some((end) => distance(end, corner) <= SAME_POINT),
      );
  });
};

/** N/mm, at most: half of what stands on the shorter way across it, under the pressure at a depth. Source: a strip between two edges. */
export const edgeReaction = (site: WallSite, lowest: number): number => {
  const box = boxOf(site.face);
  return (Math.max(0, site.level - lowest) * site.perMm * Math.min(widestBay(site, box), box.height)) / 2;
};

/** N mm/mm, in the middle and along the edges. */
const largestMoment = ({ moments }: NonNullable<ReturnType<typeof bend>>): number =>
  Math.max(
    ...[0, 0.5, 1].flatMap((x) =>
      [0, 0.25, 0.5, 0.75, 1].flatMap((y) => {
        const at = moments(x, y);
        return [Math.abs(at.x), Math.abs(at.y)];
      }),
    ),
  );

/** Between its sides and what stands up on it and is seamed to it, the widest piece. */
const widestBay = ({ supports }: WallSite, { across, up, from, width, height }: WallBox): number => {
  const stops = supports.flatMap(({ start, end }) => {
    const along = subtract(end, start);
    const isUpright = Math.abs(dot(along, across)) < Math.abs(dot(along, up)) / 2 && distance(start, end) > height / 2;
    return isUpright ? [dot(lerp(start, end, 0.5), across) - from[0]] : [];
  });
  const all = [0, ...stops.sort((p, q) => p - q), width];
  return Math.max(...all.slice(1).map((stop, i) => stop - all[i]));
};

interface Holds {
  readonly left: boolean;
  readonly right: boolean;
  readonly bottom: boolean;
  readonly top: boolean;
  /** mm4, along the top. */
  readonly stiffener: number;
}

/** A side of the rectangle is held where half of the edges there are joined, or a bay ends there. A flange or hem along the top stiffens it. */
const holdsOf = (site: WallSite, box: WallBox): Holds => {
  const joined = { left: 0, right: 0, bottom: 0, top: 0 };
  const whole = { ...joined };
  let stiffener = 0;
  for (const stretch of site.face.stretches.flat()) {
    const side = sideOf(stretch, box);
    const own = side === 'top' ? stiffenerOf(site, stretch) : undefined;
    const length = distance(stretch.start, stretch.end);
    whole[side] += length;
    if (own !== undefined) stiffener = Math.max(stiffener, own);
    else if (stretch.bend !== undefined || stretch.seams.length > 0) joined[side] += length;
  }
  const isHeld = (side: Side): boolean => whole[side] > 0 && joined[side] >= whole[side] / 2;
  const isParted = widestBay(site, box) < box.width;
  return {
    left: isParted || isHeld('left'),
    right: isParted || isHeld('right'),
    bottom: isHeld('bottom'),
    top: isHeld('top'),
    stiffener,
  };
};

/**
 * mm4. A flange that nothing else holds along it is a beam of its own, t f3 / 12, as far as it stands off the wall; a hem is twice the
 * sheet. Undefined: the edge is held by what goes on from it, or free.
 */
const stiffenerOf = ({ tub, shape, face, metal: { thickness } }: WallSite, stretch: Stretch): number | undefined => {
  const hem = stretch.rim === undefined ? undefined : tub.rims[stretch.rim].hem;
  if (hem) return (hem.length * ((2 * thickness + hem.gap) ** 3 - hem.gap ** 3)) / 12;
  const bent = stretch.bend === undefined ? undefined : shape.bends[stretch.bend];
  if (!bent) return undefined;
  const flange = shape.faces[bent.faces[0] === face.panel ? bent.faces[1] : bent.faces[0]];
  const along = unit(subtract(stretch.end, stretch.start));
  const isHeld = flange.stretches
    .flat()
    .some(
      (other) =>
        other.bend !== stretch.bend &&
        (other.bend !== undefined || other.seams.length > 0) &&
        Math.abs(dot(unit(subtract(other.end, other.start)), along)) > ALONG,
    );
  if (isHeld) return undefined;
  const off = flange.corners.map((corner) => {
    const way = subtract(corner, stretch.start);
    return distance(way, [0, 0, 0]) === 0 ? 0 : Math.hypot(...cross(along, way));
  });
  return (thickness * Math.max(...off) ** 3 * Math.sin(bent.angle) ** 2) / 12;
};

/** Cosine: an edge along another one, not across it. */
const ALONG = 0.7;
