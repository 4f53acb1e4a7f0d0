import type { Rates as RatesModel, Shop as ShopModel, Stock as StockModel } from '../../../analysis/model/tub.js';
import {
  isCutter,
  isFoldingBrake,
  isPressBrake,
  isSpotWelder,
  type Expression,
  type Rates,
  type Shop,
  type Stock,
} from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { gaugeThickness, materialOf } from './sheets.js';
import { asAngle, asDimension, asLength, asNumber, NOT_NEGATIVE, POSITIVE, THICKNESS } from '../values/coerce.js';
import { HAND_ROUNDED } from '../../../analysis/model/tolerance.js';
import { inMm } from '../../../analysis/model/wording.js';
import { pressBrakeOf, foldingBrakeOf, cutterOf, spotWelderOf } from './machines.js';

/** All `shop` statements of a file as one shop, or undefined when there is none. The first names it. */
export const shopOf = (lowering: Lowering, shops: readonly Shop[]): ShopModel | undefined => {
  if (shops.length === 0) return undefined;
  const machines = shops.flatMap((shop) => shop.machines ?? []);
  const first = <T>(list: (shop: Shop) => readonly T[]): readonly T[] => shops.flatMap(list).slice(0, 1);
  for (const shop of shops) {
    lowering.only(shop, 'bendsWithin', shop.bendsWithin, 'bends within');
    lowering.only(shop, 'marksWithin', shop.marksWithin, 'marks within');
    lowering.only(shop, 'clampAtMost', shop.clampAtMost, 'clamp at most');
    lowering.only(shop, 'rates', shop.rates);
  }
  return {
    name: shops[0].name ?? 'shop',
    at: lowering.idOf(shops[0]),
    pressBrakes: machines.filter(isPressBrake).flatMap((node) => pressBrakeOf(lowering, node) ?? []),
    foldingBrakes: machines.filter(isFoldingBrake).flatMap((node) => foldingBrakeOf(lowering, node) ?? []),
    cutters: machines.filter(isCutter).flatMap((node) => cutterOf(lowering, node) ?? []),
    spotWelders: machines.filter(isSpotWelder).flatMap((node) => spotWelderOf(lowering, node) ?? []),
    bendsWithin: asAngle(lowering, first((shop) => shop.bendsWithin)[0], 'How true a bend is held', {
      atLeast: 0,
      below: 90,
    }),
    marksWithin: asLength(lowering, first((shop) => shop.marksWithin)[0], 'How true a mark is placed', NOT_NEGATIVE),
    clampAtMostN: asDimension(
      lowering,
      first((shop) => shop.clampAtMost)[0],
      'force',
      'What a clamp may need',
      POSITIVE,
    ),
    rates: ratesOf(lowering, first((shop) => shop.rates ?? [])[0]),
    stock: shops.flatMap((shop) => shop.stock ?? []).flatMap((node) => stockOf(lowering, node) ?? []),
  };
};

const ratesOf = (lowering: Lowering, node: Rates | undefined): RatesModel | undefined => {
  if (!node) return undefined;
  const only = (
    property: 'cut' | 'pierce' | 'stroke' | 'spots' | 'fasteners' | 'weld' | 'solder' | 'sealant',
  ): Expression | undefined => lowering.only<Expression>(node, property, node[property]);
  const speed = (property: 'cut' | 'weld' | 'solder' | 'sealant', subject: string): number | undefined =>
    asDimension(lowering, only(property), 'speed', subject, POSITIVE);
  const time = (property: 'pierce' | 'stroke' | 'spots' | 'fasteners', subject: string): number | undefined =>
    asDimension(lowering, only(property), 'time', subject, NOT_NEGATIVE);
  const money = (property: 'work' | 'metal', subject: string): number | undefined =>
    asNumber(lowering, lowering.only<Expression>(node, property, node[property]), subject, NOT_NEGATIVE);
  return {
    cut: speed('cut', 'Speed of cutting'),
    pierce: time('pierce', 'Time to pierce'),
    stroke: time('stroke', 'Time of a stroke'),
    spot: time('spots', 'Time of a spot'),
    fastener: time('fasteners', 'Time of a fastener'),
    weld: speed('weld', 'Speed of welding'),
    solder: speed('solder', 'Speed of soldering'),
    sealant: speed('sealant', 'Speed of sealing'),
    work: money('work', 'Money for an hour of work'),
    metal: money('metal', 'Money for a kilogram of sheet'),
  };
};

const stockOf = (lowering: Lowering, node: Stock): StockModel | undefined => {
  const material = materialOf(node.material);
  const gauge = node.gauge === undefined ? undefined : lowering.literal(node, node.gauge);
  const thickness =
    gauge === undefined
      ? asLength(lowering, node.thickness, 'Thickness of the stock', THICKNESS)
      : gaugeThickness(lowering, material, gauge, () => lowering.idOf(node, 'gauge'));
  const width = asLength(lowering, node.width, 'Width of the stock', POSITIVE);
  const length = asLength(lowering, node.length, 'Length of the stock', POSITIVE);
  const count = asNumber(lowering, node.count, 'Count of the stock', {
    atLeast: 0,
    whole: true,
    limit: 'stock',
  });
  if (thickness === undefined || width === undefined || length === undefined) return undefined;
  const rolledAlong = node.grain && rolledSideOf(lowering, node, [width, length]);
  return {
    at: lowering.idOf(node),
    material,
    thickness,
    size: [width, length],
    count,
    ...(rolledAlong && { rolledAlong }),
  };
};

/** The side that is as long as the grain is said to run along. */
const rolledSideOf = (
  lowering: Lowering,
  node: Stock,
  [width, length]: readonly [number, number],
): StockModel['rolledAlong'] => {
  const along = asLength(lowering, node.grain, 'Side of the stock that its grain runs along', POSITIVE);
  if (along === undefined) return undefined;
  if (Math.abs(along - width) <= HAND_ROUNDED) return 'width';
  if (Math.abs(along - length) <= HAND_ROUNDED) return 'length';
  lowering.reports.add(
    'value/out-of-range',
    lowering.idOf(node.grain!),
    `The grain of the stock runs along ${inMm(along)}; its sides are ${inMm(width)} and ${inMm(length)}: it needs one of them`,
    { values: { has_mm: along, width_mm: width, length_mm: length } },
  );
  return undefined;
};
