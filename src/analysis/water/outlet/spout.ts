import { memoBy } from '../../cache/memo.js';
import { addScaled, cross, distance, dot, lerp, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import type { OutletIndex, Tub } from '../../model/tub.js';
import type { Bend, Face, FaceIndex } from '../../shape/shape.js';
import { spoutOver } from '../../shape/spouts.js';
import { GRAVITY, manningN } from '../flow/depth.js';
import type { FlowNet } from '../flow/flow-net.js';
import { STREAM_WIDTH } from '../flow/hold-up.js';
import { outletAt, type InflowFlow } from '../flow/inflows.js';
import type { Fallen } from '../flow/route/routing.js';
import type { LiquidData } from '../flow/liquids.js';
import { inclinationOf } from '../standing/slopes.js';
import type { Surface } from '../surface/surface.js';
import { NO_SHARE } from '../../model/tolerance.js';
import { criticalDepth, jetOf, throwOf, type Jet } from './jet.js';

/** The water that leaves over the edge of a spout. */
export interface SpoutJet extends Jet {
  /** Parts of the edge that are wet; a lone stream is taken STREAM_WIDTH wide. */
  readonly parts: readonly (readonly [Vec3, Vec3])[];
  readonly width: number;
  /** As it runs where it spreads over all of the edge. */
  readonly spread: Jet;
  /** Unit, level: which way it is thrown. */
  readonly way: Vec3;
  /** It runs over the upper edge of its face, from water that stands behind. */
  readonly isCrest: boolean;
  /** With all inflows of the tub coming this way. */
  readonly most: Jet;
  /** Where it is too fast for the last bend, and leaps off there; from the bend, as it runs and with all inflows. */
  readonly leap: { readonly parts: SpoutJet['parts']; readonly usual: Jet; readonly most: Jet } | undefined;
}

/** Points of the surface on each open edge, by face and edge of its panel. O(n) for all of them. */
const edgePoints = memoBy(({ mesh, faces }: Surface): ReadonlyMap<string, readonly number[]> => {
  const found = new Map<string, Set<number>>();
  for (const [edge, { stretch }] of mesh.borders) {
    const key = `${stretch.face} ${faces[stretch.face].panelEdge[stretch.edge]}`;
    let points = found.get(key);
    if (!points) found.set(key, (points = new Set()));
    points.add(mesh.ends[2 * edge]).add(mesh.ends[2 * edge + 1]);
  }
  return new Map([...found].map(([key, points]) => [key, [...points].sort((p, q) => p - q)]));
});

/** Points of the surface on the edge of a spout; none where it is not open. */
export const spoutPoints = (tub: Tub, surface: Surface, outlet: OutletIndex): readonly number[] => {
  const { panel, spout } = tub.outlets[outlet];
  return spout ? (edgePoints(surface).get(`${panel} ${spout.edge}`) ?? []) : [];
};

export interface SpoutInput {
  readonly tub: Tub;
  readonly net: FlowNet;
  readonly flows: readonly InflowFlow[];
  readonly liquid: LiquidData;
  readonly bends: readonly Bend[];
}

/** The jet of a spout that takes `rateMm3S`; undefined where nothing comes to it. */
export const spoutJet = (input: SpoutInput, outlet: OutletIndex, rateMm3S: number): SpoutJet | undefined => {
  const { tub, net, liquid } = input;
  const face = net.surface.faces[tub.outlets[outlet].panel];
  const parts = wetParts(input, outlet);
  if (rateMm3S <= 0 || parts.length === 0 || !face.usable) return undefined;
  const whole = tub.outlets[outlet].spout?.length ?? Infinity;
  const wet = parts.reduce((sum, [from, to]) => sum + distance(from, to), 0);
  const { normal } = face.frame;
  const level = Math.hypot(normal[0], normal[1]);
  const out = outward(parts[0], face.corners);
  // Behind the upper edge of a face water stands; it runs over all of that edge, and leaves it level.
  const isCrest = level > 0 && normal[0] * out[0] + normal[1] * out[1] < 0;
  const width = isCrest ? whole : Math.min(whole, Math.max(STREAM_WIDTH, wet));
  const head = headOf(input, outlet);
  const from =
    (inclination: number, edge: readonly Vec3[], wide = width) =>
    (rate: number): Jet =>
      jetOf({
        perWidth: rate / wide,
        inclination,
        fall: head + 1.5 * criticalDepth(rate / wide) - Math.min(...edge.map(([, , z]) => z)),
        viscosityCst: liquid.viscosityCst,
        n: manningN[tub.sheets[tub.panels[face.panel].sheet]?.material ?? 'stainless'],
      });
  const edge = parts.flat();
  const at = from(isCrest ? 0 : inclinationOf(normal), edge);
  const way: Vec3 = level > 0 && !isCrest ? [normal[0] / level, normal[1] / level, 0] : out;
  const all = tub.inflows.reduce((sum, inflow) => sum + inflow.rateMm3S, 0);
  const rates = [rateMm3S, Math.max(all, rateMm3S)] as const;
  const usual = at(rates[0]);
  if (isCrest) return { ...usual, parts, width, spread: usual, way, isCrest, most: at(rates[1]), leap: undefined };
  const spread = whole < Infinity ? from(inclinationOf(normal), edge, whole)(rates[0]) : usual;
  const coming = { parts, from, rates };
  const most = fastest(input, face, coming, at(rates[1]));
  return { ...usual, parts, width, spread, way, isCrest, most, leap: leapOff(input, face, coming) };
};

/**
 * Height from which what comes to a spout falls, mm: the highest place where an inflow that ends there lands, with what is left of its own
 * fall along the sheet; where all of it goes through standing water, the level of the lowest of that.
 */
const headOf = ({ tub, net, flows }: SpoutInput, outlet: OutletIndex): number => {
  const heads = flows.flatMap(({ inflow, ends, routed }): readonly number[] => {
    const { panel, point, fall = 0, rateMm3S } = tub.inflows[inflow];
    const { corners, frame } = net.surface.faces[panel];
    const isComing = ends.some((end) => end.kind === 'outlet' && end.outlet === outlet);
    if (!isComing && fallenFrom({ tub, net, flows }, outlet) <= 0) return [];
    const steepness = Math.sin(inclinationOf(frame.normal));
    const lands = point ? point[2] : Math.max(...corners.map(([, , z]) => z));
    const stands = [...(routed?.through ?? [])]
      .filter(([, flux]) => flux >= rateMm3S * (1 - NO_SHARE))
      .map(([flatArea]) => net.flatAreas[flatArea].level);
    return [Math.min(lands + fall * steepness ** 2, ...stands)];
  });
  return Math.max(-Infinity, ...heads);
};

interface Coming {
  readonly parts: SpoutJet['parts'];
  readonly from: (inclination: number, edge: readonly Vec3[]) => (rate: number) => Jet;
  readonly rates: readonly [number, number];
}

/** Off a steeper face before it water may still run faster than it would on this one for long. */
const fastest = ({ net, bends }: SpoutInput, face: Face, { parts, from, rates }: Coming, own: Jet): Jet =>
  bendsOf(face)
    .map((index) => inclinationOf(net.surface.faces[otherFace(bends[index], face)].frame.normal))
    .filter((slope) => slope > own.down)
    .map((slope) => from(slope, parts.flat())(rates[1]))
    .filter(({ speed }) => speed > own.speed)
    .reduce((most, { depth, speed }) => (speed > most.speed ? { ...own, depth, speed } : most), own);

const bendsOf = ({ stretches }: Face): readonly number[] => [
  ...new Set(stretches.flat().flatMap(({ bend }) => bend ?? [])),
];

const otherFace = ({ faces: [a, b] }: Bend, { panel }: Face): FaceIndex => (a === panel ? b : a);

/**
 * Over a bend that turns down the water stays on the sheet while its weight holds it there: v2 / R < g cos a, R the bend's radius on the
 * wet face and half the depth (a ball on a dome; that water clings is left out, so that both ways are told).
 */
const leapOff = ({ net, bends }: SpoutInput, face: Face, { parts, from, rates }: Coming): SpoutJet['leap'] => {
  for (const index of bendsOf(face)) {
    const { wet, radius, thickness, start, end } = bends[index];
    const before = net.surface.faces[otherFace(bends[index], face)];
    const slope = inclinationOf(before.frame.normal);
    if (wet !== 'outside' || slope >= inclinationOf(face.frame.normal)) continue;
    const [usual, most] = rates.map(from(slope, [start, end]));
    const holds = GRAVITY * Math.cos(slope) * (radius + thickness + most.depth / 2);
    if (most.speed ** 2 <= holds) continue;
    const onBend = (place: Vec3): Vec3 => nearestOn(start, end, place);
    return { parts: parts.map(([p, q]) => [onBend(p), onBend(q)] as const), usual, most };
  }
  return undefined;
};

const nearestOn = (from: Vec3, to: Vec3, place: Vec3): Vec3 => {
  const along = subtract(to, from);
  return lerp(from, to, Math.min(1, Math.max(0, dot(subtract(place, from), along) / dot(along, along))));
};

/** Square to a level edge, away from the face. */
const outward = ([from, to]: readonly [Vec3, Vec3], corners: readonly Vec3[]): Vec3 => {
  const across = unit(cross(subtract(to, from), [0, 0, 1]));
  const inside = corners.reduce(
    (sum, corner) => sum + across[0] * (corner[0] - from[0]) + across[1] * (corner[1] - from[1]),
    0,
  );
  return inside > 0 ? [-across[0], -across[1], 0] : [across[0], across[1], 0];
};

/** What runs over the edge of a spout and comes down on the tub again, mm3/s. */
export const fallenFrom = (
  { tub, net, flows }: Pick<SpoutInput, 'tub' | 'net' | 'flows'>,
  outlet: OutletIndex,
): number => fallsIn({ tub, net, flows }, outlet).reduce((sum, [, { flux }]) => sum + flux, 0);

const fallsIn = (
  { tub, net, flows }: Pick<SpoutInput, 'tub' | 'net' | 'flows'>,
  outlet: OutletIndex,
): readonly (readonly [number, Fallen])[] =>
  tub.outlets[outlet].spout === undefined
    ? []
    : flows.flatMap(({ routed }) =>
        [...(routed?.fallen ?? [])].filter(([edge]) => {
          const stretch = net.surface.edge(edge).border?.stretch;
          return stretch !== undefined && spoutOver(tub, net.surface.faces, stretch) === outlet;
        }),
      );

const wetParts = ({ tub, net, flows }: SpoutInput, outlet: OutletIndex): SpoutJet['parts'] => {
  const spans = new Map<number, readonly [number, number]>();
  const wet = (edge: number, span: readonly [number, number]): void => {
    const known = spans.get(edge) ?? span;
    spans.set(edge, [Math.min(known[0], span[0]), Math.max(known[1], span[1])]);
  };
  for (const end of flows.flatMap(({ routed }) => routed?.ends ?? []))
    if (end.kind === 'edge' && outletAt(tub, net, end) === outlet) wet(end.edge, end.span);
  for (const [edge, { span }] of fallsIn({ tub, net, flows }, outlet)) wet(edge, span);
  return [...spans]
    .sort(([p], [q]) => p - q)
    .map(([edge, span]) => {
      const { a, b } = net.surface.edge(edge);
      const [from, to] = [net.surface.points[a], net.surface.points[b]];
      return [lerp(from, to, span[0]), lerp(from, to, span[1])] as const;
    });
};

/** Where the wet parts of a jet come down at a height, mm; below the edge, where they are higher, straight down. */
export const landsAt = (
  jet: Jet,
  { parts, way }: Pick<SpoutJet, 'parts' | 'way'>,
  height: number,
): SpoutJet['parts'] => {
  const at = (place: Vec3): Vec3 => {
    const moved = addScaled(place, way, throwOf(jet, place[2] - height));
    return [moved[0], moved[1], Math.min(place[2], height)];
  };
  return parts.map(([from, to]) => [at(from), at(to)] as const);
};

/** Where it may come down at a height: as it drips, as it runs, with all inflows, and off the last bend where it leaps there. */
export const landingsAt = (jet: SpoutJet, height: number): SpoutJet['parts'] => {
  const { leap, way } = jet;
  const leaps = leap
    ? [leap.usual, leap.most].flatMap((each) => landsAt(each, { parts: leap.parts, way }, height))
    : [];
  return [...jet.parts, ...[jet, jet.most].flatMap((each) => landsAt(each, jet, height)), ...leaps];
};
