import type { Vec2 } from './vec.js';

/** Closed line of straight and round pieces. A vertex's `bulge` is tan(sweep / 4) of the arc to the next vertex,
 *  positive counter-clockwise; 0: straight. The first vertex is not repeated. */
export type Contour = readonly ContourVertex[];

export interface ContourVertex {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
}

/** One piece of a contour; `sweep` 0: straight, else the signed angle of the arc (positive counter-clockwise). */
export interface ContourSegment {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly sweep: number;
  readonly radius: number;
  readonly center: Vec2 | undefined;
}

/** Piece that a bulge describes between two points. */
export const segmentOf = (from: Vec2, to: Vec2, bulge: number): ContourSegment => {
  // No digit tells an arc that is flatter from its chord.
  if (Math.abs(bulge) < Number.EPSILON) return { from, to, sweep: 0, radius: 0, center: undefined };
  const sweep = 4 * Math.atan(bulge);
  const chord = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const radius = chord / (2 * Math.abs(Math.sin(sweep / 2)));
  // From the chord's middle to the centre, to the left for a counter-clockwise arc of less than half a turn.
  const offset = (chord / 2) * ((1 - bulge * bulge) / (2 * bulge));
  const [ux, uy] = chord > 0 ? [(to[0] - from[0]) / chord, (to[1] - from[1]) / chord] : [0, 0];
  const center: Vec2 = [(from[0] + to[0]) / 2 - uy * offset, (from[1] + to[1]) / 2 + ux * offset];
  return { from, to, sweep, radius, center };
};

export const piecesOf = (contour: Contour): readonly ContourSegment[] =>
  contour.map(({ x, y, bulge }, i) => {
    const next = contour[(i + 1) % contour.length];
    return segmentOf([x, y], [next.x, next.y], bulge);
  });

/** Area inside, positive when the contour runs counter-clockwise, mm2. Exact, arcs included. */
export const areaOfContour = (contour: Contour): number => {
  let area = 0;
  for (const { from, to, sweep, radius } of piecesOf(contour)) {
    area += (from[0] * to[1] - to[0] * from[1]) / 2;
    area += (radius * radius * (sweep - Math.sin(sweep))) / 2;
  }
  return area;
};

/** Length along the contour, mm. */
export const lengthOfContour = (contour: Contour): number =>
  piecesOf(contour).reduce(
    (sum, { from, to, sweep, radius }) =>
      sum + (sweep === 0 ? Math.hypot(to[0] - from[0], to[1] - from[1]) : Math.abs(sweep) * radius),
    0,
  );

export interface Extent {
  readonly min: Vec2;
  readonly max: Vec2;
}

/** Bounding box, arcs included. An empty contour gives an inverted infinite box. */
export const extentOfContour = (contour: Contour): Extent => {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  const grow = (x: number, y: number): void => {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  };
  for (const { from, sweep, radius, center } of piecesOf(contour)) {
    grow(from[0], from[1]);
    if (!center) continue;
    const start = Math.atan2(from[1] - center[1], from[0] - center[0]);
    const [low, high] = sweep > 0 ? [start, start + sweep] : [start + sweep, start];
    for (let quarter = Math.ceil(low / (Math.PI / 2)); quarter * (Math.PI / 2) <= high; quarter++) {
      const angle = quarter * (Math.PI / 2);
      grow(center[0] + radius * Math.cos(angle), center[1] + radius * Math.sin(angle));
    }
  }
  return { min: [x0, y0], max: [x1, y1] };
};

/** The contour through other coordinates; `mirrors` maps (a reflection) turn arcs over and keep the running sense. */
export const mapContour = (contour: Contour, map: (point: Vec2) => Vec2): Contour => {
  const [o, i, j] = [map([0, 0]), map([1, 0]), map([0, 1])];
  const mirrored = (i[0] - o[0]) * (j[1] - o[1]) - (i[1] - o[1]) * (j[0] - o[0]) < 0;
  const mapped = contour.map(({ x, y, bulge }): ContourVertex => {
    const [mx, my] = map([x, y]);
    return { x: mx, y: my, bulge: mirrored ? -bulge || 0 : bulge };
  });
  return mirrored ? reverseContour(mapped) : mapped;
};

