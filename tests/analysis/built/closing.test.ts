/** Open bends and corrections against sums that this file makes by itself: another fold, another fit, integrals by Gauss's two points. */
import { describe, expect, it } from 'vitest';
import type { Vec2 } from '../../../src/analysis/geometry/vec.js';
import type { MadeStrip } from '../../../src/analysis/built/as-made.js';
import { meetingsOf } from '../../../src/analysis/built/next.js';
import { deviationsOf, worthOf } from '../../../src/analysis/built/worth.js';
import { analyseText } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';
import {
  drawnTurns,
  foldLegs,
  ontoLine,
  placedBy,
  type CutStrip,
  type PlaneMotion,
} from '../../support/oracles/fold-as-read.js';
import { seededUniform } from '../../support/random/random.js';

const DEG = Math.PI / 180;

const DRIPPER = (made: string): string => `units mm
sheet skin = stainless thickness 1.2 radius 1.6 k 0.42
strip ramp of skin from (0, 0, 300) heading back across right 240 {
    panel back  50  falling 90 deg
    panel s1   120  falling 6 deg
    panel d1    60  falling 62 deg
    panel s2   120  falling 6 deg
    panel d2    60  falling 62 deg
    panel lip   30  falling 6 deg
}
side left  of skin closes ramp.left  up to 300
side right of skin closes ramp.right up to 300
seam left  ramp { weld tig }
seam right ramp { weld tig }
${made}`;

const pointsOf = (legs: readonly (readonly [number, number])[]): Vec2[] => {
  const points: Vec2[] = [[0, 300]];
  for (const [length, fall] of legs) {
    const [x, z] = points[points.length - 1];
    points.push([x + length * Math.cos(fall * DEG), z - length * Math.sin(fall * DEG)]);
  }
  return points;
};

const STRIP: CutStrip = {
  points: pointsOf([
    [50, 90],
    [120, 6],
    [60, 62],
    [120, 6],
    [60, 62],
    [30, 6],
  ]),
  thickness: 1.2,
  radius: 1.6,
  kFactor: 0.42,
};

/** Sharp corners of the strip standing on its leg 1 (s1). */
const foldedOn = (leg: number, turns: readonly number[]): Vec2[] => {
  const legs = foldLegs(STRIP, { turns });
  const motion = ontoLine(legs[leg].sharp, [STRIP.points[leg], STRIP.points[leg + 1]]);
  return [legs[0].sharp[0], ...legs.map(({ sharp }) => sharp[1])].map((point) => placedBy(motion, point));
};

/** Gauss's two points of a length: exact for what is quadratic along it. */
const GAUSS = [0.5 - Math.sqrt(3) / 6, 0.5 + Math.sqrt(3) / 6];

interface Pair {
  readonly drawn: Vec2;
  readonly made: Vec2;
  /** Square to the leg as made. */
  readonly across: Vec2;
  readonly weight: number;
}

const pairsWith = (made: readonly Vec2[]): Pair[] =>
  STRIP.points.slice(1).flatMap((end, leg) => {
    const start = STRIP.points[leg];
    const weight = Math.hypot(end[0] - start[0], end[1] - start[1]) / 2;
    const way: Vec2 = [made[leg + 1][0] - made[leg][0], made[leg + 1][1] - made[leg][1]];
    const across: Vec2 = [way[1] / Math.hypot(...way), -way[0] / Math.hypot(...way)];
    return GAUSS.map((share): Pair => {
      const at = (a: Vec2, b: Vec2): Vec2 => [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
      return { drawn: at(start, end), made: at(made[leg], made[leg + 1]), across, weight };
    });
  });

const offWith = ({ drawn, made, across }: Pair, motion: PlaneMotion): number => {
  const [a, b] = placedBy(motion, drawn);
  return (a - made[0]) * across[0] + (b - made[1]) * across[1];
};

const sumWith = (pairs: readonly Pair[], motion: PlaneMotion): number =>
  pairs.reduce((sum, pair) => sum + pair.weight * offWith(pair, motion) ** 2, 0);

/** For a given turn the best shift solves two equations; the turn by golden section. */
const bestMotion = (pairs: readonly Pair[]): PlaneMotion => {
  const motionOf = (turn: number): PlaneMotion => {
    let [xx, xy, yy, x, y] = [0, 0, 0, 0, 0];
    for (const pair of pairs) {
      const { across, weight } = pair;
      const off = weight * offWith(pair, { turn, by: [0, 0] });
      [xx, xy, yy] = [xx + weight * across[0] ** 2, xy + weight * across[0] * across[1], yy + weight * across[1] ** 2];
      [x, y] = [x - off * across[0], y - off * across[1]];
    }
    const size = xx * yy - xy * xy;
    return { turn, by: [(x * yy - y * xy) / size, (y * xx - x * xy) / size] };
  };
  let [low, high] = [-0.1, 0.1];
  const golden = (Math.sqrt(5) - 1) / 2;
  while (high - low > 1e-8) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    if (sumWith(pairs, motionOf(a)) < sumWith(pairs, motionOf(b))) high = b;
    else low = a;
  }
  return motionOf((low + high) / 2);
};

