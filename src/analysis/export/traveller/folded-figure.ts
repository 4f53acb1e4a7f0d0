/** Line drawing of the folded tub: only what is seen. */
import type { FoldedPart, Triangles } from '../../fold/flat-pattern.js';
import { lerp, type Vec2, type Vec3 } from '../../geometry/vec.js';
import { coilPoint, meshBoundary } from '../../solid/mesh.js';
import type { Boundary, BoundaryEdge } from '../../solid/boundary.js';
import { boundPart } from '../../solid/build-solid.js';
import { createDepthField, type DepthField } from './depth-field.js';
import { line, WEIGHT, words, type Figure, type Mark } from './mark.js';
import { fitInto, seen, viewFrom, type Fit, type View } from './view.js';

/** The solids of a tub, made once for all its pictures. */
export interface Scenery {
  readonly boundaries: readonly Boundary[];
  readonly meshes: readonly Triangles[];
}

/** A number in a ring at a place of the tub. */
export interface Balloon {
  readonly at: Vec3;
  readonly text: string;
}

/** mm. Chords of the bends in a picture. */
const CHORD_ERROR = 0.3;

export const sceneryOf = (parts: readonly FoldedPart[]): Scenery => {
  const boundaries = parts.map(boundPart);
  return { boundaries, meshes: boundaries.map((boundary) => meshBoundary(boundary, CHORD_ERROR)) };
};

/** View over the left front corner, and the one from behind and below. rad */
const VIEWS = { above: viewFrom(-0.55, 0.62), below: viewFrom(2.5, -0.45) } as const;

/** Picture of at most that size, mm on paper. */
export const foldedFigure = (
  scenery: Scenery,
  from: keyof typeof VIEWS,
  room: Vec2,
  balloons: readonly Balloon[] = [],
): Figure => {
  const view = VIEWS[from];
  const points = scenery.meshes.flatMap(({ positions }) => positions.map((p) => seen(view, p)));
  const text = `The folded tub seen from ${from === 'above' ? 'the front left, from above' : 'behind, from below'}`;
  if (points.length === 0)
    return { size: [room[0], 4], marks: [words('No part of it can be folded', [0, 3.5], 3.7)], text };
  const framed = [...points, ...balloons.map(({ at }) => seen(view, at))];
  const fit = fitInto(
    framed.map(([x, y]): Vec2 => [x, y]),
    room,
  );
  const field = createDepthField(view, scenery.meshes);
  const edges = scenery.boundaries.flatMap((boundary) => edgeMarks(boundary, view, field, fit));
  return { size: fit.size, marks: [...edges, ...balloonMarks(balloons, view, fit)], text };
};

const edgeMarks = (boundary: Boundary, view: View, field: DepthField, fit: Fit): Mark[] => {
  const tangent = tangentEdges(boundary);
  return boundary.edges.flatMap((edge, i) => {
    const points = edgePoints(boundary, edge).map((p) => seen(view, p));
    return seenRuns(points, field).map((run) =>
      line(
        run.map(([x, y]) => fit.place(x, y)),
        tangent.has(i) ? WEIGHT.hair : WEIGHT.thin,
      ),
    );
  });
};

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

const BALLOON = 3.1;

const balloonMarks = (balloons: readonly Balloon[], view: View, fit: Fit): Mark[] =>
  balloons.flatMap(({ at, text }): Mark[] => {
    const [x, y] = seen(view, at);
    const [px, py] = fit.place(x, y);
    return [
      { kind: 'circle', center: [px, py], radius: BALLOON, width: WEIGHT.plain, fill: 'white' },
      words(text, [px, py + 1.3], 3.6, { align: 'middle', weight: 'bold' }),
    ];
  });
