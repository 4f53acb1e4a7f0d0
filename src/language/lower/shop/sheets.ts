import { GrammarUtils } from 'langium';
import type {
  Coupon as CouponModel,
  Material,
  Sheet as SheetModel,
  StatedSpringback,
} from '../../../analysis/model/tub.js';
import { gradesOf } from '../../../analysis/material/grades.js';
import { gaugeSeriesOf, thicknessOfGauge } from '../../../analysis/material/gauges.js';
import type { Coupon, Sheet, Springback } from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { asAngle, asLength, asNumber, listed, NOT_NEGATIVE, POSITIVE, THICKNESS } from '../values/coerce.js';

/** Taken where the text says no thickness, which is reported: so that the rest can still be judged. */
const STAND_IN_THICKNESS = 1;

export const sheetOf = (lowering: Lowering, node: Sheet): SheetModel => {
  const name = `sheet \`${node.name}\``;
  const material = materialOf(node.material);
  const gauge = gaugeOf(lowering, node);
  const stated = thicknessOf(lowering, node, material, gauge);
  const thickness = stated ?? STAND_IN_THICKNESS;
  const radiusNode = lowering.only(node, 'radius', node.radius);
  const radius = asLength(lowering, radiusNode, `Radius of ${name}`, NOT_NEGATIVE);
  if (stated === undefined || (radiusNode && radius === undefined)) lowering.sheetsWithStandIns.add(node.name ?? '?');
  const grain = lowering.only(node, 'grain', node.grain);
  return {
    name: node.name ?? '?',
    at: lowering.idOf(node),
    material,
    grade: gradeOf(lowering, node, material),
    tensileMPa: asNumber(
      lowering,
      lowering.only(node, 'tensile', node.tensile),
      `Tensile strength of ${name} in MPa`,
      TENSILE,
    ),
    thickness,
    gauge,
    // Common practice, no source: one thickness, where the builder states none.
    radius: radius ?? thickness,
    kFactor: asNumber(lowering, lowering.only(node, 'k', node.k), `K of ${name}`, { above: 0, atMost: 1 }),
    ...kWorthOf(lowering, node, name),
    ...springbacksOf(lowering, node, name),
    coupon: couponOf(lowering, lowering.only(node, 'coupon', node.coupon)),
    grain: grain === 'across' ? 'across bends' : grain === 'along' ? 'along bends' : 'any',
  };
};

const kWorthOf = (
  lowering: Lowering,
  { kWithin = [], kFrom = [] }: Sheet,
  name: string,
): Pick<SheetModel, 'kWorth'> => {
  const within = asNumber(lowering, kWithin[0], `What K of ${name} may be off`, { atLeast: 0, atMost: 1 });
  const count = kFrom[0];
  return within === undefined && count === undefined ? {} : { kWorth: { within, count } };
};

/** One for each die at most; the first stands. */
const springbacksOf = (lowering: Lowering, node: Sheet, name: string): Pick<SheetModel, 'springbacks'> => {
  const first = new Map<number | undefined, Springback>();
  const found = listed(lowering, node.springbacks, 'Springback').flatMap((each): StatedSpringback[] => {
    const subject = `Springback of ${name}`;
    const angle = asAngle(lowering, each.angle, subject, { atLeast: 0, below: 45 });
    const within =
      each.within &&
      asAngle(lowering, each.within, `What the springback of ${name} may be off`, { atLeast: 0, below: 45 });
    const die = each.die && asLength(lowering, each.die, `Die of the springback of ${name}`, POSITIVE);
    if (angle === undefined || (each.die && die === undefined)) return [];
    const before = first.get(die);
    if (!before) {
      first.set(die, each);
      return [{ angle, die, within, count: each.count }];
    }
    lowering.reports.add(
      'text/stated-twice',
      lowering.idOf(each, 'word'),
      `${subject}${die === undefined ? '' : ' in this die'} is stated again; it needs it once for each die`,
      { related: [{ at: lowering.idOf(before, 'word'), message: 'First stated here' }] },
    );
    return [];
  });
  return found.length === 0 ? {} : { springbacks: found };
};

/** MPa. Lead is weaker, spring steel stronger than that. */
const TENSILE = { atLeast: 50, atMost: 2500 };

