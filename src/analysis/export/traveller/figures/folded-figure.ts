/** Line drawing of the folded tub: only what is seen. */
import { memoBy } from '../../../cache/memo.js';
import type { FoldedPart, Triangles } from '../../../fold/flat-pattern.js';
import { add, lerp, scale, type Vec2, type Vec3 } from '../../../geometry/vec.js';
import { coilPoint, meshBoundary } from '../../../solid/boundary/mesh.js';
import type { Boundary, BoundaryEdge } from '../../../solid/boundary/boundary.js';
import { boundPart } from '../../../solid/boundary/build-solid.js';
import { createDepthField, type DepthField } from './depth-field.js';
import { line, trimmedFigure, WEIGHT, words, type Figure, type Mark } from '../layout/mark.js';
import { balloonMarks, ROUND_ABOUT } from './place-balloons.js';
import { fitInto, seen, viewFrom, type Fit, type View } from './view.js';

/** The solids of a tub, made once for all its pictures. */
export interface Scenery {
  readonly pieces: readonly SceneryPiece[];
}

export interface SceneryPiece {
  /** Index of the part. */
  readonly part: number;
  readonly boundary: Boundary;
  readonly mesh: Triangles;
}

/** A number in a ring at a place of the tub. */
export interface Balloon {
  readonly at: Vec3;
  readonly text: string;
}

/** mm. Chords of the bends in a picture. */
const CHORD_ERROR = 0.3;

/** By index of the part; undefined: it cannot be folded. */
export const sceneryOf = memoBy((parts: readonly (FoldedPart | undefined)[]): Scenery => ({
  pieces: parts.flatMap((folded, part) => {
    if (!folded) return [];
    const boundary = boundPart(folded);
    return [{ part, boundary, mesh: meshBoundary(boundary, CHORD_ERROR) }];
  }),
}));

/** View over the left front corner, and the one from behind and below. rad */
const VIEWS = { above: viewFrom(-0.55, 0.62), below: viewFrom(2.5, -0.45) } as const;

/** Picture of at most that size, mm on paper. */
export const foldedFigure = (
  scenery: Scenery,
  from: keyof typeof VIEWS,
  room: Vec2,
  balloons: readonly Balloon[] = [],
): Figure => {
  const text = `The folded tub seen from ${from === 'above' ? 'the front left, from above' : 'behind, from below'}`;
  if (scenery.pieces.length === 0)
    return { size: [room[0], 4], marks: [words('No part of it can be folded', [0, 3.5], 3.7)], text };
  const view = VIEWS[from];
  const lines = linesOf(scenery, { from });
  if (balloons.length === 0) {
    const { marks, fit } = fitted(lines, view, room);
    return { size: fit.size, marks, text };
  }
  const within: Vec2 = [room[0] - 2 * ROUND_ABOUT, room[1] - 2 * ROUND_ABOUT];
  const places = balloons.map(({ at }) => at);
  const { marks, fit } = fitted(lines, view, within, places);
  const numbers = balloons.map(({ at, text: number }) => {
    const [x, y] = seen(view, at);
    return { text: number, at: fit.place(x, y) };
  });
  return trimmedFigure([...marks, ...balloonMarks(numbers, fit.size)], text);
};

/** How far before its place the part that is brought stands, in longest sides of what is shown. */
const BEFORE = 0.28;

/**
 * A step of the assembly: the parts in place, and the one that is brought, drawn heavier where it comes from with an arrow
 * of its move. `move`: unit direction into place.
 */
export const stepFigure = (
  scenery: Scenery,
  placed: readonly number[],
  brought: number,
  move: Vec3 | undefined,
  room: Vec2,
): Figure => {
  const parts = [...placed, brought];
  const shown = scenery.pieces.filter(({ part }) => parts.includes(part));
  const text =
    placed.length === 0 ? 'The first part, by itself' : `${placed.length} parts in place, and the next one beside them`;
  if (shown.length === 0) return { size: [room[0], 4], marks: [words('cannot be folded', [0, 3.5], 3.7)], text };
  const distance = move ? BEFORE * longestSide(shown) : 0;
  const offset = scale(move ?? [0, 0, 0], -distance);
  const lines = linesOf(scenery, { from: 'above', parts, brought: { part: brought, offset } });
  const { marks, fit } = fitted(lines, VIEWS.above, room);
  const next = shown.find(({ part }) => part === brought);
  if (!next || !move) return { size: fit.size, marks, text };
  const middle = scale(
    next.mesh.positions.reduce<Vec3>((sum, p) => add(sum, p), [0, 0, 0]),
    1 / next.mesh.positions.length,
  );
  const [from, to] = [add(middle, offset), middle].map((p): Vec2 => {
    const [x, y] = seen(VIEWS.above, p);
    return fit.place(x, y);
  });
  return { size: fit.size, marks: [...marks, ...arrowMarks(from, to)], text };
};

const longestSide = (pieces: readonly SceneryPiece[]): number => {
  const all = pieces.flatMap(({ mesh }) => mesh.positions);
  return Math.max(
    ...[0, 1, 2].map(
      (k) => all.reduce((m, p) => Math.max(m, p[k]), -Infinity) - all.reduce((m, p) => Math.min(m, p[k]), Infinity),
    ),
  );
};

