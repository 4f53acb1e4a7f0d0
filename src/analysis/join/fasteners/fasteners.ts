/** Rivet nuts and screws in the sheet: the room they have to edges, bends, each other, and the tool that sets them. */
import { boxesOfPolygons, indexBoxes } from '../../geometry/box-index.js';
import { toPlane, toSpace } from '../../geometry/frame.js';
import { distanceToSegment } from '../../geometry/polygon.js';
import { cross, distance, dot, scale, subtract, type Vec3 } from '../../geometry/vec.js';
import { fastenerSize, type FastenerSize } from '../../material/fastener-holes.js';
import type { Fastener, Tub } from '../../model/tub.js';
import type { Face, Shape } from '../../shape/shape.js';
import { clipPolygon } from '../../geometry/clip-polygon.js';

/** One fastener in its panel. All mm. */
export interface FastenerSite {
  readonly opening: number;
  readonly face: Face;
  readonly fastener: Fastener;
  readonly size: FastenerSize;
  /** As cut. */
  readonly hole: number;
  readonly centre: Vec3;
  readonly thickness: number;
}

/** Centre of the hole to any edge, in hole diameters: nearer, the edge bulges. Common practice, no source. */
export const EDGE_HOLES = 1.5;

/** Hole centres apart, in hole diameters. Common practice, no source. */
export const APART_HOLES = 3;

/** Fasteners whose thread the tables hold, in the order of the openings. */
export const fastenerSitesOf = (tub: Tub, shape: Shape): readonly FastenerSite[] =>
  shape.faces
    .flatMap((face) =>
      face.openings.flatMap(({ opening, shape: form }): FastenerSite[] => {
        const { fastener } = tub.openings[opening];
        const size = fastener && fastenerSize(fastener.kind, fastener.thread);
        if (!fastener || !size || form.kind !== 'round') return [];
        const centre = toSpace(face.frame, form.center);
        return [
          {
            opening,
            face,
            fastener,
            size,
            hole: 2 * form.radius,
            centre,
            thickness: tub.sheets[tub.panels[face.panel].sheet].thickness,
          },
        ];
      }),
    )
    .sort((a, b) => a.opening - b.opening);

export interface EdgeRoom {
  /** From the hole's centre to the edge that lacks most. */
  readonly has: number;
  readonly needs: number;
  readonly bend: number | undefined;
}

/**
 * The edge that comes too near, by how much it lacks; undefined when all leave enough. A cut edge: 1.5 hole diameters. A bend:
 * its setback and half the seat, so that the flange or washer lies on flat metal.
 */
export const nearestEdge = (shape: Shape, { face, centre, hole, size }: FastenerSite): EdgeRoom | undefined => {
  const at = toPlane(face.frame, centre);
  const n = face.outline.length;
  const rooms = face.outline.flatMap((from, edge): EdgeRoom[] => {
    const has = distanceToSegment(at, from, face.outline[(edge + 1) % n]);
    const bend = face.stretches[edge].find((s) => s.bend !== undefined)?.bend;
    const needs = bend === undefined ? EDGE_HOLES * hole : shape.bends[bend].setback + size.seat / 2;
    return has < needs ? [{ has, needs, bend }] : [];
  });
  return rooms.reduce<EdgeRoom | undefined>(
    (worst, room) => (worst && worst.needs - worst.has >= room.needs - room.has ? worst : room),
    undefined,
  );
};

/** Pairs of fasteners in one panel nearer to each other than three of the larger hole. O(n log n). */
export const crowdedPairs = (
  sites: readonly FastenerSite[],
): readonly (readonly [FastenerSite, FastenerSite, number])[] => {
  if (sites.length < 2) return [];
  const search = indexBoxes(boxesOfPolygons(sites.map(({ centre }) => [centre])));
  const widest = APART_HOLES * Math.max(...sites.map((site) => site.hole));
  return sites.flatMap((site, i) => {
    const [x, y] = site.centre;
    const near = search(x - widest, y - widest, x + widest, y + widest, (j) => j > i && sites[j].face === site.face);
    return near.flatMap((j) => {
      const apart = distance(site.centre, sites[j].centre);
      return apart < APART_HOLES * Math.max(site.hole, sites[j].hole) ? [[site, sites[j], apart] as const] : [];
    });
  });
};

/** mm. Half the width and the length of a setting tool's nose and body that must be clear. Common practice, no source. */
export const TOOL_HALF_WIDTH = 15;
export const TOOL_LENGTH = 120;

/** Panels that stand in the tool's way on the side where fewest do; empty: it can be set from one side at least. */
export const toolBlockedBy = (
  shape: Shape,
  near: (point: Vec3, reach: number) => readonly number[],
  site: FastenerSite,
): readonly number[] => {
  const { frame } = site.face;
  const others = near(site.centre, TOOL_LENGTH).filter((face) => face !== site.face.panel);
  const blocked = [frame.normal, scale(frame.normal, -1)].map((outward) =>
    inTheWay(shape, others, { at: site.centre, outward, across: frame.u, halfWidth: TOOL_HALF_WIDTH, foot: FOOT }),
  );
  return blocked[0].length <= blocked[1].length ? blocked[0] : blocked[1];
};

/** A straight tool that stands on a sheet. */
export interface Tool {
  readonly at: Vec3;
  /** Away from the sheet, and any direction square to that. */
  readonly outward: Vec3;
  readonly across: Vec3;
  readonly halfWidth: number;
  /** mm. What stands nearer to the place along the axis does not count: the sheets themselves. */
  readonly foot: number;
}

/** Those of the faces that a tool would meet. */
export const inTheWay = (
  shape: Shape,
  faces: readonly number[],
  { at, outward, across, halfWidth, foot }: Tool,
): readonly number[] => {
  const third = cross(outward, across);
  const box: readonly (readonly [Vec3, number])[] = [
    [[1, 0, 0], halfWidth],
    [[-1, 0, 0], halfWidth],
    [[0, 1, 0], halfWidth],
    [[0, -1, 0], halfWidth],
    [[0, 0, 1], -foot],
    [[0, 0, -1], TOOL_LENGTH],
  ];
  return faces.filter((face) => {
    const placed = shape.faces[face].corners.map((corner): Vec3 => {
      const from = subtract(corner, at);
      return [dot(from, across), dot(from, third), dot(from, outward)];
    });
    return (
      box.reduce((kept, [normal, offset]) => clipPolygon(kept, normal, offset), placed as readonly Vec3[]).length > 0
    );
  });
};

/** mm. It stands on the panel, so what is just at its foot does not count. */
const FOOT = 1;
