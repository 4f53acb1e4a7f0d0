import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Vec2 } from '../../geometry/vec.js';
import { blanksIn, racksOf, roomOf, type NestRoom, type Rack } from '../../making/blanks.js';
import { smallestBlank } from '../../making/cutting.js';
import { turnsOf } from '../../making/grain-turns.js';
import { placeOfFlat } from '../../making/making.js';
import { kindOf } from '../../making/pins.js';
import { shopOf } from '../../model/shop/default-shop.js';
import type { Shop, Tub } from '../../model/tub.js';
import { inMm, named, plain } from '../../model/wording.js';
import { boxOf } from '../../nest/contact.js';
import { isEasilyLaid } from '../../nest/easily-laid.js';
import type { Nest, Unplaced } from '../../nest/nest.js';
import { nestKeyOf, nestTub } from '../../nest/nest-tub.js';
import { LruCache } from '../../cache/lru-cache.js';
import type { Effort } from '../../making/plan/verdict.js';
import { NEST_CONTACT } from '../../model/tolerance.js';
import { flatsToCut } from '../../stages/flats-to-cut.js';
import type { Stages } from '../../stages/stages.js';
import type { Rule, RuleFinding } from '../rule.js';

export const onNoSheet: Rule = {
  code: 'make/on-no-sheet',
  severity: 'warning',
  worst: 'error',
  *check(stages, effort) {
    const { tub } = stages;
    const shop = shopOf(tub);
    if (shop.stock.length === 0) return;
    const flats = flatsToCut(stages).filter((flat) => isOnBed(flat, shop));
    const counted: FlatPattern[] = [];
    for (const flat of flats) {
      const racks = racksOf(tub, tub.sheets[flat.sheet]);
      if (racks.length === 0) {
        yield withoutStock(tub, flat);
        continue;
      }
      const fits = racks.map((rack) => ({ rack, nearest: nearestBlank(tub, flat, rack) }));
      const holding = fits.filter(({ nearest }) => lackOf(nearest) <= NEST_CONTACT);
      if (holding.length === 0) yield tooLarge(tub, flat, fits.map(({ nearest }) => nearest).reduce(nearer));
      else if (holding.every(({ rack }) => rack.count !== undefined)) counted.push(flat);
    }
    if (counted.length === 0 || isEasilyLaid(stages)) return;
    for (const left of yield* leftWithout(stages, effort))
      if (left.reason === 'stock used up' && counted.includes(left.flat)) yield usedUp(stages, left);
  },
};

/** What no bed takes is told by another check. */
const isOnBed = (flat: FlatPattern, { cutters }: Shop): boolean => {
  const [long, short] = smallestBlank(flat);
  return cutters.length === 0 || cutters.some(({ bed }) => long <= Math.max(...bed) && short <= Math.min(...bed));
};

/** A flat in one of its turns against a blank. All mm. */
interface Against {
  readonly box: Vec2;
  readonly blank: Vec2;
  readonly room: NestRoom;
}

/** mm that the box stands out on the side where it does so most; negative: it has room. */
const lackOf = ({ box, blank, room }: Against): number =>
  Math.max(...box.map((side, axis) => side + 2 * room.margin - blank[axis]));

const nearer = (a: Against, b: Against): Against => (lackOf(b) < lackOf(a) ? b : a);

const nearestBlank = (tub: Tub, flat: FlatPattern, { ways }: Rack): Against => {
  const sheet = tub.sheets[flat.sheet];
  const room = roomOf(tub, sheet);
  const boxes = turnsOf(flat, sheet).map((turn): Vec2 => {
    const { min, max } = boxOf(flat, turn);
    return [max[0] - min[0], max[1] - min[1]];
  });
  return ways
    .flatMap(blanksIn)
    .flatMap((blank) => boxes.map((box): Against => ({ box, blank, room })))
    .reduce(nearer);
};

const tooLarge = (tub: Tub, flat: FlatPattern, against: Against): RuleFinding => {
  const { box, blank, room } = against;
  const axis = box[0] - blank[0] > box[1] - blank[1] ? 0 : 1;
  const has = blank[axis] - 2 * room.margin;
  const at = placeOfFlat(tub, flat);
  const size = ([length, width]: Vec2): string => `${inMm(length)} by ${inMm(width)}`;
  return {
    message: `Part ${named(flat.name)} is on no sheet: ${size(box)} as it would lie, and ${inMm(room.margin)} to every edge; the nearest blank is ${size(blank)} and leaves ${inMm(has, box[axis])} of the ${inMm(box[axis], has)}`,
    at,
    about: [flat.name],
    severity: 'error',
    related: [{ at, message: 'State larger stock in the shop, or divide the part with a seam' }],
    values: { has_mm: has, needs_mm: box[axis], blank_length_mm: blank[0], blank_width_mm: blank[1] },
    measure: { has: box[axis], needs: has, better: 'less' },
  };
};

const withoutStock = (tub: Tub, flat: FlatPattern): RuleFinding => {
  const { material, thickness } = tub.sheets[flat.sheet];
  const at = placeOfFlat(tub, flat);
  return {
    message: `Part ${named(flat.name)} is on no sheet: the shop states stock, and none of ${material} ${inMm(thickness)}`,
    at,
    about: [flat.name],
    related: [
      {
        at,
        message: `State it in the shop: \`stock ${material} thickness ${plain(thickness)} mm 1220 mm by 2440 mm\``,
      },
    ],
    values: { has_count: 0, needs_count: flat.quantity },
  };
};

/** What the first layout leaves, for the flats and the stock that it was made of. */
const known = new LruCache<Nest['unplaced']>(8);

/** While typing it is told as far as it was found in the quiet before: it takes a layout. */
function* leftWithout(stages: Stages, effort: Effort): Generator<undefined, Nest['unplaced']> {
  const flats = flatsToCut(stages);
  const key = nestKeyOf(stages.tub, flats);
  let found = known.get(key);
  if (!found && effort === 'live') return [];
  if (!found) {
    const laying = nestTub(stages, 0);
    let step = laying.next();
    for (; !step.done; step = laying.next()) yield undefined;
    known.set(key, (found = step.value.unplaced));
  }
  return found.map((left) => ({ ...left, flat: flats.find(({ name }) => name === left.flat.name) ?? left.flat }));
}

const usedUp = (stages: Stages, { flat, count }: Unplaced): RuleFinding => {
  const { tub } = stages;
  const sheet = tub.sheets[flat.sheet];
  const pieces = flatsToCut(stages)
    .filter((other) => kindOf(tub.sheets[other.sheet]) === kindOf(sheet))
    .reduce((sum, { quantity }) => sum + quantity, 0);
  const stock = racksOf(tub, sheet).map(
    (rack) => `${rack.count ?? ''} of ${plain(rack.size[1], 1)} by ${plain(rack.size[0], 1)} mm`,
  );
  const of = flat.quantity === 1 ? 'it finds' : `${count} of its ${flat.quantity} pieces find`;
  const at = placeOfFlat(tub, flat);
  return {
    message: `Part ${named(flat.name)} is on no sheet: ${of} no room among the ${pieces} pieces of ${sheet.material} ${inMm(sheet.thickness)}; their stock is ${stock.join(' and ')}`,
    at,
    about: [flat.name],
    severity: 'error',
    related: [{ at, message: 'State more of that stock, or a larger count, or make the part smaller' }],
    values: { has_count: flat.quantity - count, needs_count: flat.quantity, pieces_count: pieces },
  };
};