/** Integral of the gap squared, square to the legs, the cut part moved to where that is least. */
const ownMisfit = (made: readonly Vec2[], isMovable: boolean): number => {
  const pairs = pairsWith(made);
  return sumWith(pairs, isMovable ? bestMotion(pairs) : { turn: 0, by: [0, 0] });
};

const stripMade = (made: string): MadeStrip => analyseText(DRIPPER(made), { rules: [] }).stages.built.strips[0];

const CUT = 'made left { }\n';
const reads = (bends: string): string => `made ramp standing on s1 {\n${bends}\n    may correct\n}\n`;
const TWO_OPEN = reads('    bend back s1 reads 83.1 deg\n    bend s1 d1 reads 54.8 deg\n    bend d1 s2 reads 55.1 deg');
const RAD = (deg: number): number => deg * DEG;

describe('bends that are still open', () => {
  it.each([
    ['with a side that is cut', CUT, true],
    ['with nothing cut that meets the strip', '', false],
  ])('close best %s: within 1e-6 of a grid, and no random correction is better', (_, cut, isMovable) => {
    const strip = stripMade(TWO_OPEN + cut);
    expect(strip.open).toEqual([3, 4]);
    const drawn = drawnTurns(STRIP);
    const signed = (i: number, deg: number): number => Math.sign(drawn[i]) * RAD(deg);
    const read = [signed(0, 83.1), signed(1, 54.8), signed(2, 55.1)];
    const own = (a: number, b: number): number => ownMisfit(foldedOn(1, [...read, a, b]), isMovable);
    const [a, b] = [strip.folding.turns[3], strip.folding.turns[4]];
    const least = own(a, b);
    // A grid that is drawn in around its best node, 9 by 9 at a time, down to less than a millionth of a radian.
    let [x, y, size] = [drawn[3], drawn[4], 4 * DEG];
    let grid = Infinity;
    while (size > 1e-8) {
      let next = [x, y];
      for (let i = -4; i <= 4; i++)
        for (let j = -4; j <= 4; j++) {
          const sum = own(x + (i * size) / 4, y + (j * size) / 4);
          if (sum < grid) [grid, next] = [sum, [x + (i * size) / 4, y + (j * size) / 4]];
        }
      [x, y, size] = [next[0], next[1], size / 2];
    }
    expect(least - grid).toBeLessThan(1e-6 * Math.max(1, grid));
    expect(Math.abs(a - x)).toBeLessThan(1e-6 * 10);
    expect(Math.abs(b - y)).toBeLessThan(1e-6 * 10);
    const random = seededUniform(7);
    for (let i = 0; i < casesOf(60, 10); i++) {
      const off = (): number => (random() - 0.5) * 2 * 6 * DEG;
      expect(own(a + off(), b + off())).toBeGreaterThanOrEqual(least - 1e-9);
    }
  });

  it('stay as drawn where everything before them reads as planned', () => {
    const strip = stripMade(reads('    bend back s1 reads 84 deg\n    bend s1 d1 reads 56 deg') + CUT);
    expect(strip.folding.turns).toEqual(strip.profile.bends.map(({ turn }) => turn));
    expect(meetingsOf(strip)[0].largest).toBeLessThan(1e-9);
  });

  it('stay as drawn where no cut part tells them otherwise, whatever the others close to', () => {
    // The baffle ends on the front, below the lip: what the lip turns moves no gap.
    const text = `units mm
sheet skin = stainless 18 ga radius 1.6
strip bed of skin from (0, 300, 150) heading front across right 300 {
    panel back  100 falling 90 deg
    panel base  300 falling 3 deg
    panel front to z 140 rising 85 deg
    panel lip   20 falling 60 deg
}
side baffle of skin crosses bed at 100 from left up to 100
seam baffle bed { weld tig }
made bed standing on base { bend back base reads 86 deg }
made baffle { }
`;
    const { findings, stages } = analyseText(text);
    const [strip] = stages.built.strips;
    expect(strip.open).toEqual([1, 2]);
    expect(Math.abs(strip.folding.turns[1]) / DEG).toBeGreaterThan(88.1);
    expect(strip.folding.turns[2]).toBeCloseTo(RAD(-145), 4);
    const told = findings.filter(({ code }) => code === 'made/next-bend').map(({ about }) => about);
    expect(told).toEqual([['bed.base bed.front']]);
  });

  it('are held to what the machines of the shop turn', () => {
    const shop =
      'shop "small" { folding brake leaf { width 1000  capacity 2  depth 200  nose 40 deg  angle at most 56.05 deg } }\n';
    const strip = stripMade(TWO_OPEN + CUT + shop);
    expect(Math.abs(strip.folding.turns[4])).toBeLessThanOrEqual(RAD(56.05) + 1e-12);
    const free = stripMade(TWO_OPEN + CUT);
    expect(Math.abs(free.folding.turns[4])).toBeGreaterThan(RAD(56.05));
  });
});

