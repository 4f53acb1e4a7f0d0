import type {
  Cutter as CutterModel,
  FoldingBrake as FoldingBrakeModel,
  PressBrake as PressBrakeModel,
  Rates as RatesModel,
  Shop as ShopModel,
  SpotWelder as SpotWelderModel,
  Stock as StockModel,
  ToolProfile,
} from '../../analysis/model/tub.js';
import {
  isCutter,
  isFoldingBrake,
  isPressBrake,
  isSpotWelder,
  type Cutter,
  type Expression,
  type FoldingBrake,
  type FoldingProfile,
  type Pair,
  type PressBrake,
  type PressProfile,
  type Rates,
  type Shop,
  type SpotWelder,
  type Stock,
} from '../generated/ast.js';
import type { Lowering } from './lowering.js';
import { gaugeThickness, materialOf } from './sheets.js';
import {
  asAngle,
  asDimension,
  asLength,
  asNumber,
  listed,
  NOT_NEGATIVE,
  POSITIVE,
  THICKNESS,
} from './values/coerce.js';
import { HAND_ROUNDED } from '../../analysis/model/tolerance.js';
import { inMm } from '../../analysis/model/wording.js';

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

/** A machine without a number it cannot be judged by is left out, and said to be incomplete. */
const complete = <T extends object>(
  lowering: Lowering,
  node: PressBrake | FoldingBrake | Cutter | SpotWelder,
  kind: string,
  needed: Readonly<Record<string, number | undefined>>,
  build: () => T,
): T | undefined => {
  const missing = Object.keys(needed).filter((word) => needed[word] === undefined);
  if (missing.length === 0) return build();
  const stated = (word: string): boolean =>
    ((node as unknown as Record<string, readonly unknown[] | undefined>)[propertyOf[word] ?? word]?.length ?? 0) > 0;
  const absent = missing.filter((word) => !stated(word));
  if (absent.length > 0) {
    lowering.reports.add(
      'shop/machine-incomplete',
      lowering.idOf(node),
      `${kind}${node.name ? ` \`${node.name}\`` : ''} does not state ${absent.map((word) => `\`${word}\``).join(', ')}; without it no part can be judged on this machine`,
      { about: node.name ? [node.name] : [] },
    );
  }
  return undefined;
};

const propertyOf: Readonly<Record<string, string>> = {
  'punch radius': 'punchRadius',
  'angle at most': 'angleAtMost',
  'smallest hole': 'smallestHole',
  'sheets at most': 'sheetA',
  bed: 'bed',
  'bed by': 'bedWidth',
};

const lengths = (lowering: Lowering, items: readonly Expression[] | undefined, subject: string): readonly number[] =>
  listed(lowering, items, subject)
    .flatMap((item) => asLength(lowering, item, subject, POSITIVE) ?? [])
    .sort((a, b) => a - b);

const profileOf = (
  lowering: Lowering,
  profiles: readonly (PressProfile | FoldingProfile)[] | undefined,
  tool: string,
): ToolProfile | undefined => {
  const profile = profiles?.find((candidate) => candidate.tool === tool);
  if (!profile) return undefined;
  const subject = `Point of the ${tool} profile`;
  const points = listed(lowering, profile.points, subject).map((pair) => pairOf(lowering, pair, subject));
  return points.every((point) => point !== undefined) && points.length >= 3 ? points : undefined;
};

const pairOf = (lowering: Lowering, pair: Pair, subject: string): readonly [number, number] | undefined => {
  const [x, y] = [asLength(lowering, pair.x, subject), asLength(lowering, pair.y, subject)];
  return x === undefined || y === undefined ? undefined : [x, y];
};

const pressBrakeOf = (lowering: Lowering, node: PressBrake): PressBrakeModel | undefined => {
  const name = `press brake \`${node.name}\``;
  const only = (property: 'force' | 'bed' | 'punchRadius' | 'nose' | 'depth' | 'opening'): Expression | undefined =>
    lowering.only<Expression>(node, property, node[property]);
  const forceN = asDimension(lowering, only('force'), 'force', `Force of ${name}`, POSITIVE);
  const bed = asLength(lowering, only('bed'), `Bed of ${name}`, POSITIVE);
  const punchRadius = asLength(lowering, only('punchRadius'), `Punch radius of ${name}`, NOT_NEGATIVE);
  const nose = asAngle(lowering, only('nose'), `Nose of ${name}`, { above: 0, below: 180 });
  const depth = asLength(lowering, only('depth'), `Depth of ${name}`, POSITIVE);
  const opening = asLength(lowering, only('opening'), `Opening of ${name}`, POSITIVE);
  const dies = lengths(lowering, node.dies, `Die of ${name}`);
  const fingers = lengths(lowering, node.fingers, `Finger of ${name}`);
  const profiles = {
    punchProfile: profileOf(lowering, node.profiles, 'punch'),
    dieProfile: profileOf(lowering, node.profiles, 'die'),
  };
  return complete(
    lowering,
    node,
    'Press brake',
    { force: forceN, bed, 'punch radius': punchRadius, nose, depth, opening },
    () => ({
      name: node.name,
      at: lowering.idOf(node),
      forceN: forceN!,
      bed: bed!,
      dies,
      punchRadius: punchRadius!,
      nose: nose!,
      fingers,
      depth: depth!,
      opening: opening!,
      ...profiles,
    }),
  );
};

const foldingBrakeOf = (lowering: Lowering, node: FoldingBrake): FoldingBrakeModel | undefined => {
  const name = `folding brake \`${node.name}\``;
  const only = (property: 'width' | 'capacity' | 'depth' | 'nose' | 'angleAtMost'): Expression | undefined =>
    lowering.only<Expression>(node, property, node[property]);
  const width = asLength(lowering, only('width'), `Width of ${name}`, POSITIVE);
  const capacity = asLength(lowering, only('capacity'), `Capacity of ${name}`, THICKNESS);
  const depth = asLength(lowering, only('depth'), `Depth of ${name}`, POSITIVE);
  const nose = asAngle(lowering, only('nose'), `Nose of ${name}`, { above: 0, below: 180 });
  const angleAtMost = asAngle(lowering, only('angleAtMost'), `Largest angle of ${name}`, { above: 0, atMost: 180 });
  const fingers = lengths(lowering, node.fingers, `Finger of ${name}`);
  const profiles = {
    clampProfile: profileOf(lowering, node.profiles, 'clamp'),
    leafProfile: profileOf(lowering, node.profiles, 'leaf'),
  };
  return complete(
    lowering,
    node,
    'Folding brake',
    { width, capacity, depth, nose, 'angle at most': angleAtMost },
    () => ({
      name: node.name,
      at: lowering.idOf(node),
      width: width!,
      capacity: capacity!,
      depth: depth!,
      nose: nose!,
      angleAtMost: angleAtMost!,
      fingers,
      ...profiles,
    }),
  );
};

const cutterOf = (lowering: Lowering, node: Cutter): CutterModel | undefined => {
  const name = `cutter \`${node.name}\``;
  const width = asLength(lowering, lowering.only(node, 'bedWidth', node.bedWidth, 'bed'), `Bed of ${name}`, POSITIVE);
  const depth = asLength(lowering, node.bedDepth?.[0], `Bed of ${name}`, POSITIVE);
  const kerf = asLength(lowering, lowering.only(node, 'kerf', node.kerf), `Kerf of ${name}`, NOT_NEGATIVE);
  const smallestHole =
    asLength(
      lowering,
      lowering.only(node, 'smallestHole', node.smallestHole, 'smallest hole'),
      `Smallest hole of ${name}`,
      NOT_NEGATIVE,
    ) ?? 0;
  const pen = lowering.only(node, 'penOffset', node.penOffset, 'pen offset');
  const penOffset = (pen && pairOf(lowering, pen, `Pen offset of ${name}`)) ?? ([0, 0] as const);
  return complete(lowering, node, 'Cutter', { 'bed by': width, kerf }, () => ({
    name: node.name,
    at: lowering.idOf(node),
    bed: [width!, depth ?? width!],
    kerf: kerf!,
    smallestHole,
    penOffset,
  }));
};

const spotWelderOf = (lowering: Lowering, node: SpotWelder): SpotWelderModel | undefined => {
  const name = `spot welder${node.name ? ` \`${node.name}\`` : ''}`;
  const throat = asLength(lowering, lowering.only(node, 'throat', node.throat), `Throat of ${name}`, POSITIVE);
  const opening = asLength(lowering, lowering.only(node, 'opening', node.opening), `Opening of ${name}`, POSITIVE);
  const first = asLength(
    lowering,
    lowering.only(node, 'sheetA', node.sheetA, 'sheets at most'),
    `Sheets of ${name}`,
    THICKNESS,
  );
  const second = asLength(lowering, node.sheetB?.[0], `Sheets of ${name}`, THICKNESS);
  return complete(lowering, node, 'Spot welder', { throat, opening, 'sheets at most': first }, () => ({
    name: node.name ?? 'spot welder',
    at: lowering.idOf(node),
    throat: throat!,
    opening: opening!,
    sheetsAtMost: [first!, second ?? first!],
  }));
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
