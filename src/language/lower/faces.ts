import type { Vec3 } from '../../analysis/geometry/vec.js';
import { distance } from '../../analysis/geometry/vec.js';
import type { EdgeName, SourceId } from '../../analysis/model/tub.js';
import { centroidOf } from '../../analysis/geometry/centroid.js';
import { flangeFace, flangeWidth, senseByGravity } from '../../analysis/shape/flange.js';
import { wetNormals } from '../../analysis/shape/orient.js';
import { sideFace } from '../../analysis/shape/side.js';
import type { LegFace } from '../../analysis/shape/strip.js';
import { SAME_POINT } from '../../analysis/geometry/tolerance.js';
import {
  isFlange,
  isPanel,
  isSide,
  isStrip,
  type Corner,
  type Flange,
  type Leg,
  type Panel,
  type Ref,
  type Side,
} from '../generated/ast.js';
import { evaluateTriple, valueOf } from './evaluate.js';
import type { Lowering } from './lowering.js';
import { edgeOf } from './edges.js';
import { nameOf, panelNodeOf, stripEndOf } from './references.js';
import type { Face, PanelNode } from './values.js';
import { stripLegs } from './strips.js';
import { asAngle, asLength, isInReach, NOT_NEGATIVE, POSITIVE, rounded } from './coerce.js';

/** The face of a panel statement, a leg, a side or a flange; undefined when its text does not say enough, or too much. */
export const faceOf = (lowering: Lowering, node: PanelNode): Face | undefined => {
  const face = statedFace(lowering, node);
  const isNear = face?.corners.every((corner) =>
    isInReach(lowering, lowering.idOf(node), `A corner of \`${nameOf(node)}\``, corner),
  );
  return isNear ? face : undefined;
};

const statedFace = (lowering: Lowering, node: PanelNode): Face | undefined => {
  switch (node.$type) {
    case 'Leg': {
      const legs = stripLegs(lowering, node.$container);
      const leg = legs?.faces[node.$containerIndex ?? 0];
      return leg && rectangle(lowering, leg, node);
    }
    case 'Panel':
      return lowering.once(node, nameOf(node), () => polygon(lowering, node));
    case 'Side':
      return lowering.once(node, nameOf(node), () => closingSide(lowering, node));
    case 'Flange':
      return lowering.once(node, nameOf(node), () => flange(lowering, node));
  }
};

/** The middle of a panel's area, for `center(panel)`. */
export const middleOf = (lowering: Lowering, ref: Ref): Vec3 | undefined => {
  const node = panelNodeOf(lowering, ref);
  const face = node && faceOf(lowering, node);
  return face && face.corners.length > 0 ? centroidOf(face.corners) : undefined;
};

const FOUR_EDGES: Readonly<Partial<Record<EdgeName, number>>> = { start: 0, right: 1, end: 2, left: 3 };

const rectangle = (lowering: Lowering, face: LegFace, node: Leg | Flange): Face => ({
  ...computedCorners(face.corners, lowering.idOf(node)),
  edgeNames: FOUR_EDGES,
  facing: face.facing,
});

const computedCorners = (
  corners: readonly Vec3[],
  at: SourceId,
): Pick<Face, 'corners' | 'cornerNames' | 'cornerAts'> => ({
  corners,
  cornerNames: corners.map(() => undefined),
  cornerAts: corners.map(() => at),
});

const polygon = (lowering: Lowering, node: Panel): Face | undefined => {
  const corners: Vec3[] = [];
  for (const corner of node.corners ?? []) {
    const place = cornerPlace(lowering, corner);
    if (!place) return undefined;
    corners.push(place);
  }
  return {
    corners,
    cornerNames: node.corners.map((corner) => corner.point?.ref?.name),
    cornerAts: node.corners.map((corner) => lowering.idOf(corner)),
    edgeNames: {},
    facing: undefined,
  };
};

const cornerPlace = (lowering: Lowering, corner: Corner): Vec3 | undefined => {
  if (!corner.point)
    return corner.x && corner.y && corner.z && evaluateTriple(lowering, { x: corner.x, y: corner.y, z: corner.z });
  const target = corner.point.ref;
  const value = target && valueOf(lowering, target);
  if (!value || value.kind === 'point') return value?.value;
  lowering.reports.add(
    'unit/wrong',
    lowering.idOf(corner),
    `\`${corner.point.$refText}\` is no point; a corner needs one`,
  );
  return undefined;
};