/** The same line run the other way round. */
export const reverseContour = (contour: Contour): Contour => {
  const n = contour.length;
  return contour.map((_, i) => {
    const vertex = contour[(n - i) % n];
    const previous = contour[(2 * n - i - 1) % n];
    return { x: vertex.x, y: vertex.y, bulge: previous.bulge === 0 ? 0 : -previous.bulge };
  });
};

/** An open line run the other way round; its last vertex has no piece of its own. */
export const reverseLine = (line: readonly ContourVertex[]): readonly ContourVertex[] => {
  const last = line.length - 1;
  return line.map((_, i) => ({ ...line[last - i], bulge: i === last ? 0 : -line[last - i - 1].bulge || 0 }));
};

/** Bulge of the arc from one point over another to a third. */
export const bulgeOver = (from: Vec2, over: Vec2, to: Vec2): number => {
  const [ax, ay] = [over[0] - from[0], over[1] - from[1]];
  const [bx, by] = [to[0] - over[0], to[1] - over[1]];
  // The chords turn by half the sweep.
  return Math.tan(Math.atan2(ax * by - ay * bx, ax * bx + ay * by) / 2);
};

/** Corners of a polygon that stays within `tolerance` mm of the contour; straight contours come back exactly. */
export const flattenContour = (contour: Contour, tolerance: number): Vec2[] =>
  piecesOf(contour).flatMap(({ from, sweep, radius, center }): Vec2[] => {
    if (!center) return [from];
    const step = 2 * Math.acos(Math.max(0, 1 - tolerance / Math.max(radius, tolerance)));
    // The square of a very flat arc's step has no digits.
    const count = step > 0 ? Math.max(1, Math.ceil(Math.abs(sweep) / step)) : 1;
    const start = Math.atan2(from[1] - center[1], from[0] - center[0]);
    return Array.from({ length: count }, (_, k): Vec2 => {
      if (k === 0) return from;
      const angle = start + (sweep * k) / count;
      return [center[0] + radius * Math.cos(angle), center[1] + radius * Math.sin(angle)];
    });
  });

export const straightContour = (corners: readonly Vec2[]): Contour => corners.map(([x, y]) => ({ x, y, bulge: 0 }));

/** A full circle as two half arcs, counter-clockwise. */
export const circleContour = (center: Vec2, radius: number): Contour => [
  { x: center[0] - radius, y: center[1], bulge: 1 },
  { x: center[0] + radius, y: center[1], bulge: 1 },
];

/** A hexagon, counter-clockwise, two of its sides along y; `flats`: from side to side. */
export const hexagonContour = (center: Vec2, flats: number): Contour =>
  Array.from({ length: 6 }, (_, i) => {
    const turn = ((i + 0.5) * Math.PI) / 3;
    const corner = flats / Math.sqrt(3);
    return { x: center[0] + corner * Math.cos(turn), y: center[1] + corner * Math.sin(turn), bulge: 0 };
  });

/** A slot with round ends, counter-clockwise; `radius` is half its width. */
export const slotContour = (from: Vec2, to: Vec2, radius: number): Contour => {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length === 0) return circleContour(from, radius);
  const [nx, ny] = [(-(to[1] - from[1]) / length) * radius, ((to[0] - from[0]) / length) * radius];
  return [
    { x: from[0] - nx, y: from[1] - ny, bulge: 0 },
    { x: to[0] - nx, y: to[1] - ny, bulge: 1 },
    { x: to[0] + nx, y: to[1] + ny, bulge: 0 },
    { x: from[0] + nx, y: from[1] + ny, bulge: 1 },
  ];
};