const HEAD = 2.2;

/** A heavy arrow on white, so that it is told from edges. */
const arrowMarks = (from: Vec2, to: Vec2): Mark[] => {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length < HEAD) return [];
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const back: Vec2 = [to[0] - ux * HEAD, to[1] - uy * HEAD];
  const head: Vec2[] = [
    to,
    [back[0] - (uy * HEAD) / 2, back[1] + (ux * HEAD) / 2],
    [back[0] + (uy * HEAD) / 2, back[1] - (ux * HEAD) / 2],
  ];
  return [
    line([from, back], WEIGHT.frame * 2.4, { white: true }),
    line([from, back], WEIGHT.frame),
    line(head, 0, { closed: true, fill: 'black' }),
  ];
};

/** What a picture shows, from where. */
interface Shown {
  readonly from: keyof typeof VIEWS;
  /** Absent: all. */
  readonly parts?: readonly number[];
  /** Drawn heavier, away from its place. */
  readonly brought?: { readonly part: number; readonly offset: Vec3 };
}

/** Lines of a picture as `seen`, before it has a size. */
interface SeenLines {
  readonly lines: readonly { readonly points: readonly Vec3[]; readonly width: number }[];
  /** All corners of what is shown, seen or not: the picture holds them. */
  readonly corners: readonly Vec3[];
}

const keptLines = memoBy((_scenery: Scenery) => new Map<string, SeenLines>());

/** Made once for all papers that show the same. */
const linesOf = (scenery: Scenery, shown: Shown): SeenLines => {
  const kept = keptLines(scenery);
  const key = JSON.stringify(shown);
  let lines = kept.get(key);
  if (!lines) kept.set(key, (lines = seenLines(scenery, shown)));
  return lines;
};

const seenLines = ({ pieces }: Scenery, { from, parts, brought }: Shown): SeenLines => {
  const view = VIEWS[from];
  const shifted = pieces
    .filter(({ part }) => parts?.includes(part) ?? true)
    .map(({ part, boundary, mesh }) => {
      const offset = part === brought?.part ? brought.offset : ORIGIN;
      const positions = offset === ORIGIN ? mesh.positions : mesh.positions.map((p) => add(p, offset));
      return { boundary, offset, mesh: { ...mesh, positions }, weight: offset === ORIGIN ? WEIGHT.thin : WEIGHT.cut };
    });
  const meshes = shifted.map(({ mesh }) => mesh);
  const field = createDepthField(view, meshes);
  const lines = shifted.flatMap(({ boundary, offset, weight }) => {
    const tangent = tangentEdges(boundary);
    return boundary.edges.flatMap((edge, i) => {
      const points = edgePoints(boundary, edge).map((p) => seen(view, add(p, offset)));
      return seenRuns(points, field).map((run) => ({ points: run, width: tangent.has(i) ? WEIGHT.hair : weight }));
    });
  });
  return { lines, corners: meshes.flatMap(({ positions }) => positions.map((p) => seen(view, p))) };
};

/** The picture at the size of its room; `also`: points in space that it holds too. */
const fitted = (
  { lines, corners }: SeenLines,
  view: View,
  room: Vec2,
  also: readonly Vec3[] = [],
): { readonly marks: Mark[]; readonly fit: Fit } => {
  const all = [...corners, ...also.map((p) => seen(view, p))];
  const fit = fitInto(
    all.map(([x, y]): Vec2 => [x, y]),
    room,
  );
  const marks = lines.map(({ points, width }) =>
    line(
      points.map(([x, y]) => fit.place(x, y)),
      width,
    ),
  );
  return { marks, fit };
};

const ORIGIN: Vec3 = [0, 0, 0];

/** Where a flat runs on into a bend: no edge of the metal, so drawn finer. */
const tangentEdges = (boundary: Boundary): ReadonlySet<number> =>
  new Set(
    boundary.faces.flatMap((face) =>
      face.kind === 'turned' && face.surface.kind === 'cylinder'
        ? [...face.first, ...face.last].map(({ edge }) => edge)
        : [],
    ),
  );

const TURN_STEP = Math.PI / 24;

const edgePoints = ({ vertices }: Boundary, { start, end, coil }: BoundaryEdge): Vec3[] => {
  if (!coil) return [vertices[start], vertices[end]];
  const count = Math.max(2, Math.ceil(coil.sweep / TURN_STEP));
  return Array.from({ length: count + 1 }, (_, i) => coilPoint(coil, i / count));
};

/** The lengths of a line that are seen, by samples a cell apart. */
const seenRuns = (points: readonly Vec3[], field: DepthField): Vec3[][] => {
  const runs: Vec3[][] = [];
  let run: Vec3[] = [];
  const close = (): void => {
    if (run.length > 1) runs.push(run);
    run = [];
  };
  points.slice(1).forEach((to, i) => {
    const from = points[i];
    const steps = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / field.cell));
    for (let k = i === 0 ? 0 : 1; k <= steps; k++) {
      const at = lerp(from, to, k / steps);
      if (!field.isSeen(at)) close();
      // Inside a straight length the last point moves on, so that it stays one line.
      else if (run.length > 1 && k > 1 && k <= steps) run[run.length - 1] = at;
      else run.push(at);
    }
  });
  close();
  return runs;
};
