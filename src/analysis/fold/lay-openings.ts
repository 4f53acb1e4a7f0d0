import {
  areaOfContour,
  circleContour,
  flattenContour,
  hexagonContour,
  mapContour,
  reverseContour,
  slotContour,
  straightContour,
} from '../geometry/contour.js';
import { distanceToSegment } from '../geometry/polygon.js';
import { add2, addScaled2, left2, lerp2, type Vec2 } from '../geometry/vec.js';
import { overlappingOpenings } from '../shape/opening-gap.js';
import { reachBeyond } from '../shape/place-openings.js';
import type { Face, FaceOpening } from '../shape/shape.js';
import { ROUND_OFF, SAME_POINT } from '../geometry/tolerance.js';
import type { FlatHole } from './flat-pattern.js';
import type { Contour } from '../geometry/contour.js';
import type { NotchedFace } from './trim/cut-notches.js';
import { regionOf, type HemItem, type LoopItem } from './trim/trim-face.js';
import type { FlatFault } from './unfolded.js';

/** mm. Fineness with which openings are tested against round cut lines. */
const TEST_FINENESS = 0.01;

/**
 * The openings of a face as holes of the flat. One that reaches past a tangent line or into a relief is refused, as it would be
 * cut open, and so is one under the lip of a hem. One that reaches over the sharp edge is a fault of the shape already, and so is
 * one that runs into another: of those that do the first stays, as cuts that cross bound no metal.
 */
export const layOpenings = (
  face: Face,
  { items, cut }: NotchedFace,
  toFlat: (point: Vec2) => Vec2,
): { readonly holes: readonly FlatHole[]; readonly faults: readonly FlatFault[] } => {
  const holes: FlatHole[] = [];
  const faults: FlatFault[] = [];
  if (face.openings.length === 0) return { holes, faults };
  const region = flattenContour(regionOf(items), TEST_FINENESS);
  const left = new Set<FaceOpening>();
  for (const { openings, overlap } of overlappingOpenings(face)) {
    const [first, second] = openings;
    if (overlap > ROUND_OFF && !left.has(first)) left.add(second);
  }
  for (const opening of face.openings) {
    if (left.has(opening) || cut.has(opening)) continue;
    const contour = contourOfOpening(opening);
    const fault = acrossBend(face, opening, items, region);
    if (fault) {
      faults.push(fault);
      continue;
    }
    const { shape } = opening;
    const circle =
      shape.kind === 'round' && !shape.hex ? { center: toFlat(shape.center), radius: shape.radius } : undefined;
    // Holes run clockwise.
    holes.push({ contour: reverseContour(mapContour(contour, toFlat)), circle, opening: opening.opening });
  }
  return { holes, faults };
};

/** Counter-clockwise, in the face's frame. */
export const contourOfOpening = ({ shape }: FaceOpening): Contour => {
  if (shape.kind === 'round')
    return shape.hex ? hexagonContour(shape.center, 2 * shape.radius) : circleContour(shape.center, shape.radius);
  if (shape.kind === 'slot') return slotContour(shape.from, shape.to, shape.radius);
  const contour = straightContour(shape.corners);
  return areaOfContour(contour) < 0 ? reverseContour(contour) : contour;
};

const acrossBend = (
  face: Face,
  opening: FaceOpening,
  items: readonly LoopItem[],
  region: readonly Vec2[],
): FlatFault | undefined => {
  const bent = items.filter((item) => item.kind !== 'vertex');
  if (bent.length === 0 || reachBeyond(opening.shape, face.outline) > SAME_POINT) return undefined;
  const fault = (item: (typeof bent)[number], over: number): FlatFault => ({
    kind: 'hole-across-bend',
    opening: opening.opening,
    bend: item.kind === 'bend' ? item.bend : undefined,
    over,
  });
  const over = reachBeyond(opening.shape, region);
  const middle = middleOfOpening(opening);
  const nearest = bent.reduce((best, item) => (distanceTo(item, middle) < distanceTo(best, middle) ? item : best));
  if (over > ROUND_OFF) return fault(nearest, over);
  for (const item of bent) {
    const covered = item.kind === 'hem' ? reachInto(opening.shape, lipOnPanel(item)) : 0;
    if (covered > ROUND_OFF) return fault(item, covered);
  }
  return undefined;
};

const distanceTo = ({ from, to }: { readonly from: Vec2; readonly to: Vec2 }, point: Vec2): number =>
  distanceToSegment(point, from, to);

const middleOfOpening = ({ shape }: FaceOpening): Vec2 => {
  if (shape.kind === 'round') return shape.center;
  return shape.kind === 'slot' ? lerp2(shape.from, shape.to, 0.5) : lerp2(shape.corners[0], shape.corners[2], 0.5);
};

/** Where the lip of a hem lies once it is turned back, in the face's frame, counter-clockwise. */
const lipOnPanel = ({ from, to, along, size, taper }: HemItem): readonly Vec2[] => {
  const inward = addScaled2([0, 0], left2(along), size.lip);
  return [
    from,
    to,
    addScaled2(add2(to, inward), along, -taper[1] * size.lip),
    addScaled2(add2(from, inward), along, taper[0] * size.lip),
  ];
};

/** How far an opening lies over an area that must be clear of it, mm; 0: not at all. */
const reachInto = (shape: FaceOpening['shape'], area: readonly Vec2[]): number => {
  if (shape.kind === 'round') return Math.max(0, shape.radius - reachBeyond({ ...shape, radius: 0 }, area));
  if (shape.kind === 'slot') {
    const apart = Math.min(
      ...[shape.from, shape.to].map((center) => reachBeyond({ kind: 'round', center, radius: 0 }, area)),
      ...area.map((corner) => distanceToSegment(corner, shape.from, shape.to)),
    );
    return Math.max(0, shape.radius - apart);
  }
  const depths = [
    ...shape.corners.map((center) => -reachBeyond({ kind: 'round', center, radius: 0 }, area)),
    ...area.map((center) => -reachBeyond({ kind: 'round', center, radius: 0 }, shape.corners)),
  ];
  return Math.max(0, ...depths);
};
