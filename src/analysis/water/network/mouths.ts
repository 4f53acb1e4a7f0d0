/** The openings by which water leaves a hollow: outlets, and what else is open. */
import { toPlane } from '../../geometry/frame.js';
import { dot } from '../../geometry/vec.js';
import { ROUND_OFF } from '../../geometry/tolerance.js';
import type { OutletIndex, Tub } from '../../model/tub.js';
import { spoutOver } from '../../shape/spouts.js';
import { areaOf } from '../flow/route/sheet.js';
import type { FlowNet } from '../flow/flow-net.js';
import { triangleAt } from '../flow/inflows.js';
import type { LiquidData } from '../flow/liquids.js';
import { mouthOf } from '../outlet/outlets.js';
import { listOf, trianglesOfOpening } from '../surface/mesh.js';
import { partsOfOpening } from '../surface/parts-of-opening.js';
import { panelAt } from '../surface/surface.js';
import { throughOpening, type OpeningPiece } from './crest-law.js';
import type { Regions } from './regions.js';
import { throughScreen } from './screen.js';

/** A way out of one hollow; an outlet that a divider stands over has one in each chamber beside it. */
export interface Mouth {
  readonly node: number;
  readonly outlet: OutletIndex | undefined;
  /** Index into `Tub.openings`; undefined: over the free edges `edges`. */
  readonly opening: number | undefined;
  readonly edges: readonly number[];
  /** Level from which water runs in, mm. */
  readonly lip: number;
  readonly takes: (level: number) => number;
  /** It lies above the water that stands at rest: what runs to it it takes before that comes to stand. */
  readonly isAbove: boolean;
}

export interface MouthInput {
  readonly tub: Tub;
  readonly net: FlowNet;
  readonly regions: Regions;
  readonly liquid: LiquidData;
  /** By node, level to which water stays with the outlets open, mm. */
  readonly rest: readonly number[];
}

/** All ways out that lie in a hollow; openings of dividers are none. */
export const mouthsIn = (input: MouthInput): readonly Mouth[] => {
  const { tub, net, rest } = input;
  const outlets = tub.outlets.flatMap((_, outlet) => outletIn(input, outlet));
  const holes = tub.openings.flatMap(({ use }, opening): readonly Mouth[] => {
    if (use === 'outlet' || !net.open[opening]) return [];
    const { node, pieces } = openingIn(input, opening);
    if (node < 0) return [];
    const lip = Math.min(...pieces.map(({ heights }) => heights[0]));
    const { strainer } = tub.openings[opening];
    const bare = (level: number): number => throughOpening(pieces, level, -Infinity);
    const takes = strainer
      ? (level: number): number => throughScreen(strainer, input.liquid, areaIn(pieces), bare(level))
      : bare;
    return [{ node, outlet: undefined, opening, edges: [], lip, takes, isAbove: lip > rest[node] + ROUND_OFF }];
  });
  return [...outlets, ...holes];
};

const outletIn = (input: MouthInput, outlet: OutletIndex): readonly Mouth[] => {
  const { tub, net, liquid, rest } = input;
  const { surface } = net;
  const { shut, opening, spout, raised } = tub.outlets[outlet];
  const mouth = shut ? undefined : mouthOf({ tub, surface, liquid }, outlet);
  if (!mouth) return [];
  const parts = opening === undefined ? [] : partsIn(input, opening);
  if (parts.length > 1) {
    const lowest = Math.min(...parts.map(({ bottom }) => bottom));
    return parts.map(({ node, share, bottom }) => {
      const lip = mouth.lip + bottom - lowest;
      const takes = (level: number): number => (level > lip ? share * mouth.takes(level - lip) : 0);
      return { node, outlet, opening, edges: [], lip, takes, isAbove: raised <= 0 && lip > rest[node] + ROUND_OFF };
    });
  }
  const node = nodeOfRim(input, outlet, mouth.low);
  if (node < 0) return [];
  return [
    {
      node,
      outlet,
      opening,
      edges: spout ? spoutEdges(input, outlet, node) : [],
      lip: mouth.lip,
      takes: (level) => (level > mouth.lip ? mouth.takes(level - mouth.lip) : 0),
      // Around an edge that stands up the water has to stand.
      isAbove: raised <= 0 && mouth.lip > rest[node] + ROUND_OFF,
    },
  ];
};

/** The hollow that the lowest place of an outlet's rim lies in; -1: none. */
const nodeOfRim = ({ tub, net: { surface }, regions }: MouthInput, outlet: OutletIndex, low: number): number => {
  const { opening, spout, panel } = tub.outlets[outlet];
  const around = [...listOf(surface.mesh.trianglesAt, low)];
  const t = around.find((each) =>
    spout ? panelAt(surface, each) === panel : surface.mesh.openingOf[each] === opening,
  );
  return t === undefined ? -1 : regions.ofTriangle[t];
};

