import { SAME_POINT } from '../../../analysis/geometry/tolerance.js';
import { addScaled, distance, dot, subtract, unit, type Vec3 } from '../../../analysis/geometry/vec.js';
import { squareEnds } from '../../../analysis/shape/corners/flange.js';
import { flangeEnd, mitreOf, type MitreNeighbour } from '../../../analysis/shape/corners/mitre.js';
import { isFlange, type Flange } from '../../generated/ast.js';
import { rounded } from '../values/coerce.js';
import { turnedFlange, type TurnedFlange } from './turned-flange.js';
import type { Lowering } from '../lowering.js';
import { panelNodes } from './panel-nodes.js';
import { nameOf, targetOf } from '../references.js';

const SIDES = ['left', 'right'] as const;
type EndSide = (typeof SIDES)[number];

/**
 * Free corners of a flange whose ends are mitred to what stands beside them: a flange from an edge that begins where its
 * own ends, else a panel with a corner there. An end with nobody beside it stays square. Trims move a mitre inward.
 */
export const mitredEnds = (lowering: Lowering, turned: TurnedFlange): readonly [Vec3, Vec3] | undefined => {
  const square = squareEnds(turned.face);
  const mitres = SIDES.map((side) => mitreAt(lowering, turned, side));
  if (mitres.every((mitre) => mitre === undefined)) return reportAlone(lowering, turned.node);
  const corners = SIDES.map((side, i): Vec3 => {
    const mitre = mitres[i];
    if (!mitre) return square[i];
    const { at, inward, direction } = endOf(turned, side);
    return addScaled(addScaled(at, inward, mitre.along + turned.trims[i]), direction, mitre.reach);
  });
  const [freeLeft, freeRight] = corners;
  const along = unit(subtract(turned.face.right, turned.face.left));
  const left = dot(subtract(freeRight, freeLeft), along);
  return left > SAME_POINT ? [freeLeft, freeRight] : reportCrossing(lowering, turned.node, left);
};

const endOf = (turned: TurnedFlange, side: EndSide): ReturnType<typeof flangeEnd> =>
  flangeEnd(turned.face, side, turned.trims[side === 'left' ? 0 : 1]);

const mitreAt = (lowering: Lowering, turned: TurnedFlange, side: EndSide): ReturnType<typeof mitreOf> => {
  const own = endOf(turned, side);
  if (own.reach <= SAME_POINT) return undefined;
  for (const neighbour of neighboursAt(lowering, turned, own.at)) {
    const mitre = mitreOf(own, neighbour);
    if (mitre) return mitre;
  }
  return undefined;
};

function* neighboursAt(lowering: Lowering, turned: TurnedFlange, at: Vec3): Generator<MitreNeighbour> {
  const depth = depthOf(turned.node);
  for (const node of panelNodes(lowering)) {
    if (!isFlange(node) || node === turned.node || depthOf(node) !== depth) continue;
    const other = turnedFlange(lowering, node);
    if (!other) continue;
    for (const side of SIDES) {
      const end = endOf(other, side);
      if (distance(end.at, at) <= SAME_POINT) yield { kind: 'flange', end };
    }
  }
  for (const node of panelNodes(lowering)) {
    if (isFlange(node) || node === turned.root.node) continue;
    const corners = lowering.solve.faceOf(lowering, node)?.corners ?? [];
    const i = corners.findIndex((corner) => distance(corner, at) <= SAME_POINT);
    if (i < 0 || corners.length < 3) continue;
    const [next, before] = [corners[(i + 1) % corners.length], corners[(i + corners.length - 1) % corners.length]];
    yield { kind: 'panel', edges: [unit(subtract(next, corners[i])), unit(subtract(before, corners[i]))] };
  }
}

/**
 * How many flanges a flange is turned from, one after the other. Only those of one depth are mitred to each other: what
 * is turned from a mitred flange must not be asked for its place. NaN for flanges that are turned from each other.
 */
const depthOf = (node: Flange): number => {
  const seen = new Set<Flange>();
  let at = node;
  for (;;) {
    const root = targetOf(at.edge);
    if (!isFlange(root)) return seen.size;
    if (seen.has(root)) return NaN;
    seen.add(root);
    at = root;
  }
};

const reportAlone = (lowering: Lowering, node: Flange): undefined => {
  lowering.reports.add(
    'flange/no-mitre',
    lowering.idOf(node, 'mitred'),
    `Flange \`${node.name}\` is mitred, and at neither end of its edge does a flange or a panel begin that it could meet; it needs one, or no \`mitred\``,
    { about: [nameOf(node)] },
  );
  return undefined;
};

const reportCrossing = (lowering: Lowering, node: Flange, left: number): undefined => {
  lowering.reports.add(
    'flange/no-mitre',
    lowering.idOf(node, 'mitred'),
    `Mitred ends of flange \`${node.name}\` cross before its free edge, which would be ${rounded(left)} mm long; it needs to reach less far`,
    { about: [nameOf(node)], values: { left_mm: left } },
  );
  return undefined;
};