/** As it is traded, without the blanks that a builder may have put in; one that is not known is reported, and judged with care. */
const gradeOf = (lowering: Lowering, node: Sheet, material: Material): string | undefined => {
  const written = GrammarUtils.findNodeForProperty(node.$cstNode, 'grade')?.text;
  const grade = written?.replaceAll(/\s/g, '').toUpperCase();
  const known = gradesOf(material);
  if (grade === undefined || known.includes(grade)) return grade;
  const others =
    known.length === 0
      ? `no grade of ${material} is known by a number; state its strength, such as \`tensile 500\``
      : `known are ${known.join(', ')}; it is judged by the most careful of them`;
  lowering.reports.add(
    'sheet/unknown-grade',
    lowering.idOf(node, 'grade'),
    `Grade ${grade} of ${material} is not known; ${others}`,
    {
      about: [node.name ?? '?'],
      values: { grade },
    },
  );
  return grade;
};

export const materialOf = (word: string | undefined): Material =>
  word === 'aluminum' ? 'aluminium' : ((word as Material | undefined) ?? 'steel');

const gaugeOf = (lowering: Lowering, node: Sheet): number | undefined => {
  const written = lowering.only(node, 'gauge', node.gauge, 'ga');
  if (written !== undefined) return lowering.literal(node, written);
  const value = lowering.only(node, 'gaugeValue', node.gaugeValue, 'gauge');
  return asNumber(lowering, value, `Gauge of sheet \`${node.name}\``);
};

const thicknessOf = (
  lowering: Lowering,
  node: Sheet,
  material: Material,
  gauge: number | undefined,
): number | undefined => {
  const stated = lowering.only(node, 'thickness', node.thickness);
  if (stated && gauge !== undefined) {
    lowering.reports.add(
      'text/stated-twice',
      lowering.idOf(node, 'thickness'),
      `Sheet \`${node.name}\` states a gauge and a thickness; it needs one of them`,
      { about: [node.name] },
    );
  }
  if (stated) return asLength(lowering, stated, `Thickness of sheet \`${node.name}\``, THICKNESS);
  const place = node.gauge.length > 0 ? 'gauge' : 'gaugeValue';
  if (gauge !== undefined) return gaugeThickness(lowering, material, gauge, () => lowering.idOf(node, place));
  // What keeps the gauge from being known is told where it stands.
  if (node.gaugeValue.length > 0) return undefined;
  lowering.reports.add(
    'sheet/no-thickness',
    lowering.idOf(node),
    `Sheet \`${node.name}\` states no thickness; it needs a gauge such as \`18 ga\` or \`thickness 1.2 mm\``,
    { about: [node.name ?? '?'] },
  );
  return undefined;
};

/** Thickness of a gauge number in mm; one that the material's series does not have is reported. */
export const gaugeThickness = (
  lowering: Lowering,
  material: Material,
  gauge: number,
  at: () => number,
): number | undefined => {
  const thickness = thicknessOfGauge(material, gauge);
  if (thickness === undefined) {
    const isNumber = Number.isFinite(gauge);
    lowering.reports.add(
      'sheet/unknown-gauge',
      at(),
      `${isNumber ? `Gauge ${gauge}` : 'A gauge larger than any number'} is not in the ${material} series (${gaugeSeriesOf(material).name}); state the thickness in mm or in`,
      { values: isNumber ? { gauge } : {} },
    );
  }
  return thickness;
};

const couponOf = (lowering: Lowering, node: Coupon | undefined): CouponModel | undefined => {
  if (!node) return undefined;
  const flat = asLength(lowering, lowering.only(node, 'flat', node.flat), 'Flat length of the coupon', POSITIVE);
  const angle = asAngle(lowering, lowering.only(node, 'angle', node.angle, 'at'), 'Angle of the coupon', {
    above: 0,
    below: 180,
  });
  const legs = (node.legs ?? []).slice(0, 2).map((leg) => asLength(lowering, leg, 'Leg of the coupon', POSITIVE));
  if (node.flat.length === 0 || node.angle.length === 0 || node.legs.length !== 2) {
    lowering.reports.add(
      'sheet/coupon-incomplete',
      lowering.idOf(node),
      'The coupon lacks a measure; it needs `flat`, two `legs` and `at` its angle',
    );
  }
  const [first, second] = legs;
  if (flat === undefined || angle === undefined || first === undefined || second === undefined) return undefined;
  return { at: lowering.idOf(node), flat, legs: [first, second], angle };
};
