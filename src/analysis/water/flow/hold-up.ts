import type { Tub } from '../../model/tub.js';
import type { FaceIndex, Stretch } from '../../shape/shape.js';
import { filmDepth, manningN, valleyArea, valleyDepth } from './depth.js';
import type { FlowNet } from './flow-net.js';
import type { LiquidData } from './liquids.js';
import type { Band, Routed, Stream } from './route/routing.js';

/** mm. A stream that runs alone over a panel is taken this wide; common practice, no source. */
export const STREAM_WIDTH = 20;

/** Water on one panel while the inflows run. */
export interface FilmOnPanel {
  readonly face: FaceIndex;
  /** Deepest of the sheet, mm; a lone stream counts as STREAM_WIDTH wide. */
  readonly depth: number;
  readonly volume: number;
}

/** Water in one crease while the inflows run. */
export interface FilmInCrease {
  readonly faces: readonly FaceIndex[];
  readonly stretch: Stretch | undefined;
  readonly rateMm3S: number;
  readonly depth: number;
  readonly volume: number;
}

export interface Films {
  readonly panels: readonly FilmOnPanel[];
  readonly creases: readonly FilmInCrease[];
}

/** Depths and volumes of running water, all inflows together. */
export const runningWater = (tub: Tub, net: FlowNet, routed: readonly Routed[], liquid: LiquidData): Films => {
  const panelOf = (face: number): FaceIndex => net.surface.faces[face].panel;
  const roughness = (face: number): number =>
    manningN[tub.sheets[tub.panels[panelOf(face)].sheet]?.material ?? 'stainless'];
  const panels = new Map<FaceIndex, { depth: number; volume: number }>();
  const add = (face: FaceIndex, depth: number, volume: number): void => {
    const known = panels.get(face) ?? { depth: 0, volume: 0 };
    panels.set(face, { depth: Math.max(known.depth, depth), volume: known.volume + volume });
  };
  const film = (face: number, perWidth: number): number =>
    filmDepth({
      perWidth,
      steepness: net.falls[face].steepness,
      viscosityCst: liquid.viscosityCst,
      n: roughness(face),
    });
  for (const [triangle, bands] of byTriangle(routed)) {
    const { face } = net.surface.triangle(triangle);
    const sheet = sheetOn(bands, (perWidth) => film(face, perWidth));
    add(panelOf(face), sheet.depth, sheet.volume);
  }
  const inCreases = new Map<number, Stream[]>();
  for (const stream of routed.flatMap(({ streams }) => streams)) {
    if (stream.edge !== undefined) inCreases.set(stream.edge, [...(inCreases.get(stream.edge) ?? []), stream]);
    else if (stream.face !== undefined) {
      const depth = film(stream.face, stream.flux / STREAM_WIDTH);
      add(panelOf(stream.face), depth, depth * STREAM_WIDTH * stream.length);
    }
  }
  const creases = [...inCreases].flatMap(([edge, streams]) => creaseFilm(net, edge, streams, liquid, roughness));
  return {
    panels: [...panels].map(([face, values]) => ({ face, ...values })).sort((p, q) => p.face - q.face),
    creases,
  };
};

const byTriangle = (routed: readonly Routed[]): ReadonlyMap<number, readonly Band[]> => {
  const found = new Map<number, Band[]>();
  for (const band of routed.flatMap(({ bands }) => bands)) {
    const list = found.get(band.triangle);
    if (list) list.push(band);
    else found.set(band.triangle, [band]);
  }
  return found;
};

/** Stations and weights of Gauss's rule with three points on [0, 1]: sheets that grow from nothing come out to 1 %. */
const STATIONS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 8 / 18],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

/** Sheets of several sources that lie over each other on a triangle, added where they do. */
const sheetOn = (bands: readonly Band[], film: (perWidth: number) => number): { depth: number; volume: number } => {
  const stops = [...new Set(bands.flatMap(({ side }) => side))].sort((p, q) => p - q);
  const byStart = [...bands].sort((p, q) => p.side[0] - q.side[0]);
  let [depth, volume, next] = [0, 0, 0];
  let active: Band[] = [];
  for (let i = 0; i + 1 < stops.length; i++) {
    const [lo, hi] = [stops[i], stops[i + 1]];
    while (next < byStart.length && byStart[next].side[0] <= lo) active.push(byStart[next++]);
    active = active.filter(({ side }) => side[1] >= hi);
    const perWidth = (at: number, along: number): number =>
      active.reduce((sum, band) => sum + between(band.side, band.density, at) * (band.isSource ? along : 1), 0);
    depth = Math.max(depth, film(Math.max(perWidth(lo, 1), perWidth(hi, 1))));
    for (const [across, share] of STATIONS) {
      const at = lo + (hi - lo) * across;
      const run = Math.max(0, ...active.map((band) => between(band.side, band.run, at)));
      for (const [along, weight] of STATIONS) volume += film(perWidth(at, along)) * weight * share * run * (hi - lo);
    }
  }
  return { depth, volume };
};

const between = (side: readonly [number, number], values: readonly [number, number], at: number): number =>
  side[1] > side[0] ? values[0] + ((values[1] - values[0]) * (at - side[0])) / (side[1] - side[0]) : values[0];

/** Water in the hollow along one edge; each stream runs from where it comes in to the low end. */
const creaseFilm = (
  net: FlowNet,
  edge: number,
  streams: readonly Stream[],
  { viscosityCst }: LiquidData,
  roughness: (face: number) => number,
): readonly FilmInCrease[] => {
  const { a, b, triangles, border } = net.surface.edge(edge);
  const faces = [...new Set(triangles.map((t) => net.surface.triangle(t).face))];
  const [p, q] = [net.surface.points[a], net.surface.points[b]];
  const length = Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
  const steepness = Math.abs(p[2] - q[2]) / length;
  const sides = faces.map((face) => runPerRise(net, face, [q[0] - p[0], q[1] - p[1]]));
  const section: readonly [number, number] = [sides[0], sides[1] ?? 0];
  const n = Math.max(...faces.map(roughness));
  const depthOf = (rateMm3S: number): number => valleyDepth({ rateMm3S, steepness, sides: section, viscosityCst, n });
  const order = [...streams].sort((s, t) => t.length - s.length);
  let rate = 0;
  let volume = 0;
  order.forEach((stream, i) => {
    rate += stream.flux;
    volume += valleyArea(depthOf(rate), section) * (stream.length - (order[i + 1]?.length ?? 0));
  });
  if (faces.length === 1 && border === undefined) return [];
  const panels = [...new Set(faces.map((face) => net.surface.faces[face].panel))];
  return [{ faces: panels, stretch: stretchOf(net, edge), rateMm3S: rate, depth: depthOf(rate), volume }];
};

/** Flattest side that is computed with, run per rise: beyond it the water is a sheet on the panel. */
const WIDEST = 1e4;

/** Run per unit of rise of a face, square to a plan direction; 0 for an upright one. */
const runPerRise = ({ surface }: FlowNet, face: number, along: readonly [number, number]): number => {
  const [nx, ny, nz] = surface.faces[face].frame.normal;
  const length = Math.hypot(along[0], along[1]);
  const rise = length > 0 ? Math.abs(nx * along[1] - ny * along[0]) / length : Math.hypot(nx, ny);
  return Math.min(WIDEST, rise > 0 ? Math.max(0, nz) / rise : WIDEST);
};

const stretchOf = ({ surface }: FlowNet, edge: number): Stretch | undefined => surface.edge(edge).border?.stretch;
