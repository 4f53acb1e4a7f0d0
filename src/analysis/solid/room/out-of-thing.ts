/** How far metal must go to be clear of a thing of another file. */
import { ROUND_OFF } from '../../geometry/tolerance.js';
import { addScaled, type Vec3 } from '../../geometry/vec.js';
import type { ThingMesh } from '../../model/around/thing.js';
import { couldMeet, waysAlong } from './parting.js';
import { boundsOf, boxedPrisms, spanOf, type Body } from '../bodies/prisms.js';
import { bodiesOfThing, isWithinThing } from '../bodies/thing-bodies.js';
import { windowOf, type Window } from './window.js';

/** Pairs of pieces that are looked at: beyond, what is told is enough, though less may be. */
const MOST_PAIRS = 200_000;

/**
 * The least straight move, mm, along the normals of the body or the axes, after which it meets no triangle of the thing and does not
 * lie within it; at most past the box around the thing.
 */
export const leastMoveOutOf = (body: Body, mesh: ThingMesh): number => {
  const { low, high } = boundsOf(mesh.positions);
  const box = [low, high].flatMap(([x]) =>
    [low, high].flatMap(([, y]) => [low, high].map(([, , z]): Vec3 => [x, y, z])),
  );
  const ways = waysAlong([...body.faces, ...AXES])
    .map((way) => ({ way, past: spanOf(way, box)[1] - spanOf(way, body.corners)[0] }))
    .sort((a, b) => a.past - b.past);
  const budget = { left: MOST_PAIRS };
  let least = ways[0].past;
  for (const { way } of ways) {
    const windows = windowsAlong(body, mesh, way, least, budget);
    if (!windows) return least;
    least = Math.min(least, firstFree(body, mesh, way, windows, least));
  }
  return least;
};

const AXES: readonly Vec3[] = [[1, 0, 0], [0, 1, 0], [0, 0, 1]]; // prettier-ignore

/** In the order in which they begin; undefined: too many. */
const windowsAlong = (
  body: Body,
  mesh: ThingMesh,
  way: Vec3,
  reach: number,
  budget: { left: number },
): readonly Window[] | undefined => {
  const windows: Window[] = [];
  for (const bunch of bodiesOfThing(mesh)) {
    if (!couldMeet(body, bunch, way, reach)) continue;
    for (const p of boxedPrisms(body)) {
      for (const q of boxedPrisms(bunch)) {
        if (!couldMeet(p, q, way, reach)) continue;
        if (--budget.left < 0) return undefined;
        const window = windowOf(p, q, way, 0);
        if (window && window[1] > 0) windows.push(window);
      }
    }
  }
  return windows.sort((a, b) => a[0] - b[0]);
};

/** Infinity: none before `reach`. */
const firstFree = (body: Body, mesh: ThingMesh, way: Vec3, windows: readonly Window[], reach: number): number => {
  const isWithin = (by: number): boolean => mesh.isClosed && isWithinThing(mesh, addScaled(body.corners[0], way, by));
  let at = 0;
  for (const [from, to] of windows) {
    if (from > at + ROUND_OFF && !isWithin((from + at) / 2)) return at;
    at = Math.max(at, to);
  }
  return at < reach && isWithin((at + reach) / 2) ? Infinity : at;
};
