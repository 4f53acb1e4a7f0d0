import { distance, type Vec3 } from '../../../analysis/geometry/vec.js';
import { SAME_POINT } from '../../../analysis/geometry/tolerance.js';
import {
  flangeFace,
  flangeWidth,
  senseByGravity,
  settledTurn,
  type FlangeFace,
  type FlangeReach,
  type FlangeRoot,
  type FlangeTurn,
} from '../../../analysis/shape/corners/flange.js';
import type { Flange } from '../../generated/ast.js';
import { asAngle, asLength, NOT_NEGATIVE, POSITIVE, rounded } from '../values/coerce.js';
import { edgeOf, type NamedEdge } from './edges.js';
import { makingOf } from '../../made-groups.js';
import type { Lowering } from '../lowering.js';
import { nameOf } from '../references.js';
import { AXES } from '../values/values.js';
import { wetNormalOf } from './wet-sides.js';

/** A flange before its ends are mitred, with the edge it is turned from. */
export interface TurnedFlange {
  readonly node: Flange;
  readonly face: FlangeFace;
  readonly root: NamedEdge;
  /** Trims at `left` and at `right`. */
  readonly trims: readonly [number, number];
}

/** A flange as it is turned, with square ends; undefined where its text does not say enough, or what cannot be, and for one that is made of another. */
export const turnedFlange = (lowering: Lowering, node: Flange): TurnedFlange | undefined =>
  lowering.once(node, nameOf(node), () => (makingOf(node) ? undefined : turn(lowering, node)));

const turn = (lowering: Lowering, node: Flange): TurnedFlange | undefined => {
  const edge = edgeOf(lowering, node.edge);
  const name = `flange \`${node.name}\``;
  const reach = reachOf(lowering, node);
  const angle = node.angle && asAngle(lowering, node.angle, `Angle of ${name}`, { above: 0, below: 180 });
  const trim = lowering.only(node, 'trim', node.trim);
  const start = trim ? asLength(lowering, trim.start, `Trim of ${name}`, NOT_NEGATIVE) : 0;
  const end = trim ? asLength(lowering, trim.end, `Trim of ${name}`, NOT_NEGATIVE) : 0;
  if (!edge || (node.angle && angle === undefined) || !reach || start === undefined || end === undefined)
    return undefined;
  const wetNormal = wetNormalOf(lowering, edge.node);
  const root = wetNormal && { corners: edge.face.corners, edge: edge.edge, wetNormal };
  const way = root && wayOf(lowering, node, root, angle);
  if (!root || !way) return undefined;
  const trims = edge.isReversed ? ([end, start] as const) : ([start, end] as const);
  if (!isWide(lowering, node, root, trims)) return undefined;
  const face = flangeFace(root, { ...way, reach, trims });
  if (!face) return reportShort(lowering, node, root, reach);
  return { node, face, root: edge, trims: face.isLeftStart ? trims : [trims[1], trims[0]] };
};

const reachOf = (lowering: Lowering, node: Flange): FlangeReach | undefined => {
  const name = `flange \`${node.name}\``;
  if (node.axis !== undefined) {
    const target = asLength(lowering, node.target, `Level of ${name}`);
    return target === undefined ? undefined : { axis: AXES[node.axis], target };
  }
  const length = asLength(lowering, node.length, `Length of ${name}`, POSITIVE);
  return length === undefined ? undefined : { length };
};

/** By its angle; else plumb or level. A flange that only says to which level it goes stands plumb. */
const wayOf = (
  lowering: Lowering,
  node: Flange,
  root: FlangeRoot,
  angle: number | undefined,
): Pick<FlangeTurn, 'sense' | 'angle'> | undefined => {
  if (node.turn === undefined) return undefined;
  if (angle !== undefined) {
    const sense = senseOf(lowering, node, node.turn, root.wetNormal);
    return sense && { sense, angle };
  }
  const set = node.set ?? 'plumb';
  const isClear = set === 'plumb' || senseOf(lowering, node, node.turn, root.wetNormal) !== undefined;
  const settled = isClear ? settledTurn(root, set, node.turn) : undefined;
  if (isClear && !settled) {
    lowering.reports.add(
      'flange/nothing-to-turn',
      lowering.idOf(node),
      `Flange \`${node.name}\` is to be ${set}, and its panel is so already at this edge or the edge itself is upright; it needs an angle such as \`90 deg\``,
      { about: [nameOf(node)] },
    );
  }
  return settled;
};

const senseOf = (
  lowering: Lowering,
  node: Flange,
  turned: 'up' | 'down' | 'in' | 'out',
  wetNormal: Vec3,
): 'in' | 'out' | undefined => {
  if (turned === 'in' || turned === 'out') return turned;
  const sense = senseByGravity(wetNormal, turned);
  if (!sense) {
    lowering.reports.add(
      'flange/turn-unclear',
      lowering.idOf(node, 'turn'),
      `Flange \`${node.name}\` is turned ${turned} from an upright panel; it needs \`in\` (to the wet side) or \`out\``,
      { about: [nameOf(node)] },
    );
  }
  return sense;
};

const isWide = (lowering: Lowering, node: Flange, root: FlangeRoot, trims: readonly [number, number]): boolean => {
  const width = flangeWidth(root, trims);
  if (width > SAME_POINT) return true;
  const [start, end] = trims;
  lowering.reports.add(
    'flange/trims-meet',
    lowering.idOf(node, 'trim'),
    `Flange \`${node.name}\` is trimmed by ${rounded(start)} and ${rounded(end)} mm; its edge is ${rounded(width + start + end)} mm long, so nothing is left`,
    { about: [nameOf(node)], values: { left_mm: width, edge_mm: width + start + end } },
  );
  return false;
};

const reportShort = (lowering: Lowering, node: Flange, root: FlangeRoot, reach: FlangeReach): undefined => {
  if (!('axis' in reach)) return undefined;
  const ends = [root.corners[root.edge], root.corners[(root.edge + 1) % root.corners.length]];
  const [from, to] = ends.map((corner) => corner[reach.axis]);
  const along = distance(ends[0], ends[1]);
  lowering.reports.add(
    'flange/out-of-reach',
    lowering.idOf(node, 'axis'),
    `Flange \`${node.name}\` starts at ${node.axis} ${rounded(from)} to ${rounded(to)} mm and is to end at ${rounded(reach.target)} mm; as it is turned it does not get there from all of its edge`,
    { about: [nameOf(node)], values: { from_mm: from, to_mm: to, target_mm: reach.target, edge_mm: along } },
  );
  return undefined;
};
