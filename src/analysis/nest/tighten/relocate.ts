/** The best new place for one piece among the others as they lie. */
import type { Chance } from './chance.js';
import { gather, lossAt, put, weigh, type Layout, type Spot } from './layout.js';
import { lossNear } from './neighbours.js';

/** Places tried: anywhere, and round where the piece lies. */
const ANYWHERE = 16;
const NEARBY = 10;
/** Of these so many are moved on to where their overlap is least. */
const BEST = 3;
/** Steps of that as shares of the piece's narrow side: the first, that from where it lies, the last but for the best. */
const FIRST_STEP = 0.08;
const FIRST_STEP_HERE = 0.02;
const LAST_STEP = 0.005;
const LONGER = 1.1;
const SHORTER = 0.6;

interface Place {
  turned: number;
  bin: number;
  x: number;
  y: number;
  loss: number;
  step: number;
}

/** Used again for every move. */
const places: Place[] = Array.from({ length: BEST }, () => ({
  turned: 0,
  bin: 0,
  x: 0,
  y: 0,
  loss: Infinity,
  step: 0,
}));

/** Moves the piece to where its weighted overlap is least, as far as a few samples tell. */
export const relocate = (layout: Layout, piece: number, chance: Chance): void => {
  for (const place of places) place.loss = Infinity;
  layout.tried += 1 + NEARBY + ANYWHERE;
  const here = { turned: layout.turned[piece], bin: layout.bin[piece], x: layout.x[piece], y: layout.y[piece] };
  keep(here, lossAt(layout, piece, here, Infinity), FIRST_STEP_HERE);
  for (let i = 0; i < NEARBY; i++) tryNearby(layout, piece, chance);
  for (let i = 0; i < ANYWHERE; i++) tryAnywhere(layout, piece, chance);
  let best = places[0];
  for (const place of places) {
    if (place.loss === Infinity) continue;
    settle(layout, piece, place, LAST_STEP, chance);
    if (place.loss < best.loss) best = place;
  }
  best.step = LAST_STEP;
  settle(layout, piece, best, 0, chance);
  put(layout, piece, best);
  weigh(layout, piece);
};

/** Remembers a place when it is among the best. */
const keep = ({ turned, bin, x, y }: Spot, loss: number, step: number): void => {
  let worst = places[0];
  for (const place of places) if (place.loss > worst.loss) worst = place;
  if (loss >= worst.loss) return;
  worst.turned = turned;
  worst.bin = bin;
  worst.x = x;
  worst.y = y;
  worst.loss = loss;
  worst.step = step;
};

const worstKept = (): number => Math.max(places[0].loss, places[1].loss, places[2].loss);

const someTurn = ({ shapes, shape }: Layout, piece: number, chance: Chance): number => {
  const start = shapes.starts[shape[piece]];
  return start + chance.below(shapes.starts[shape[piece] + 1] - start);
};

const tryAnywhere = (layout: Layout, piece: number, chance: Chance): void => {
  const turned = someTurn(layout, piece, chance);
  const bin = layout.bins.length === 1 ? 0 : chance.below(layout.bins.length);
  const { length, width } = layout.bins[bin];
  const box = layout.shapes.turned[turned];
  const roomX = length - (box.right - box.left);
  const roomY = width - (box.high - box.low);
  if (roomX < 0 || roomY < 0) return;
  const x = chance.next() * roomX - box.left;
  const y = chance.next() * roomY - box.low;
  const spot = { turned, bin, x, y };
  keep(spot, lossAt(layout, piece, spot, worstKept()), FIRST_STEP);
};

const tryNearby = (layout: Layout, piece: number, chance: Chance): void => {
  const turned = chance.next() < 0.5 ? layout.turned[piece] : someTurn(layout, piece, chance);
  const bin = layout.bin[piece];
  const { length, width } = layout.bins[bin];
  const box = layout.shapes.turned[turned];
  const [w, h] = [box.right - box.left, box.high - box.low];
  if (w > length || h > width) return;
  const middleX = (layout.left[piece] + layout.right[piece]) / 2 + (chance.next() - 0.5) * w;
  const middleY = (layout.low[piece] + layout.high[piece]) / 2 + (chance.next() - 0.5) * h;
  const x = clamp(middleX - w / 2, 0, length - w) - box.left;
  const y = clamp(middleY - h / 2, 0, width - h) - box.low;
  const spot = { turned, bin, x, y };
  keep(spot, lossAt(layout, piece, spot, worstKept()), FIRST_STEP);
};

const clamp = (value: number, low: number, high: number): number => (value < low ? low : value > high ? high : value);

/** Walks down from a place by ever smaller steps to both sides along x, y or aslant. */
const settle = (layout: Layout, piece: number, place: Place, lastStep: number, chance: Chance): void => {
  const { near, shapes, bins } = layout;
  const box = shapes.turned[place.turned];
  const { length, width } = bins[place.bin];
  const [minX, maxX] = [-box.left, length - box.right];
  const [minY, maxY] = [-box.low, width - box.high];
  const size = Math.min(box.right - box.left, box.high - box.low);
  let step = place.step * size;
  const last = Math.max(lastStep * size, shapes.slack / 2);
  const reach = 4 * step;
  gather(layout, piece, place, reach + shapes.reach);
  let [gatheredX, gatheredY] = [place.x, place.y];
  while (step > last && place.loss > 0) {
    const way = chance.below(4);
    const dx = way === 1 ? 0 : step;
    const dy = way === 0 ? 0 : way === 3 ? -step : step;
    let moved = false;
    for (let sign = -1; sign <= 1 && !moved; sign += 2) {
      const x = clamp(place.x + sign * dx, minX, maxX);
      const y = clamp(place.y + sign * dy, minY, maxY);
      if (Math.abs(x - gatheredX) > reach || Math.abs(y - gatheredY) > reach) {
        gather(layout, piece, place, reach + shapes.reach);
        [gatheredX, gatheredY] = [place.x, place.y];
      }
      layout.tried++;
      const loss = lossNear(shapes.pairs, near, x, y, place.loss);
      if (loss >= place.loss) continue;
      place.x = x;
      place.y = y;
      place.loss = loss;
      moved = true;
    }
    step *= moved ? LONGER : SHORTER;
  }
};
