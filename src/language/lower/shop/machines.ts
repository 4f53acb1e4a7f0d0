/** The machines of a shop. */
import type {
  Cutter as CutterModel,
  FoldingBrake as FoldingBrakeModel,
  PressBrake as PressBrakeModel,
  SpotWelder as SpotWelderModel,
  ToolProfile,
} from '../../../analysis/model/tub.js';
import type {
  Cutter,
  Expression,
  FoldingBrake,
  FoldingProfile,
  Pair,
  PressBrake,
  PressProfile,
  SpotWelder,
} from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { asAngle, asDimension, asLength, listed, NOT_NEGATIVE, POSITIVE, THICKNESS } from '../values/coerce.js';

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

export const pressBrakeOf = (lowering: Lowering, node: PressBrake): PressBrakeModel | undefined => {
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

export const foldingBrakeOf = (lowering: Lowering, node: FoldingBrake): FoldingBrakeModel | undefined => {
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

export const cutterOf = (lowering: Lowering, node: Cutter): CutterModel | undefined => {
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

export const spotWelderOf = (lowering: Lowering, node: SpotWelder): SpotWelderModel | undefined => {
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