describe('a part that is cut', () => {
  it('lies where it did when a free end alone came out shorter, and no bend is changed for it', () => {
    const strip = stripMade(
      `made ramp standing on s1 { panel lip measures 28.4 over outside  bend back s1 reads 84 deg  bend s1 d1 reads 56 deg }\n${CUT}`,
    );
    expect(meetingsOf(strip)[0].largest).toBeLessThan(1e-6);
    strip.profile.bends.forEach(({ turn }, i) => expect(strip.folding.turns[i]).toBeCloseTo(turn, 6));
  });

  it('stands off by what is left when it is moved to where it fits best', () => {
    const strip = stripMade(TWO_OPEN + CUT);
    const [meeting] = meetingsOf(strip);
    const drawn = drawnTurns(STRIP);
    const turns = [83.1, 54.8, 55.1].map((deg, i) => Math.sign(drawn[i]) * RAD(deg));
    const made = foldedOn(1, [...turns, strip.folding.turns[3], strip.folding.turns[4]]);
    const motion = bestMotion(pairsWith(made));
    for (const { leg, start, end } of meeting.gaps) {
      const [a, b] = [leg, leg + 1].map((corner) => placedBy(motion, STRIP.points[corner]));
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
      // Below the edge of the side, which lies to the left of travel, the strip stands open.
      const below = ([x, z]: Vec2): number => ((x - a[0]) * (b[1] - a[1]) - (z - a[1]) * (b[0] - a[0])) / length;
      expect(start).toBeCloseTo(below(made[leg]), 4);
      expect(end).toBeCloseTo(below(made[leg + 1]), 4);
    }
    expect(meeting.slit!.left).toBeLessThan(meeting.largest);
  });
});

describe('what readings are worth', () => {
  it('by linear propagation agrees with thousands of foldings within 5 %', () => {
    const made = reads(
      '    bend back s1 reads 83.1 deg\n    bend s1 d1 reads 54.8 deg\n    bend d1 s2 reads 55.1 deg\n    bend s2 d2 reads 56.4 deg\n    bend d2 lip reads 55.2 deg\n    gauge within 0.3 deg',
    );
    const { stages } = analyseText(DRIPPER(made), { rules: [] });
    const [strip] = stages.built.strips;
    const worth = worthOf(strip.task, strip.folding.turns, deviationsOf(stages.tub, strip.made, strip));
    const drawn = drawnTurns(STRIP);
    const turns = [83.1, 54.8, 55.1, 56.4, 55.2].map((deg, i) => Math.sign(drawn[i]) * RAD(deg));
    const random = seededUniform(3);
    const count = casesOf(4000, 33);
    const ends: Vec2[] = [];
    const slopes: number[] = [];
    for (let i = 0; i < count; i++) {
      const points = foldedOn(
        1,
        turns.map((turn) => turn + (random() * 2 - 1) * RAD(0.3)),
      );
      ends.push(points[6]);
      slopes.push(Math.atan2(points[6][1] - points[5][1], points[6][0] - points[5][0]));
    }
    const deviation = (values: readonly number[]): number => {
      const mean = values.reduce((sum, value) => sum + value, 0) / count;
      return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (count - 1));
    };
    const agrees = (has: number, needs: number): void => expect(Math.abs(has / needs - 1)).toBeLessThan(0.05);
    agrees(worth.slopes[5], deviation(slopes));
    agrees(worth.corners[6][0], deviation(ends.map(([x]) => x)));
    agrees(worth.corners[6][1], deviation(ends.map(([, z]) => z)));
    // The panel that it stands on is where it was drawn.
    expect(worth.slopes[1]).toBeCloseTo(0, 9);
  });
});
