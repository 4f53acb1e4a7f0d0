import { SAME_POINT } from '../../../analysis/geometry/tolerance.js';
import { distance, dot, scale, subtract, unit, type Vec3 } from '../../../analysis/geometry/vec.js';
import {
  acrossFace,
  crossingFace,
  type DividerFace,
  type DividerLimits,
} from '../../../analysis/shape/corners/divider.js';
import { isLeftToRight, type LegFace } from '../../../analysis/shape/corners/strip.js';
import { isLeg, isStrip, type Heading, type Panel, type Ref, type Side } from '../../generated/ast.js';
import { asLength, NOT_NEGATIVE, POSITIVE, rounded } from '../values/coerce.js';
import { computedCorners } from './corners.js';
import type { Lowering } from '../lowering.js';
import { nameOf, reportWrongKind, targetOf, textOf } from '../references.js';
import { headings, stripLegs, type StripLegs } from './strips.js';
import type { Face } from '../values/values.js';

/** The legs that a divider stands on, in order of travel. */
interface Ground extends StripLegs {
  readonly legs: readonly LegFace[];
}

/** A side in the middle of a strip; undefined where its text does not say enough, which is reported. */
export const crossingSide = (lowering: Lowering, node: Side): Face | undefined => {
  const station = asLength(lowering, node.station, `Place of side \`${node.name}\``, POSITIVE);
  const level = asLength(lowering, node.level, `Level of side \`${node.name}\``);
  const ground = groundOf(lowering, node.crossed, node.until);
  if (station === undefined || level === undefined || !ground) return undefined;
  if (station > ground.width - SAME_POINT) return reportOff(lowering, node, station, ground.width, 'wide');
  const from = node.measured ?? 'left';
  const face = crossingFace(ground.legs, ground.across, { station, from, level });
  const outward = scale(ground.across, (from === 'left') === isLeftToRight(ground.across) ? -1 : 1);
  return finished(lowering, node, face, outward, level);
};

/** A panel upright across a leg. */
export const standingPanel = (lowering: Lowering, node: Panel): Face | undefined => {
  const station = asLength(lowering, node.station, `Place of panel \`${node.name}\``, NOT_NEGATIVE);
  const level = asLength(lowering, node.level, `Level of panel \`${node.name}\``);
  const target = targetOf(node.bed);
  if (target && !isLeg(target)) return reportWrongKind(lowering, node.bed!, 'a leg of a strip');
  const ground = target && groundOf(lowering, node.bed, undefined);
  if (station === undefined || level === undefined || !ground) return undefined;
  const [leg] = ground.legs;
  const along = subtract(leg.corners[3], leg.corners[0]);
  const length = distance(leg.corners[3], leg.corners[0]);
  if (station > length - SAME_POINT) return reportOff(lowering, node, station, length, 'long');
  const direction = unit(along);
  const backward = unit([-direction[0], -direction[1], 0]);
  return finished(lowering, node, acrossFace(leg, direction, station, level), backward, level);
};

/** The wet face looks to where the place is measured from, unless the metal is said to lie there. */
const finished = (
  lowering: Lowering,
  node: Side | Panel,
  face: DividerFace | DividerLimits,
  towards: Vec3,
  level: number,
): Face | undefined => {
  if ('lowest' in face) {
    lowering.reports.add(
      'side/level-too-low',
      lowering.idOf(node.level!),
      `\`${node.name}\` goes up to z ${rounded(level)} mm; what it stands on is at ${rounded(face.lowest)} mm, so it needs more than that`,
      { about: [nameOf(node)], values: { has_mm: level, needs_mm: face.lowest } },
    );
    return undefined;
  }
  const facing = facingOf(lowering, node, node.metal, towards);
  return facing && { ...computedCorners(face.corners, lowering.idOf(node)), edgeNames: { top: face.top }, facing };
};

/** The wet side of a sheet whose metal is said to lie on one side; `towards` where nothing is said. */
export const facingOf = (
  lowering: Lowering,
  node: Side | Panel,
  metal: Heading | undefined,
  towards: Vec3,
): Vec3 | undefined => {
  if (metal === undefined) return towards;
  const side = dot(headings[metal], towards);
  if (Math.abs(side) > SAME_POINT) return scale(towards, side > 0 ? -1 : 1);
  lowering.reports.add(
    'side/off-strip',
    lowering.idOf(node, 'metal'),
    `The metal of \`${node.name}\` cannot lie ${metal} of its face, which runs that way; it needs one of the two sides of the sheet`,
    { about: [nameOf(node)] },
  );
  return undefined;
};

const groundOf = (lowering: Lowering, first: Ref | undefined, last: Ref | undefined): Ground | undefined => {
  const [a, b] = [targetOf(first), last && targetOf(last)];
  if (!first || !a || (last && !b)) return undefined;
  const strip = isStrip(a) ? a : isLeg(a) ? a.$container : undefined;
  if (!strip) return reportWrongKind(lowering, first, 'a strip or a leg of one');
  if (b && (!isLeg(a) || !isLeg(b) || b.$container !== strip))
    return reportWrongKind(lowering, last!, `a leg of the strip of \`${textOf(first)}\``);
  const placed = stripLegs(lowering, strip);
  if (!placed?.isComplete || placed.faces.length === 0) return undefined;
  const [from, to] = isLeg(a) ? [a.$containerIndex ?? 0, (isLeg(b) ? b : a).$containerIndex ?? 0] : [0, Infinity];
  return { ...placed, legs: placed.faces.slice(Math.min(from, to), Math.max(from, to) + 1) };
};

const reportOff = (
  lowering: Lowering,
  node: Side | Panel,
  has: number,
  most: number,
  extent: 'wide' | 'long',
): undefined => {
  lowering.reports.add(
    'side/off-strip',
    lowering.idOf(node.station!),
    `\`${node.name}\` stands at ${rounded(has)} mm; what it stands on is ${rounded(most)} mm ${extent}, so it needs less than that`,
    { about: [nameOf(node)], values: { has_mm: has, needs_mm: most } },
  );
  return undefined;
};
