import { unit, type Vec3 } from '../../../analysis/geometry/vec.js';
import { areaVector } from '../../../analysis/geometry/polygon.js';
import type { EdgeName } from '../../../analysis/model/tub.js';
import { centroidOf } from '../../../analysis/geometry/centroid.js';
import { sideFace } from '../../../analysis/shape/corners/side.js';
import type { LegFace } from '../../../analysis/shape/corners/strip.js';
import { type Leg, type Panel, type Ref, type Side } from '../../generated/ast.js';
import { makingOf } from '../../made-groups.js';
import type { Lowering } from '../lowering.js';
import { placeOfCorner, type PlacedCorner } from './flattened.js';
import { crossingSide, facingOf, standingPanel } from './dividers.js';
import { flangeOf } from './flanges.js';
import { madeFace } from './made-faces.js';
import { thingOfPlaced } from './placed-nodes.js';
import { placedFace } from './placed-panels.js';
import { computedCorners } from './corners.js';
import { nameOf, panelNodeOf, stripEndOf } from '../references.js';
import type { Face, PanelNode } from '../values/values.js';
import { stripLegs } from './strips.js';
import { asLength, isInReach, rounded } from '../values/coerce.js';

/** The face of a panel statement, a leg, a side or a flange; undefined when its text does not say enough, or too much. */
export const faceOf = (lowering: Lowering, node: PanelNode): Face | undefined => {
  const face = statedFace(lowering, node);
  const isNear = face?.corners.every((corner) =>
    isInReach(lowering, lowering.idOf(node), `A corner of \`${nameOf(node)}\``, corner),
  );
  return isNear ? face : undefined;
};

const statedFace = (lowering: Lowering, node: PanelNode): Face | undefined => {
  const making = makingOf(node);
  if (making) return lowering.once(node, nameOf(node), () => madeFace(lowering, node, making));
  switch (node.$type) {
    case 'Leg': {
      const legs = stripLegs(lowering, node.$container);
      const leg = legs?.faces[node.$containerIndex ?? 0];
      return leg && rectangle(lowering, leg, node);
    }
    case 'Panel': {
      const thing = thingOfPlaced(node);
      if (thing) return placedFace(lowering, thing, node);
      return lowering.once(node, nameOf(node), () => polygon(lowering, node));
    }
    case 'Side':
      return lowering.once(node, nameOf(node), () => closingSide(lowering, node));
    case 'Flange':
      return flangeOf(lowering, node);
  }
};

/** The middle of a panel's area, for `center(panel)`. */
export const middleOf = (lowering: Lowering, ref: Ref): Vec3 | undefined => {
  const node = panelNodeOf(lowering, ref);
  const face = node && faceOf(lowering, node);
  return face && face.corners.length > 0 ? centroidOf(face.corners) : undefined;
};

const FOUR_EDGES: Readonly<Partial<Record<EdgeName, number>>> = { start: 0, right: 1, end: 2, left: 3 };

const rectangle = (lowering: Lowering, face: LegFace, node: Leg): Face => ({
  ...computedCorners(face.corners, lowering.idOf(node)),
  edgeNames: FOUR_EDGES,
  facing: face.facing,
});

const polygon = (lowering: Lowering, node: Panel): Face | undefined => {
  if (node.bed || node.station) return standingPanel(lowering, node);
  const placed: PlacedCorner[] = [];
  for (const corner of node.corners ?? []) {
    const place = placeOfCorner(lowering, node, corner);
    if (!place) return undefined;
    placed.push(place);
  }
  const corners = placed.map(({ at }) => at);
  const facing =
    node.metal && corners.length > 2 ? facingOf(lowering, node, node.metal, unit(areaVector(corners))) : undefined;
  return {
    corners,
    cornerNames: node.corners.map((corner) => corner.point?.ref?.name),
    cornerAts: node.corners.map((corner) => lowering.idOf(corner)),
    edgeNames: {},
    facing,
    ...(facing ? { isMetalStated: true } : undefined),
    movedBy: node.flattened ? placed.map(({ moved }) => moved) : undefined,
  };
};

const closingSide = (lowering: Lowering, node: Side): Face | undefined => {
  if (node.crossed || node.station) return crossingSide(lowering, node);
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
