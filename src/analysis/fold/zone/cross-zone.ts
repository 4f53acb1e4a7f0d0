import { add2, addScaled2, dot2, scale2, subtract2, unit2, type Vec2 } from '../../geometry/vec.js';
import type { Bend, FaceIndex, Shape } from '../../shape/shape.js';
import type { ContourVertex } from '../../geometry/contour.js';
import type { BendItem } from '../trim/trim-face.js';
import { levelAt } from './zone-end.js';
import { mitreStation } from '../trim/mitred-bend.js';
import { bowedEnd, bowOf, type Bow } from './zone-section.js';

/** How the outline crosses a bend zone at one of its ends: from the parent's tangent point to the child's, both included. */
export interface ZoneCrossing {
  readonly vertices: readonly ContourVertex[];
  /** Where it passes the middle of the zone. */
  readonly middle: Vec2;
}

/** Tangent lines of a bend laid flat, wet side up, both in the direction in which the parent's outline runs. */
export interface LaidZone {
  readonly parent: readonly [Vec2, Vec2];
  readonly child: readonly [Vec2, Vec2];
}

/**
 * Both ends of a bend zone, at the start of the parent's tangent line and at its end: along the section of the panel that lies
 * beside the bend on either side of it, else straight. At a square section nothing is added. Cost: O(1).
 */
export const crossingsOf = (
  shape: Shape,
  parent: FaceIndex,
  item: BendItem,
  inChild: BendItem,
  laid: LaidZone,
): readonly [ZoneCrossing, ZoneCrossing] => {
  const crossing = (end: 0 | 1): ZoneCrossing => {
    const [from, to] = [laid.parent[end], laid.child[end]];
    const closer = item.beside[end].find((face) => inChild.beside[1 - end].includes(face));
    const bend = shape.bends[item.bend];
    const isSetBack = item.isSetBack[end] && inChild.isSetBack[1 - end];
    const heading = end === 0 ? 1 : -1;
    const bow =
      closer === undefined
        ? mitredBow(shape, parent, [item.beside[end], inChild.beside[1 - end]], { bend, heading })
        : bowOf(shape, bend, parent, { closer, heading, isSetBack });
    if (!bow) return { vertices: [from, to].map(vertexAt), middle: scale2(add2(from, to), 0.5) };
    const along = unit2(subtract2(laid.parent[1], laid.parent[0]));
    const outward: Vec2 = [along[1], -along[0]];
    const line = bowedEnd(bow, bend.allowance, dot2(subtract2(to, from), along));
    const put = (x: number, y: number): Vec2 => addScaled2(addScaled2(from, outward, x), along, y);
    const vertices = line.map(({ x, y, bulge }, i): ContourVertex => {
      const [px, py] = i === 0 ? from : i === line.length - 1 ? to : put(x, y);
      return { x: px, y: py, bulge };
    });
    return { vertices, middle: put(bend.allowance / 2, levelAt(line, 0.5)) };
  };
  return [crossing(0), crossing(1)];
};

/** Of a bend that ends beside another one, the flanges of both mitred: whichever of its faces is the flange. */
const mitredBow = (
  shape: Shape,
  parent: FaceIndex,
  beside: readonly [readonly FaceIndex[], readonly FaceIndex[]],
  { bend, heading }: { readonly bend: Bend; readonly heading: 1 | -1 },
): Bow | undefined => {
  const isFirst = bend.faces[0] === parent;
  const child = bend.faces[isFirst ? 1 : 0];
  const corner = isFirst === (heading === 1) ? bend.start : bend.end;
  for (const [which, face] of [parent, child].entries()) {
    const station = mitreStation(shape, face, bend, corner, beside[which]);
    if (!station) continue;
    const at = (share: number): number => heading * station(bend.angle * (which === 0 ? share : 1 - share));
    const [first, last] = [at(0), at(1)];
    return (share) => at(share) - first - (last - first) * share;
  }
  return undefined;
};

const vertexAt = ([x, y]: Vec2): ContourVertex => ({ x, y, bulge: 0 });
