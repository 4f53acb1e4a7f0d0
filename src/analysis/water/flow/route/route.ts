import { fallAlong } from './leave-edge.js';
import type { FlowNet } from '../flow-net.js';
import {
  fluxOf,
  isWatched,
  nextTurn,
  routedOf,
  startRouting,
  toFlatArea,
  type FlowSource,
  type Routed,
  type Routing,
  type Stops,
  type Turn,
  type Watch,
} from './routing.js';
import { rainOn, runFilm } from './run-film.js';
import { beginAt, follow, runPoint, runThread } from './run-thread.js';
import { areaOf } from './sheet.js';
import { flatAreaExits } from './flat-area-exits.js';
import { trianglesOfFace } from '../../surface/mesh.js';

/** Pieces per triangle after which routing gives up; what is under way then is counted as unresolved. */
const PIECES = 2000;

/**
 * Routes water down the surface along the steepest descent, exactly: on each triangle the lines of fall are parallel, so
 * a piece of film that comes in over a side goes out over the sides that lie in the same span across the fall.
 *
 * Highest first, so everything that reaches a corner or standing water has reached it when its turn comes. What comes in
 * equals what the ends hold to round-off (tested to 1e-9). Level valleys and level faces are standing water of no depth.
 * Cost: O(k log k) in the pieces made, which corners on the way add one by one.
 * Source: lines of steepest descent as in S. Yu, M. van Kreveld, J. Snoeyink, "Drainage queries in TINs" (1996).
 */
export const routeFlow = (net: FlowNet, source: FlowSource, watch?: Watch, stops?: Stops): Routed => {
  const state = startRouting(net, source.rate, { watch, stops });
  begin(state, source);
  for (let left = 1000 + PIECES * net.surface.mesh.count; ; left--) {
    const turn = nextTurn(state);
    if (turn === undefined) return routedOf(state);
    if (left > 0) run(state, turn);
    else state.out.unresolved(fluxOf(turn));
  }
};

const begin = (state: Routing, source: FlowSource): void => {
  if (source.kind === 'own') return source.start(state);
  if (source.kind === 'flatArea') return toFlatArea(state, source.flatArea, source.rate);
  if (source.kind === 'point') return beginAt(state, source.triangle, source.at, source.rate);
  const own = trianglesOfFace(state.net.surface.mesh, source.face);
  const area = own.reduce((sum, t) => sum + areaOf(state.net, t), 0);
  for (const t of own) rainOn(state, t, source.rate / area);
};

const run = (state: Routing, turn: Turn): void => {
  if (turn.kind === 'point') runPoint(state, turn.point, turn.flux);
  else if (turn.kind === 'flatArea') runFlatArea(state, turn.flatArea, turn.flux);
  else if (turn.kind === 'node') runNode(state, turn.node, turn.flux);
  else if (turn.piece.kind === 'film') runFilm(state, turn.piece);
  else runThread(state, turn.piece);
};

/** Standing water runs off once, when all has come to it; water that comes back to it this often goes round for ever. */
const ROUNDS = 50;

const runNode = (state: Routing, node: number, flux: number): void => {
  const { rounds, stops, out } = state;
  const round = (rounds.get(-1 - node) ?? 0) + 1;
  if (round > ROUNDS || !stops?.goOn) return out.unresolved(flux);
  rounds.set(-1 - node, round);
  stops.goOn(state, node, flux);
};

/** Standing water that has got all its water runs off at its lowest places. */
const runFlatArea = (state: Routing, flatArea: number, flux: number): void => {
  const { net, out, through, rounds, faces } = state;
  const round = (rounds.get(flatArea) ?? 0) + 1;
  if (round > ROUNDS) return out.unresolved(flux);
  rounds.set(flatArea, round);
  through.set(flatArea, (through.get(flatArea) ?? 0) + flux);
  for (const face of net.flatAreas[flatArea].faces) faces.add(face);
  const exits = flatAreaExits(net, flatArea);
  if (exits.length === 0) return out.flatArea(flatArea, flux);
  for (const exit of exits) {
    const part = flux * exit.share;
    if (exit.kind === 'leave') fallAlong(state, exit.edge, [0, 1], [part, part]);
    else if (exit.kind === 'swallow') out.opening(exit.edge, undefined, part);
    else if (exit.kind === 'point' && exit.way.kind === 'swallow') out.openingOf(exit.way.triangle, part, 'around');
    else if (exit.kind === 'point') follow(state, exit.point, exit.way, part);
    else if (!isWatched(state, exit.onto, part))
      runFilm(state, { edge: exit.edge, triangle: exit.onto, u: [0, 1], flux: [part, part] });
  }
};