const closingSide = (lowering: Lowering, node: Side): Face | undefined => {
  const closed = stripEndOf(lowering, node.end);
  const level = asLength(lowering, node.level, `Level of side \`${node.name}\``);
  const legs = closed && stripLegs(lowering, closed.strip);
  if (!legs || level === undefined || !legs.isComplete || legs.faces.length === 0) return undefined;
  const face = sideFace(legs.faces, legs.across, closed.end, level);
  if ('tooHigh' in face) {
    lowering.reports.add(
      'side/level-too-low',
      lowering.idOf(node.level),
      `Side \`${node.name}\` goes up to z ${rounded(level)} mm; strip \`${nameOf(closed.strip)}\` ends at ${rounded(face.tooHigh)} mm, so it needs at least that`,
      {
        about: [nameOf(node)],
        values: { has_mm: level, needs_mm: face.tooHigh },
      },
    );
    return undefined;
  }
  return { ...computedCorners(face.corners, lowering.idOf(node)), edgeNames: { top: face.top }, facing: face.facing };
};

const flange = (lowering: Lowering, node: Flange): Face | undefined => {
  const edge = edgeOf(lowering, node.edge);
  const name = `flange \`${node.name}\``;
  const angle = asAngle(lowering, node.angle, `Angle of ${name}`, { above: 0, below: 180 });
  const length = asLength(lowering, node.length, `Length of ${name}`, POSITIVE);
  const trim = node.trim?.[0];
  const start = trim ? asLength(lowering, trim.start, `Trim of ${name}`, NOT_NEGATIVE) : 0;
  const end = trim ? asLength(lowering, trim.end, `Trim of ${name}`, NOT_NEGATIVE) : 0;
  if (!edge || angle === undefined || length === undefined || start === undefined || end === undefined)
    return undefined;
  const wetNormal = wetNormalOf(lowering, edge.node);
  const root = wetNormal && { corners: edge.face.corners, edge: edge.edge, wetNormal };
  const sense = root && senseOf(lowering, node, wetNormal);
  if (!root || !sense) return undefined;
  const trims = edge.isReversed ? ([end, start] as const) : ([start, end] as const);
  const width = flangeWidth(root, trims);
  if (width <= SAME_POINT) {
    lowering.reports.add(
      'flange/trims-meet',
      lowering.idOf(node, 'trim'),
      `Flange \`${node.name}\` is trimmed by ${rounded(start)} and ${rounded(end)} mm; its edge is ${rounded(width + start + end)} mm long, so nothing is left`,
      {
        about: [nameOf(node)],
        values: { left_mm: width, edge_mm: width + start + end },
      },
    );
    return undefined;
  }
  return rectangle(lowering, flangeFace(root, { sense, angle, length, trims }), node);
};

const senseOf = (lowering: Lowering, node: Flange, wetNormal: Vec3): 'in' | 'out' | undefined => {
  if (node.turn === 'in' || node.turn === 'out') return node.turn;
  if (node.turn === undefined) return undefined;
  const sense = senseByGravity(wetNormal, node.turn);
  if (!sense) {
    lowering.reports.add(
      'flange/turn-unclear',
      lowering.idOf(node, 'turn'),
      `Flange \`${node.name}\` is turned ${node.turn} from an upright panel; it needs \`in\` (to the wet side) or \`out\``,
      {
        about: [nameOf(node)],
      },
    );
  }
  return sense;
};

/** The wet side of a panel: what its statement implies, else what the panels around it do. */
const wetNormalOf = (lowering: Lowering, node: PanelNode): Vec3 | undefined => {
  const stated = faceOf(lowering, node)?.facing;
  if (stated) return stated;
  const around = lowering.once(lowering.files[0], 'the wet sides of all panels', () => normalsByNode(lowering));
  const normal = around?.get(node);
  if (around && !normal) {
    lowering.reports.add(
      'flange/no-wet-side',
      lowering.idOf(node),
      `Panel \`${nameOf(node)}\` shows no wet side, so its flange has no side to turn to`,
      { about: [nameOf(node)] },
    );
  }
  return normal;
};

const normalsByNode = (lowering: Lowering): ReadonlyMap<PanelNode, Vec3> => {
  const known = [...panelNodes(lowering)].flatMap((node) => {
    const face = isFlange(node) ? undefined : faceOf(lowering, node);
    return face ? [{ node, face }] : [];
  });
  const normals = wetNormals(
    known.map(({ node, face }) => ({
      ...face,
      name: nameOf(node),
      at: lowering.idOf(node),
      sheet: 0,
      kind: { kind: 'points' },
    })),
  );
  return new Map(known.flatMap(({ node }, i) => (normals[i] ? [[node, normals[i]] as const] : [])));
};

/** Every statement that makes a panel, in the order of the text, legs in their strip's place. */
export function* panelNodes(lowering: Lowering): Generator<PanelNode> {
  for (const file of lowering.files) {
    for (const statement of file.statements ?? []) {
      if (isPanel(statement) || isSide(statement) || isFlange(statement)) yield statement;
      if (isStrip(statement)) yield* statement.legs ?? [];
    }
  }
}

/** Does the corner lie at that place? */
export const isAtCorner = (corner: Vec3, place: Vec3): boolean => distance(corner, place) <= SAME_POINT;
