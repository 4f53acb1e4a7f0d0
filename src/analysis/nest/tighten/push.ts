/** Pushes pieces that lie apart towards the start of their bin: pieces come apart before they lie close. */
import type { Vec2 } from '../../geometry/vec.js';
import type { Chance } from './chance.js';
import { put, weigh, type Layout } from './layout.js';
import { slotOf } from './pairs.js';
import { entryInto } from './sums.js';

const LEFT: Vec2 = [-1, 0];
const DOWN: Vec2 = [0, -1];
const UP: Vec2 = [0, 1];

/** Left, up or down as chance has it, and left again; a piece goes as far as the others in its bin let it. */
export const pushPieces = (layout: Layout, target: number, chance: Chance): void => {
  const own = Array.from({ length: layout.count }, (_, i) => i).filter((i) => layout.bin[i] === target);
  const { left, low, high } = layout;
  const aside = chance.next() < 0.5 ? DOWN : UP;
  const sorted = (by: (i: number) => number): number[] => [...own].sort((a, b) => by(a) - by(b) || a - b);
  for (const i of sorted((k) => left[k])) pushPiece(layout, i, LEFT);
  for (const i of sorted((k) => (aside === DOWN ? low[k] : -high[k]))) pushPiece(layout, i, aside);
  for (const i of sorted((k) => left[k])) pushPiece(layout, i, LEFT);
  for (const i of own) weigh(layout, i);
};

const pushPiece = (layout: Layout, piece: number, along: Vec2): void => {
  if (layout.fixed[piece] === 1) return;
  const { x, y, turned, bin, left, low, high, bins } = layout;
  const wall = along === LEFT ? left[piece] : along === DOWN ? low[piece] : bins[bin[piece]].width - high[piece];
  const room = roomAlong(layout, piece, along, Math.max(0, wall));
  if (room === 0) return;
  put(layout, piece, {
    turned: turned[piece],
    bin: bin[piece],
    x: x[piece] + along[0] * room,
    y: y[piece] + along[1] * room,
  });
};

const roomAlong = (layout: Layout, piece: number, along: Vec2, most: number): number => {
  const { shapes, count, left, low, right, high, x, y } = layout;
  const { pairs, reach, slack } = shapes;
  let room = most;
  for (let j = 0; j < count && room > 0; j++) {
    if (j === piece || layout.bin[j] !== layout.bin[piece]) continue;
    const [dx, dy] = [along[0] * room, along[1] * room];
    if (left[piece] + Math.min(0, dx) - reach >= right[j] || right[piece] + reach <= left[j]) continue;
    if (low[piece] + Math.min(0, dy) - reach >= high[j] || high[piece] + Math.max(0, dy) + reach <= low[j]) continue;
    const slot = slotOf(pairs, layout.turned[piece], layout.turned[j]);
    const [cos, sin] = [pairs.turns[2 * slot], pairs.turns[2 * slot + 1]];
    const turnedBy = ([u, v]: Vec2): Vec2 => [cos * u + sin * v, cos * v - sin * u];
    // Seen from the piece the others move the other way.
    const from = turnedBy([x[j] - x[piece], y[j] - y[piece]]);
    room = Math.max(0, entryInto(pairs.tables[slot], from, turnedBy([-along[0], -along[1]]), room, slack));
  }
  return room;
};
