import type { Vec3 } from '../../../analysis/geometry/vec.js';
import { addScaled, dot } from '../../../analysis/geometry/vec.js';
import {
  legDirection,
  legLengthTo,
  stripFaces,
  type LegFace,
  type LegTravel,
} from '../../../analysis/shape/corners/strip.js';
import { SAME_DIRECTION } from '../../../analysis/geometry/tolerance.js';
import { isMirror, type Heading, type Leg, type Strip } from '../../generated/ast.js';
import { changesHand, makingOf, type Making } from '../../made-groups.js';
import type { Lowering } from '../lowering.js';
import { motionOf, type Motion } from './motions.js';
import { nameOf } from '../references.js';
import { AXES } from '../values/values.js';
import { asAngle, asLength, asPoint, POSITIVE, rounded } from '../values/coerce.js';

export interface StripLegs {
  readonly heading: Vec3;
  readonly across: Vec3;
  readonly width: number;
  /** Those of the legs that could be placed, from the first on. */
  readonly faces: readonly LegFace[];
  /** False when a leg says too little, so that it and all after it have no place. */
  readonly isComplete: boolean;
}

export const headings: Readonly<Record<Heading, Vec3>> = {
  right: [1, 0, 0],
  left: [-1, 0, 0],
  back: [0, 1, 0],
  front: [0, -1, 0],
  up: [0, 0, 1],
  down: [0, 0, -1],
};

/** The legs of a strip in space, as far as its text places them; computed once. */
export const stripLegs = (lowering: Lowering, strip: Strip): StripLegs | undefined =>
  lowering.once(strip, nameOf(strip), () => {
    const making = makingOf(strip);
    return making ? moved(lowering, making) : placeLegs(lowering, strip);
  });

const moved = (lowering: Lowering, making: Making<Strip>): StripLegs | undefined => {
  const { original, statement } = making;
  const legs = stripLegs(lowering, original);
  const motion = motionOf(lowering, making);
  return legs && motion && madeLegs(legs, motion, isMirror(statement) && changesHand(original, statement));
};

/** The legs of a strip that is made: those of its original, moved; left stays what the builder sees on the left. */
const madeLegs = (legs: StripLegs, motion: Motion, isTurned: boolean): StripLegs => ({
  ...legs,
  heading: motion.direction(legs.heading),
  across: motion.direction(legs.across),
  faces: legs.faces.map(({ corners, facing }): LegFace => {
    const [startLeft, startRight, endRight, endLeft] = corners.map(motion.point);
    return {
      corners: isTurned ? [startRight, startLeft, endLeft, endRight] : [startLeft, startRight, endRight, endLeft],
      facing: motion.direction(facing),
    };
  }),
});

const placeLegs = (lowering: Lowering, strip: Strip): StripLegs | undefined => {
  const name = `strip \`${strip.name}\``;
  const directions = directionsOf(lowering, strip);
  const from = asPoint(lowering, strip.from, `Start of ${name}`);
  const width = asLength(lowering, strip.width, `Width of ${name}`, POSITIVE);
  if (strip.legs.length === 0) {
    lowering.reports.add(
      'strip/no-legs',
      lowering.idOf(strip),
      `Strip \`${strip.name}\` has no legs; it needs at least one \`panel\` between its braces`,
      { about: [nameOf(strip)] },
    );
  }
  const travels = legTravels(lowering, strip, from, directions?.heading);
  if (!directions || !from || width === undefined) return undefined;
  const faces = stripFaces({ from, width, ...directions }, travels);
  return { ...directions, width, faces, isComplete: travels.length === strip.legs.length };
};

const directionsOf = (
  lowering: Lowering,
  strip: Strip,
): { readonly heading: Vec3; readonly across: Vec3 } | undefined => {
  const [heading, across] = [headings[strip.heading], headings[strip.across]];
  if (!heading || !across) return undefined;
  if (heading[2] === 0 && across[2] === 0 && dot(heading, across) === 0) return { heading, across };
  lowering.reports.add(
    'strip/headings',
    lowering.idOf(strip, 'heading'),
    `Strip \`${strip.name}\` runs ${strip.heading} and lies across ${strip.across}; it needs two level headings at right angles`,
    { about: [nameOf(strip)] },
  );
  return undefined;
};

/** Length and slope of each leg up to the first that says too little; the others are still read, for their findings. */
const legTravels = (
  lowering: Lowering,
  strip: Strip,
  from: Vec3 | undefined,
  heading: Vec3 | undefined,
): readonly LegTravel[] => {
  const travels: LegTravel[] = [];
  let at = from;
  for (const leg of strip.legs) {
    const rise = riseOf(lowering, leg);
    const direction = heading && rise !== undefined ? legDirection(heading, rise) : undefined;
    const length = lengthOf(lowering, leg, at, direction);
    at = at && direction && length !== undefined ? addScaled(at, direction, length) : undefined;
    if (at && length !== undefined && rise !== undefined) travels.push({ length, rise });
  }
  for (let i = 1; i < travels.length; i++) reportStraightJoint(lowering, strip, travels, i);
  return travels;
};

const reportStraightJoint = (lowering: Lowering, strip: Strip, travels: readonly LegTravel[], i: number): void => {
  if (Math.abs(travels[i].rise - travels[i - 1].rise) > SAME_DIRECTION) return;
  const [before, after] = [strip.legs[i - 1], strip.legs[i]];
  lowering.reports.add(
    'strip/same-slope',
    lowering.idOf(after),
    `Legs \`${before.name}\` and \`${after.name}\` have one slope, so there is no bend between them; they need to be one leg or two slopes`,
    {
      about: [nameOf(before), nameOf(after)],
      related: [{ at: lowering.idOf(before), message: `\`${before.name}\` runs the same way` }],
    },
  );
};

/** Slope from level, rad, positive upwards. */
const riseOf = (lowering: Lowering, leg: Leg): number | undefined => {
  if (leg.slope === 'level') return 0;
  const angle = asAngle(lowering, leg.angle, `Slope of leg \`${leg.name}\``, { atLeast: 0, below: 180 });
  if (angle === undefined || leg.slope === undefined) return undefined;
  return leg.slope === 'rising' ? angle : -angle;
};

const lengthOf = (
  lowering: Lowering,
  leg: Leg,
  from: Vec3 | undefined,
  direction: Vec3 | undefined,
): number | undefined => {
  if (leg.axis === undefined) return asLength(lowering, leg.length, `Length of leg \`${leg.name}\``, POSITIVE);
  const target = asLength(lowering, leg.target, `Target of leg \`${leg.name}\``);
  if (target === undefined || !from || !direction) return undefined;
  const length = legLengthTo(from, direction, AXES[leg.axis], target);
  if (length === undefined) {
    const start = from[AXES[leg.axis]];
    lowering.reports.add(
      'strip/out-of-reach',
      lowering.idOf(leg, 'axis'),
      `Leg \`${leg.name}\` starts at ${leg.axis} ${rounded(start)} mm and is to end at ${rounded(target)} mm; its slope does not lead there`,
      {
        about: [nameOf(leg)],
        values: { start_mm: start, target_mm: target },
      },
    );
  }
  return length;
};