/** What of an opening lies on one side of the divider that stands over it. */
interface Part {
  readonly node: number;
  /** Of the area that is left of it. */
  readonly share: number;
  /** Lowest place, mm. */
  readonly bottom: number;
}

/** The parts of an opening that a divider stands over; none where it lies in one piece. */
const partsIn = ({ net: { surface }, regions }: MouthInput, opening: number): readonly Part[] =>
  partsOfOpening(surface, opening).flatMap(({ lowest, triangle, share }) => {
    const node = regions.ofTriangle[triangle];
    return node < 0 ? [] : [{ node, share, bottom: surface.points[lowest][2] }];
  });

const spoutEdges = ({ tub, net, regions }: MouthInput, outlet: OutletIndex, node: number): readonly number[] => {
  const { mesh, faces } = net.surface;
  return [...mesh.borders].flatMap(([edge, { stretch }]) => {
    const [t] = listOf(mesh.trianglesOfEdge, edge);
    return spoutOver(tub, faces, stretch) === outlet && regions.ofTriangle[t] === node ? [edge] : [];
  });
};

/** mm2. */
export const areaIn = (pieces: readonly OpeningPiece[]): number => pieces.reduce((sum, { area }) => sum + area, 0);

const ascending = (p: number, q: number): number => p - q;

/** The triangles of an opening, and the hollow that its lowest one lies in. */
const openingIn = (
  { net, regions }: Pick<MouthInput, 'net' | 'regions'>,
  opening: number,
): { readonly node: number; readonly pieces: readonly OpeningPiece[]; readonly lowest: number } => {
  const { mesh, points } = net.surface;
  const triangles = trianglesOfOpening(mesh, opening);
  const pieces = triangles.map((t): OpeningPiece => {
    const heights = [...mesh.corners.subarray(3 * t, 3 * t + 3)].map((corner) => points[corner][2]).sort(ascending);
    return { heights: [heights[0], heights[1], heights[2]], area: areaOf(net, t) };
  });
  const bottom = Math.min(...pieces.map(({ heights }) => heights[0]));
  const lowest = triangles.find((_, i) => pieces[i].heights[0] === bottom) ?? -1;
  return { node: lowest < 0 ? -1 : regions.ofTriangle[lowest], pieces, lowest };
};

/** An opening of a divider, between the hollows on both of its sides. */
export interface Passage {
  readonly opening: number;
  readonly between: readonly [number, number];
  readonly pieces: readonly OpeningPiece[];
  readonly bottom: number;
  /** Triangle at its lowest place on each side, and that place in the plane of its face. */
  readonly sides: readonly [Side, Side];
}

interface Side {
  readonly triangle: number;
  readonly at: readonly [number, number];
}

/** Those between two hollows, or from one to where nothing stands (-1, always the second). */
export const passagesIn = (
  { net, regions }: Pick<MouthInput, 'net' | 'regions'>,
  openings: ReadonlySet<number>,
): readonly Passage[] =>
  [...openings].flatMap((opening): readonly Passage[] => {
    const { pieces, lowest } = openingIn({ net, regions }, opening);
    const front = lowest < 0 ? undefined : sidesAt(net, lowest);
    if (!front) return [];
    const [p, q] = front.map(({ triangle }) => regions.ofTriangle[triangle]);
    if (p === q) return [];
    const bottom = Math.min(...pieces.map(({ heights }) => heights[0]));
    const isTurned = p < 0;
    return [
      {
        opening,
        between: isTurned ? [q, p] : [p, q],
        pieces,
        bottom,
        sides: isTurned ? [front[1], front[0]] : front,
      },
    ];
  });

/** The lowest place of a triangle of an opening, and the same on the other side of its sheet. */
const sidesAt = (net: FlowNet, triangle: number): readonly [Side, Side] | undefined => {
  const { mesh, faces, points } = net.surface;
  const corners = [0, 1, 2].map((i) => mesh.corners[3 * triangle + i]);
  const low = corners.reduce((least, i) => (points[i][2] < points[least][2] ? i : least));
  const i = 3 * triangle + corners.indexOf(low);
  const front = { triangle, at: [mesh.plane[2 * i], mesh.plane[2 * i + 1]] as const };
  const own = faces[mesh.faceOf[triangle]];
  const behind = faces.findIndex(
    ({ panel, frame }) => panel === own.panel && dot(frame.normal, own.frame.normal) < ROUND_OFF - 1,
  );
  const spot = behind < 0 ? undefined : triangleAt(net, behind, toPlane(faces[behind].frame, points[low]));
  return spot && [front, spot];
};
