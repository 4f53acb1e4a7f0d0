import type { Vec3 } from '../../../analysis/geometry/vec.js';
import { distance, lerp } from '../../../analysis/geometry/vec.js';
import { fastenerHole, fastenerThreads } from '../../../analysis/material/fastener-holes.js';
import type { Fastener, Opening, Outlet as OutletModel } from '../../../analysis/model/tub.js';
import {
  isOutlet,
  type Cutout,
  type Hole,
  type HoleFastener,
  type Outlet,
  type OutletPipe,
  type Slot,
} from '../../generated/ast.js';
import { edgeOf } from '../panels/edges.js';
import type { Indices } from '../indices.js';
import { makingOf } from '../../made-groups.js';
import type { Lowering } from '../lowering.js';
import { motionOf, type Motion } from '../panels/motions.js';
import { nameOf } from '../references.js';
import { strainerOf, threadOf, windowSize } from './strainers.js';
import { asAngle, asLength, asNumber, asPoint, NOT_NEGATIVE, POSITIVE } from '../values/coerce.js';

export type OpeningNode = Outlet | Hole | Cutout | Slot;

/** Gives openings that the builder left without a name one by panel and count: `apron.hole`, `apron.hole2`. */
export class OpeningNames {
  private readonly counts = new Map<string, number>();

  nameFor(stated: string | undefined, panel: string, use: Opening['use']): string {
    if (stated !== undefined) return stated;
    const base = `${panel}.${use}`;
    const count = (this.counts.get(base) ?? 0) + 1;
    this.counts.set(base, count);
    return count === 1 ? base : `${base}${count}`;
  }
}

/** The openings a statement makes: none when it says too little, several for a row of holes. */
export const openingsOf = (
  lowering: Lowering,
  node: OpeningNode,
  indices: Indices,
  names: OpeningNames,
): readonly Opening[] => {
  const panel = isOutlet(node) ? indices.wetPanelAt(node.panel) : indices.panelAt(node.panel);
  const use =
    node.$type === 'Outlet' ? 'outlet' : node.$type === 'Hole' ? 'hole' : node.$type === 'Cutout' ? 'cutout' : 'slot';
  const name = panel === undefined ? (node.name ?? use) : names.nameFor(nameIn(node), indices.panelName(panel), use);
  const shapes = shapesOf(lowering, node, name);
  if (panel === undefined) return [];
  const fastener = node.$type === 'Hole' ? fastenerOf(lowering, node) : undefined;
  const across = node.$type === 'Cutout' ? lowering.only(node, 'strainer', node.strainer) : undefined;
  return shapes.map((shape, i) => ({
    name: shapes.length === 1 ? name : `${name}.${i + 1}`,
    at: lowering.idOf(node),
    panel,
    use,
    shape,
    fastener,
    ...(across ? { strainer: strainerOf(lowering, across, windowSize(shape)) } : {}),
  }));
};

const shapesOf = (lowering: Lowering, node: OpeningNode, name: string): readonly Opening['shape'][] => {
  const making = makingOf(node);
  const motion = making && motionOf(lowering, making);
  if (making) return motion ? shapesOf(lowering, making.original, name).map((shape) => moved(shape, motion)) : [];
  switch (node.$type) {
    case 'Outlet':
      return outletShapes(lowering, node, name);
    case 'Hole':
      return holeShapes(lowering, node, name);
    case 'Cutout': {
      const from = asPoint(lowering, node.from, `Corner of cutout \`${name}\``);
      const to = asPoint(lowering, node.to, `Corner of cutout \`${name}\``);
      return from && to ? [{ kind: 'window', from, to }] : [];
    }
    case 'Slot': {
      const center = asPoint(lowering, node.center, `Place of slot \`${name}\``);
      const length = asLength(lowering, node.length, `Length of slot \`${name}\``, POSITIVE);
      const width = asLength(lowering, node.width, `Width of slot \`${name}\``, POSITIVE);
      if (!center || length === undefined || width === undefined) return [];
      return [{ kind: 'slot', center, along: node.along ?? 'upright', length, width }];
    }
  }
};

