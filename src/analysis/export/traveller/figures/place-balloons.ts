/** Numbers in rings at their places in a picture: none over another, each beside its place with a line to it where it had to give way. */
import { distance2, type Vec2 } from '../../../geometry/vec.js';
import { line, WEIGHT, words, type Mark } from '../layout/mark.js';

/** mm on paper. */
export const BALLOON = 3.1;
const TYPE = 3.6;
/** Between the rings of two numbers. */
const APART = 0.5;
/** How much farther from its place each further ring of places lies, and how many are tried. */
const FARTHER = BALLOON * 1.4;
const MOST_RINGS = 24;
/** Places on the first ring; farther ones have as many more as they are longer. */
const AROUND = 12;
/** A number may stand so far outside the drawing. */
export const ROUND_ABOUT = 3 * BALLOON;

export interface PlacedNumber {
  readonly text: string;
  readonly at: Vec2;
}

interface Balloon extends PlacedNumber {
  /** Where it came to stand. */
  readonly middle: Vec2;
}

/** In their order, each as near to its place as those before it leave room, towards the outside of the drawing before the inside. */
export const balloonMarks = (numbers: readonly PlacedNumber[], size: Vec2): Mark[] => {
  const balloons: Balloon[] = [];
  // Those that stand by themselves stay where they are, whatever comes later.
  const isCrowded = ({ at }: PlacedNumber): boolean =>
    numbers.some((other) => other.at !== at && isTooNear(at, other.at));
  for (const number of [...numbers].sort((a, b) => Number(isCrowded(a)) - Number(isCrowded(b)))) {
    balloons.push({ ...number, middle: freePlace(number.at, size, balloons) ?? number.at });
  }
  return [...balloons.flatMap(leader), ...balloons.flatMap(ring)];
};

const isTooNear = (a: Vec2, b: Vec2): boolean => distance2(a, b) < 2 * BALLOON + APART;

const freePlace = (at: Vec2, size: Vec2, balloons: readonly Balloon[]): Vec2 | undefined => {
  for (const place of placesFor(at, size)) if (balloons.every(({ middle }) => !isTooNear(place, middle))) return place;
  return undefined;
};

/** The place itself, then rings of places around it, those that lead away from the middle of the drawing first. */
function* placesFor(at: Vec2, size: Vec2): Generator<Vec2> {
  yield at;
  const outward = Math.atan2(at[1] - size[1] / 2, at[0] - size[0] / 2);
  for (let r = 1; r <= MOST_RINGS; r++) {
    const count = AROUND * r;
    for (let k = 0; k < count; k++) {
      // 0, 1, -1, 2, -2 steps to either side.
      const turn = outward + (2 * Math.PI * (k % 2 === 0 ? k / 2 : -(k + 1) / 2)) / count;
      const place: Vec2 = [at[0] + r * FARTHER * Math.cos(turn), at[1] + r * FARTHER * Math.sin(turn)];
      if (isWithin(place, size)) yield place;
    }
  }
}

const isWithin = (place: Vec2, size: Vec2): boolean =>
  [0, 1].every((k) => place[k] >= BALLOON - ROUND_ABOUT && place[k] <= size[k] + ROUND_ABOUT - BALLOON);

const DOT = 0.7;

const leader = ({ at, middle }: Balloon): Mark[] =>
  at === middle
    ? []
    : [line([at, middle], WEIGHT.thin), { kind: 'circle', center: at, radius: DOT, width: 0, fill: 'black' }];

const ring = ({ middle, text }: Balloon): Mark[] => [
  { kind: 'circle', center: middle, radius: BALLOON, width: WEIGHT.plain, fill: 'white' },
  words(text, [middle[0], middle[1] + 1.3], TYPE, { align: 'middle', weight: 'bold' }),
];
