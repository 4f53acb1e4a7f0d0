import { panelAt } from '../../surface/surface.js';
import { heightOn, onwardFrom } from './edge-places.js';
import { isHole } from '../flow-net.js';
import { fallAlong, isTaken, middleOf } from './leave-edge.js';
import { isWatched, push, sumOf, toFlatArea, type Film, type Pair, type Routing } from './routing.js';
import { alongSpan, areaOf, incoming, outgoing, runsOver, type Outgoing } from './sheet.js';

/** Runs a film over its triangle to the sides by which it leaves. */
export const runFilm = (state: Routing, { edge, triangle, u, flux }: Omit<Film, 'kind'>): void => {
  const { net, faces, bands } = state;
  faces.add(panelAt(net.surface, triangle));
  const { span, entry } = incoming(net, triangle, edge, u, flux);
  for (const part of outgoing(net, triangle, span)) {
    const run: Pair = [
      part.exit[0] - alongSpan(part.side[0], span.side, entry),
      part.exit[1] - alongSpan(part.side[1], span.side, entry),
    ];
    bands.push({ triangle, side: part.side, density: part.density, run, isSource: false });
    landFilm(state, triangle, part);
  }
};

const landFilm = (state: Routing, from: number, { edge, u, flux }: Pick<Outgoing, 'edge' | 'u' | 'flux'>): void => {
  const { net, out } = state;
  const sum = sumOf(u, flux);
  if (sum <= state.thread) return out.unresolved(sum);
  if (net.roles[edge] === 'leave') return fallAlong(state, edge, u, flux);
  if (isTaken(state, edge, from, middleOf(u, flux), sum)) return;
  const takers = onwardFrom(net, edge);
  const part: Pair = [flux[0] / takers.length, flux[1] / takers.length];
  const height = Math.max(heightOn(net, edge, u[0]), heightOn(net, edge, u[1]));
  for (const triangle of takers) {
    if (isWatched(state, triangle, sum / takers.length)) continue;
    push(state, { kind: 'film', edge, triangle, u, flux: part }, height);
  }
};

/** Water that falls evenly on a triangle: at each place across the fall it has gathered over the whole run. */
export const rainOn = (state: Routing, t: number, rate: number): void => {
  const { net, out, faces, bands } = state;
  const amount = rate * areaOf(net, t);
  if (isHole(net, t)) return out.openingOf(t, amount);
  faces.add(panelAt(net.surface, t));
  if (net.flatAreaOfTriangle[t] >= 0) return toFlatArea(state, net.flatAreaOfTriangle[t], amount, t);
  const { sides, longest } = runsOver(net, t);
  for (const [k, runs] of [
    [0, [0, longest]],
    [1, [longest, 0]],
  ] as const) {
    const side: Pair = [sides[k], sides[k + 1]];
    if (side[1] <= side[0]) continue;
    for (const part of outgoing(net, t, { side, density: [rate * runs[0], rate * runs[1]] })) {
      const run: Pair = [part.density[0] / rate, part.density[1] / rate];
      bands.push({ triangle: t, side: part.side, density: part.density, run, isSource: true });
      landFilm(state, t, part);
    }
  }
};