/** Of a made group with the name of the group, or it would be that of its original. */
const nameIn = (node: OpeningNode): string | undefined =>
  node.name !== undefined && makingOf(node) ? nameOf(node) : node.name;

const moved = (shape: Opening['shape'], { point }: Motion): Opening['shape'] => {
  switch (shape.kind) {
    case 'round':
    case 'slot':
      return { ...shape, center: point(shape.center) };
    case 'vee':
      return { ...shape, tip: point(shape.tip) };
    case 'window':
    case 'notch':
      return { ...shape, from: point(shape.from), to: point(shape.to) };
  }
};

/** A vee that is as good as shut, or as good as the whole edge, is none. */
const VEE_ANGLE = { atLeast: 5, atMost: 170 };

const outletShapes = (lowering: Lowering, node: Outlet, name: string): readonly Opening['shape'][] => {
  const told = `outlet \`${name}\``;
  if (node.form === 'notch') {
    const from = asPoint(lowering, node.from, `End of ${told}`);
    const to = asPoint(lowering, node.to, `End of ${told}`);
    return from && to ? [{ kind: 'notch', from, to }] : [];
  }
  const center = asPoint(lowering, node.center, `Place of ${told}`);
  if (node.form === 'vee') {
    const angle = asAngle(lowering, node.angle, `Angle of ${told}`, VEE_ANGLE);
    const deep = asLength(lowering, node.deep, `Depth of ${told}`, POSITIVE);
    return center && angle !== undefined && deep !== undefined ? [{ kind: 'vee', tip: center, angle, deep }] : [];
  }
  const diameter = asLength(lowering, node.diameter, `Diameter of ${told}`, POSITIVE);
  return center && diameter !== undefined ? [{ kind: 'round', center, diameter }] : [];
};

const holeShapes = (lowering: Lowering, node: Hole, name: string): readonly Opening['shape'][] => {
  const centers = holeCenters(lowering, node, name);
  const diameter = holeDiameter(lowering, node, name);
  return diameter === undefined ? [] : centers.map((center) => ({ kind: 'round', center, diameter }));
};

/** A row is spaced evenly, with a hole at both of its ends. */
const holeCenters = (lowering: Lowering, node: Hole, name: string): readonly Vec3[] => {
  if (node.center) {
    const center = asPoint(lowering, node.center, `Place of hole \`${name}\``);
    return center ? [center] : [];
  }
  const from = asPoint(lowering, node.from, `Start of the row \`${name}\``);
  const to = asPoint(lowering, node.to, `End of the row \`${name}\``);
  const count = asNumber(lowering, node.count, `Count of the row \`${name}\``, {
    atLeast: 2,
    whole: true,
    limit: 'row',
  });
  if (!from || !to || count === undefined) return [];
  return Array.from({ length: count }, (_, i) => lerp(from, to, i / (count - 1)));
};

const holeDiameter = (lowering: Lowering, node: Hole, name: string): number | undefined => {
  const stated = lowering.only(node, 'diameter', node.diameter);
  if (stated) return asLength(lowering, stated, `Diameter of hole \`${name}\``, POSITIVE);
  const fastener = node.fastener[0];
  const thread = threadOf(fastener?.thread);
  const hole = fastener && thread !== undefined ? fastenerHole(fastener.kind, thread) : undefined;
  if (hole !== undefined) return hole;
  const reason = fastener
    ? `no hole size is known for a ${fastener.kind} ${fastener.thread}, only for M${fastenerThreads(fastener.kind).join(', M')}`
    : 'it has no fastener to take it from';
  lowering.reports.add(
    'hole/no-diameter',
    lowering.idOf(node),
    `Hole \`${name}\` states no diameter and ${reason}; it needs ${fastener ? 'the `diameter` that its maker states' : 'one such as `diameter 6.6 mm`'}`,
    { about: [name] },
  );
  return undefined;
};

const fastenerOf = (lowering: Lowering, node: Hole): Fastener | undefined => {
  const fastener: HoleFastener | undefined = lowering.only(node, 'fastener', node.fastener, 'rivetnut or screw');
  const thread = threadOf(fastener?.thread);
  if (!fastener || thread === undefined) return undefined;
  const hex = fastener.hex ? ({ hex: true } as const) : {};
  return { kind: fastener.kind, thread, sealed: fastener.sealed, ...hex };
};

const formOf = (shape: Opening['shape']): Pick<OutletModel, 'center' | 'diameter' | 'weir'> | undefined => {
  switch (shape.kind) {
    case 'round':
      return { center: shape.center, diameter: shape.diameter };
    case 'notch': {
      const { from, to } = shape;
      const [x, y] = [to[0] - from[0], to[1] - from[1]];
      const center: Vec3 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2, Math.min(from[2], to[2])];
      return { center, diameter: 0, weir: { kind: 'notch', width: Math.hypot(x, y) } };
    }
    case 'vee':
      return { center: shape.tip, diameter: 0, weir: { kind: 'vee', angle: shape.angle } };
    default:
      return undefined;
  }
};

/** An open edge as an outlet; no hole is cut. */
export const spoutOf = (lowering: Lowering, node: Outlet, indices: Indices): OutletModel | undefined => {
  const named = node.edge && edgeOf(lowering, node.edge);
  const panel = named && indices.wetPanelOf(named.node, node.edge!);
  if (!named || panel === undefined) return undefined;
  const { corners } = named.face;
  const [from, to] = [corners[named.edge], corners[(named.edge + 1) % corners.length]];
  return {
    name: node.name,
    at: lowering.idOf(node),
    panel,
    center: lerp(from, to, 0.5),
    diameter: 0,
    spout: { edge: named.edge, length: distance(from, to) },
    lip: 0,
    raised: 0,
    ...(lowering.only(node, 'overflow', node.overflow) ? { overflow: true } : {}),
    strainer: undefined,
    opening: undefined,
  };
};

export const outletOf = (lowering: Lowering, node: Outlet, hole: Opening, opening: number): OutletModel | undefined => {
  const form = formOf(hole.shape);
  if (!form) return undefined;
  const name = `outlet \`${node.name}\``;
  return {
    name: hole.name,
    at: hole.at,
    panel: hole.panel,
    ...form,
    lip: asLength(lowering, lowering.only(node, 'lip', node.lip), `Lip of ${name}`, NOT_NEGATIVE) ?? 0,
    raised: asLength(lowering, lowering.only(node, 'raised', node.raised), `Raised edge of ${name}`, NOT_NEGATIVE) ?? 0,
    ...(lowering.only(node, 'shut', node.shut) ? { shut: true } : {}),
    ...(lowering.only(node, 'overflow', node.overflow) ? { overflow: true } : {}),
    strainer: strainerOf(lowering, lowering.only(node, 'strainer', node.strainer)),
    ...pipeOf(lowering, lowering.only(node, 'pipe', node.pipe), name),
    opening,
  };
};

const pipeOf = (lowering: Lowering, node: OutletPipe | undefined, outlet: string): Pick<OutletModel, 'pipe'> => {
  if (!node) return {};
  const bore = asLength(lowering, node.bore, `Bore of the pipe of ${outlet}`, POSITIVE);
  const length = asLength(lowering, node.length, `Length of the pipe of ${outlet}`, POSITIVE);
  const to = asPoint(lowering, node.end, `End of the pipe of ${outlet}`);
  if (bore === undefined || length === undefined || !to) return {};
  return { pipe: { at: lowering.idOf(node), bore, length, to } };
};
