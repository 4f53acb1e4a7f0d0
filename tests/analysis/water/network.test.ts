/** Water at work as one network: levels, shares and hold-up against halving by hand and closed forms, which share no code with it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { waterOf } from '../../../src/analysis/water/water.js';
import { arbitraryChambers } from '../../support/random/arbitrary-chambers.js';
import { casesOf } from '../../support/cases.js';
import { createStages, type Stages } from '../../../src/analysis/stages/stages.js';
import { overCrest, throughOpening } from '../../../src/analysis/water/network/crest-law.js';
import { levelsOf } from '../../../src/analysis/water/network/levels.js';
import type { Link } from '../../../src/analysis/water/network/links.js';
import { analyseText, codesOf } from '../../support/analyse-text.js';
import {
  BOX,
  bedAt,
  boxVolume,
  FRONT_Y,
  inflowAt,
  outletAt,
  partedBox,
  type Wall,
} from '../../support/tubs/parted-box.js';

const G = 9806.65;

/** mm3/s over a thin straight crest, Q = 2/3 Cd b sqrt(2 g) h^1.5, Cd 0.62: textbooks of hydraulics. */
const crest = (width: number, head: number): number =>
  head > 0 ? (2 / 3) * 0.62 * width * Math.sqrt(2 * G) * head ** 1.5 : 0;

/** mm3/s over a crest that is drowned: Villemonte 1947 (from memory). */
const drowned = (width: number, high: number, low: number): number =>
  low <= 0 ? crest(width, high) : crest(width, high) * (1 - (low / high) ** 1.5) ** 0.385;

/** mm3/s of a level round outlet, EN 12056-3:2000 (from memory). */
const round = (diameter: number, head: number): number =>
  head > 0 ? 1e6 * Math.min((diameter * head ** 1.5) / 7500, (diameter ** 2 * Math.sqrt(head)) / 15000) : 0;

const halving = (low: number, high: number, isShort: (level: number) => boolean): number => {
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (isShort(middle)) low = middle;
    else high = middle;
  }
  return high;
};

const litres = (perMinute: number): number => (perMinute * 1e6) / 60;

const stagesOf = (walls: readonly Wall[], rest: string): Stages =>
  createStages(analyseText(partedBox(walls, rest)).tub);

/** By how far a chamber's lowest place lies to the back: the order along the box. */
const fromBack = (stages: Stages): readonly { level: number | undefined; rate: number }[] => {
  const water = stages.water();
  const atWork = water.chambersAtWork();
  return water
    .chambers()
    .map(({ lowest }, i) => ({ y: lowest[1], level: atWork[i].level, rate: atWork[i].rateMm3S }))
    .sort((p, q) => q.y - p.y);
};

const sharesOf = (stages: Stages): Readonly<Record<string, number>> => {
  const { tub } = stages;
  const found: Record<string, number> = {};
  for (const end of stages
    .water()
    .flows()
    .flatMap(({ ends }) => ends)) {
    const name = end.kind === 'outlet' ? tub.outlets[end.outlet].name : end.kind;
    found[name] = (found[name] ?? 0) + end.share;
  }
  return found;
};

describe('laws', () => {
  test('a crest that slopes is one side of a vee: 4/15 Cd m sqrt(2 g) h^2.5', () => {
    const wanted = (4 / 15) * 0.62 * (400 / 60) * Math.sqrt(2 * G) * 16 ** 2.5;
    expect(overCrest({ from: 120, to: 180, length: 400 }, 136, -Infinity) / wanted).toBeCloseTo(1, 12);
    expect(overCrest({ from: 180, to: 120, length: 400 }, 136, 100) / wanted).toBeCloseTo(1, 12);
  });

  test('a drowned crest that slopes is the sum over narrow level ones', () => {
    const strips = 20000;
    let sum = 0;
    for (let i = 0; i < strips; i++) {
      const z = 120 + (60 * (i + 0.5)) / strips;
      sum += drowned(400 / strips, 150 - z, 140 - z);
    }
    expect(overCrest({ from: 120, to: 180, length: 400 }, 150, 140) / sum).toBeCloseTo(1, 3);
  });

  test('an opening is a weir while part full, and a hole under the difference of the levels once drowned', () => {
    // A window 40 wide from z 90 to 110, as two triangles.
    const window = [
      { heights: [90, 90, 110], area: 400 },
      { heights: [90, 110, 110], area: 400 },
    ] as const;
    const free = (2 / 3) * 0.61 * 40 * Math.sqrt(2 * G);
    expect(throughOpening(window, 100, 0) / (free * 10 ** 1.5)).toBeCloseTo(1, 12);
    expect(throughOpening(window, 200, 0) / (free * (110 ** 1.5 - 90 ** 1.5))).toBeCloseTo(1, 12);
    expect(throughOpening(window, 200, 150) / (0.61 * 800 * Math.sqrt(2 * G * 50))).toBeCloseTo(1, 12);
    expect(throughOpening(window, 95, 95)).toBe(0);
  });
});

describe('levels', () => {
  const weir = (a: number, b: number, bottom: number): Link => ({
    between: [a, b],
    bottom,
    flow: (high, low) => drowned(400, high - bottom, low - bottom),
    reaches: (end) => (end === 0 ? (b < 0 ? [] : [[b, 1]]) : [[a, 1]]),
  });

  test('a chain of 300 waters that drown one another is in balance, and nothing is lost', () => {
    const n = 300;
    const links = Array.from({ length: n }, (_, i) => weir(i, i + 1 < n ? i + 1 : -1, 100));
    const rate = 2e5;
    const inflow = Array.from({ length: n }, (_, i) => (i === 0 ? rate : 0));
    const levels = levelsOf({ inflow, start: inflow.map(() => 100), links, drains: [] });
    // From the free end back: each stands as high as it takes to pass the same flow, found by halving.
    let low = 100 + (rate / crest(400, 1)) ** (2 / 3);
    expect(levels[n - 1]).toBeCloseTo(low, 7);
    for (let i = n - 2; i >= 0; i--) {
      const below = low;
      low = halving(below, below + 50, (level) => drowned(400, level - 100, below - 100) < rate);
      expect(Math.abs(levels[i] - low)).toBeLessThan(1e-5);
    }
  });

  test('chambers that fill one another step by step end where nested halving says', () => {
    // 24 walls of heights in disorder, all water at one end, the way out at the other: the highest wall on the way holds.
    const tops = Array.from({ length: 24 }, (_, i) => 100 + ((i * 37) % 90));
    const links = tops.map((top, i) => weir(i, i + 1, top));
    const out = weir(24, -1, 50);
    const inflow = Array.from({ length: 25 }, (_, i) => (i === 0 ? 166667 : 0));
    const start = inflow.map((_, i) =>
      Math.min(...[...links, out].filter(({ between }) => between.includes(i)).map(({ bottom }) => bottom)),
    );
    const levels = levelsOf({ inflow, start, links: [...links, out], drains: [] });
    let low = 50 + (166667 / crest(400, 1)) ** (2 / 3);
    expect(levels[24]).toBeCloseTo(low, 6);
    for (let i = 23; i >= 0; i--) {
      const below = low;
      low = halving(Math.max(below, tops[i]), 400, (level) => drowned(400, level - tops[i], below - tops[i]) < 166667);
      expect(Math.abs(levels[i] - low)).toBeLessThan(1e-4);
    }
  });

  test('a long chain of drowned waters shares three outlets as halving from its far end says', () => {
    const n = 80;
    const tops = Array.from({ length: n - 1 }, (_, i) => 100 + ((i * 7919) % 17));
    const links = tops.map((top, i) => weir(i, i + 1, top));
    const rate = litres(230);
    const inflow = Array.from({ length: n }, (_, i) => (i === n - 1 ? rate : 0));
    const takes = (level: number): number => round(40, level);
    const drains = [8, 40, 72].map((node) => ({ node, takes }));
    const start = inflow.map((_, i) =>
      drains.some(({ node }) => node === i) ? 0 : Math.min(...tops.slice(Math.max(0, i - 1), i + 1)),
    );
    const levels = levelsOf({ inflow, start, links, drains });
    // From a level at the last outlet on: what has been taken so far comes over the next wall.
    const from = (first: number): { readonly rate: number; readonly along: ReadonlyMap<number, number> } => {
      const along = new Map<number, number>();
      let [level, sum] = [first, 0];
      for (let i = 8; i < n; i++) {
        const below = level;
        const passes = (at: number): number => drowned(400, at - tops[i - 1], below - tops[i - 1]);
        if (i > 8) level = halving(Math.max(below, tops[i - 1]), 500, (at) => passes(at) < sum);
        if (drains.some(({ node }) => node === i)) sum += takes(level);
        along.set(i, level);
      }
      return { rate: sum, along };
    };
    const { along } = from(halving(0, 400, (level) => from(level).rate < rate));
    for (const [i, level] of along) expect(Math.abs(levels[i] - level)).toBeLessThan(1e-3);
  });

  test('waters that nothing leads out of have no level', () => {
    const levels = levelsOf({ inflow: [1e5, 0], start: [100, 100], links: [weir(0, 1, 100)], drains: [] });
    expect([...levels]).toEqual([Infinity, Infinity]);
  });
});

describe('what is a chamber, and what holds its water', () => {
  const upright = (
    foot: string,
  ): string => `panel d of skin = (0, 400, ${bedAt(400)}) (400, 400, ${bedAt(400)}) (400, 400, 150) (0, 400, 150)
seam d box.bed { ${foot} }
seam d left { weld tig }
seam d right { weld tig }
${outletAt('drain', 60, 40)}`;

  test('a divider with an open foot parts nothing: one chamber, one line of the fill test', () => {
    const stages = stagesOf([], upright('weld tig open'));
    expect(stages.water().chambers()).toHaveLength(1);
    expect(stages.fillTest()?.chambers).toEqual([]);
    expect(stagesOf([], upright('weld tig')).water().chambers()).toHaveLength(2);
  });

  test.each([120, 150])(
    'a pool behind a wall of 150 is held back by it, whether one of %s in it is drowned or not',
    (top) => {
      const { findings } = analyseText(
        partedBox(
          [
            { name: 'd', at: 250, top },
            { name: 'e', at: 550, top: 150 },
          ],
          outletAt('drain', 60, 40),
        ),
      );
      const pools = findings.filter(({ code, message }) => code === 'drain/pool' && !message.startsWith('A film'));
      expect(pools.map(({ severity }) => severity)).not.toContain('warning');
      expect(pools.some(({ message }) => message.includes('holds 129.19 mm of water back'))).toBe(true);
    },
  );

  test('what a plugged tub holds ends at a notch, which no plug shuts', () => {
    const stages = stagesOf([], 'outlet v vee in box.back at (200, 800, 200) 90 deg deep 60\n');
    const whole = boxVolume(FRONT_Y, BOX.backY, 200);
    expect(stages.water().capacity()! / whole).toBeCloseTo(1, 6);
    expect(stages.water().full()[0].level).toBeCloseTo(200, 6);
    expect(stages.fillTest()!.holds / whole).toBeCloseTo(1, 6);
  });
});

describe('chambers at work', () => {
  test('with a hole in the divider: the hole takes its part, the rest runs over the crest', () => {
    const stages = stagesOf(
      [{ name: 'd', at: 400, top: 150, cuts: 'hole pass in d at (200, 400.2, 60) diameter 10\n' }],
      outletAt('drain', 60, 40) + inflowAt(10, 750),
    );
    const hole = (level: number): number => 0.61 * (Math.PI / 4) * 100 * Math.sqrt(2 * G * (level - 60));
    const level = halving(70, 260, (z) => hole(z) + crest(400, z - 150) < litres(10));
    // The hole's outline has 32 sides: 0.6 % less of area.
    expect(fromBack(stages)[0].level! - 150).toBeCloseTo(level - 150, 1);
    expect(fromBack(stages)[0].level).toBeGreaterThan(150);
    expect(sharesOf(stages).drain).toBeCloseTo(1, 9);
    expect(stages.water().holdUp().overCrests).toBeGreaterThan(15e6);
  });

  test('with a window under the rim too small for the inflow, the tub runs over its rim', () => {
    const analysis = analyseText(
      partedBox(
        [{ name: 'd', at: 400, top: 260, cuts: 'cutout pass in d from (100, 400.2, 90) to (140, 400.2, 110)\n' }],
        outletAt('drain', 60, 40) + inflowAt(60, 750),
      ),
    );
    const stages = createStages(analysis.tub);
    expect(codesOf(analysis)).toContain('drain/inflow-lost');
    // Three walls of the chamber, the divider beside: 400 + 2 by 399.76 of rim, and 400 of divider.
    const window = (level: number, low: number): number => {
      const free = (z: number): number => Math.max(0, level - z) ** 1.5;
      return (2 / 3) * 0.61 * 40 * Math.sqrt(2 * G) * (free(Math.max(90, low)) - free(110));
    };
    const [behind, before] = fromBack(stages);
    const over = halving(0, 20, (head) => window(260 + head, before.level!) + crest(1599.5, head) < litres(60));
    expect(behind.level! - 260).toBeCloseTo(over, 2);
    expect(Object.values(sharesOf(stages)).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
  });

  test('a drowned crest makes one water of two chambers', () => {
    const stages = stagesOf([{ name: 'd', at: 400, top: 150 }], outletAt('drain', 60, 14) + inflowAt(11, 750));
    const low = halving(bedAt(53), 260, (z) => round(14, z - bedAt(53)) < litres(11));
    const high = halving(low, 300, (z) => drowned(400, z - 150, low - 150) < litres(11));
    const [behind, before] = fromBack(stages);
    expect(before.level! - low).toBeLessThan(1);
    expect(behind.level! - before.level!).toBeCloseTo(high - low, 3);
    expect(behind.level).toBeGreaterThan(before.level!);
  });

  test('every crest under the level carries its part, and every outlet behind one gets it', () => {
    const stages = stagesOf(
      [
        { name: 'd', at: 250, top: 150 },
        { name: 'e', at: 550, top: 152 },
      ],
      outletAt('drain', 60, 40) + outletAt('o2', 700, 40) + inflowAt(40, 400),
    );
    const head = halving(0, 50, (h) => crest(400, h) + crest(400, h - 2) < litres(40));
    const [, middle] = fromBack(stages);
    expect(middle.level).toBeCloseTo(150 + head, 6);
    const shares = sharesOf(stages);
    expect(shares.o2).toBeCloseTo(crest(400, head) / litres(40), 6);
    expect(shares.drain).toBeCloseTo(crest(400, head - 2) / litres(40), 6);
  });

  test('a chamber with a dead end beside it stands level with it, and only the crest that leads on carries', () => {
    const stages = stagesOf(
      [
        { name: 'd', at: 250, top: 150 },
        { name: 'e', at: 550, top: 150 },
      ],
      outletAt('drain', 60, 40) + inflowAt(12, 400),
    );
    const [dead, middle] = fromBack(stages);
    expect(middle.level).toBeCloseTo(150 + (litres(12) / crest(400, 1)) ** (2 / 3), 6);
    expect(dead.level).toBeCloseTo(middle.level!, 6);
  });

  test('what stands over a crest is counted once for two chambers that are one water', () => {
    const stages = stagesOf(
      [
        { name: 'd', at: 250, top: 120 },
        { name: 'e', at: 550, top: 150 },
      ],
      outletAt('drain', 60, 40) + inflowAt(12, 400),
    );
    const [behind, middle] = fromBack(stages);
    const head = (litres(12) / crest(400, 1)) ** (2 / 3);
    expect(middle.level).toBeCloseTo(150 + head, 6);
    expect(behind.level).toBeCloseTo(middle.level!, 6);
    // By the plan of both, the divider between them under water too, the edge of the other counted to one side.
    expect(stages.water().holdUp().overCrests / (400 * 550 * Math.cos((2 * Math.PI) / 180) * head)).toBeCloseTo(1, 1);
    const atRest = stages
      .water()
      .chambersAtWork()
      .reduce((sum, chamber) => sum + chamber.atRest, 0);
    expect(atRest / 26.26e6).toBeCloseTo(1, 2);
  });

  test('a divider whose top slopes has a head too', () => {
    const stages = stagesOf(
      [],
      `panel d of skin = (0, 400, ${bedAt(400)}) (400, 400, ${bedAt(400)}) (400, 400, 180) (0, 400, 120)
seam d box.bed { weld tig }
seam d left { weld tig }
seam d right { weld tig }
${outletAt('drain', 60, 40)}${inflowAt(10, 750)}`,
    );
    const head = (litres(10) / ((4 / 15) * 0.62 * (400 / 60) * Math.sqrt(2 * G))) ** 0.4;
    expect(fromBack(stages)[0].level).toBeCloseTo(120 + head, 6);
    expect(stages.water().chambersAtWork()[0].head).toBeCloseTo(head, 6);
  });

  test('with its outlet shut a tub runs over all of its rim, and stands there as one water', () => {
    const stages = stagesOf(
      [{ name: 'd', at: 400, top: 150 }],
      outletAt('drain', 60, 40, '{ lip 15 shut in use }') + inflowAt(10, 750),
    );
    const round = 2 * (BOX.wide + 799.51);
    const [behind, before] = fromBack(stages);
    expect(before.level).toBeCloseTo(260 + (litres(10) / crest(round, 1)) ** (2 / 3), 3);
    expect(behind.level).toBeCloseTo(before.level!, 3);
    expect(sharesOf(stages).rim).toBeCloseTo(1, 9);
    // The level over the outlet is that of the water that stands there, shut or not.
    expect(stages.water().outlets()[0].waterLevel).toBeCloseTo(before.level!, 6);
  });

  test('a chamber with an outlet and a crest holds up what is in it, and no more', () => {
    const stages = stagesOf(
      [{ name: 'd', at: 400, top: 150 }],
      outletAt('drain', 60, 40) + outletAt('e', 700, 12) + inflowAt(20, 750),
    );
    const level = halving(150, 260, (z) => round(12, z - bedAt(694)) + crest(400, z - 150) < litres(20));
    expect(fromBack(stages)[0].level! - level).toBeLessThan(0.02);
    const { drainBack, films } = stages.water().holdUp();
    // Behind the divider up to its level, before it up to that of its outlet: the first by hand.
    const behind = 400 * 399.76 * (level - bedAt(600));
    expect(drainBack - films).toBeGreaterThan(behind);
    expect(drainBack - films).toBeLessThan(behind + 2e6);
  });
});

describe('random chambers, an inflow anywhere', () => {
  test('all that runs in comes to an end, and no number leaves what a tub can have', () => {
    fc.assert(
      fc.property(arbitraryChambers, fc.nat(), fc.integer({ min: 1, max: 40 }), ({ tub }, pick, perMinute) => {
        const panel = pick % tub.panels.length;
        const inflow = { name: 'tap', at: 0, panel, point: undefined, rateMm3S: litres(perMinute), solids: undefined };
        const water = waterOf({ ...tub, inflows: [inflow] }, buildShape(tub));
        const [{ ends }] = water.flows();
        expect(ends.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
        expect(
          ends.filter(({ kind }) => kind === 'unresolved').reduce((sum, { share }) => sum + share, 0),
        ).toBeLessThan(1e-9);
        // An outlet takes what its head lets it, and no more; one that takes nothing stands above the water.
        for (const { rateMm3S, lip, waterLevel } of water.outlets()) {
          expect(rateMm3S).toBeLessThanOrEqual(litres(perMinute) * (1 + 1e-9));
          if (rateMm3S > 0) expect(waterLevel).toBeGreaterThan(lip);
        }
        const { drainBack, pools, total } = water.holdUp();
        expect(drainBack + pools).toBe(total);
        expect(Number.isFinite(total) && drainBack >= 0 && pools >= 0).toBe(true);
        // No chamber stands higher than the whole tub full with all of the inflow over a hand's breadth of rim.
        for (const { level = 0 } of water.chambersAtWork()) expect(level).toBeLessThan(400);
      }),
      { numRuns: casesOf(20), seed: 20261130 },
    );
  });
});

test.each([20, 400])(
  '%d waters in a row over crests of any height stand as each by itself over the next one',
  (count) => {
    // What runs through is the same everywhere: from the outlet back, each level by halving, over a crest that may be drowned.
    const rate = 3e5;
    const tops = Array.from({ length: count }, (_, i) => 100 + ((i * 7919) % 211));
    const links = tops.map((top, i): Link => ({
      between: [i, i + 1],
      bottom: top,
      flow: (high, low) => overCrest({ from: top, to: top, length: 300 }, high, low),
      reaches: (end) => [[end === 0 ? i + 1 : i, 1]],
    }));
    const takes = (level: number): number => round(60, level);
    const network = {
      inflow: [rate, ...tops.map(() => 0)],
      start: [...tops.map((top, i) => Math.min(top, tops[i - 1] ?? Infinity)), 0],
      links,
      drains: [{ node: count, takes }],
    };
    const wanted = new Array<number>(count + 1);
    wanted[count] = halving(0, 1000, (level) => takes(level) < rate);
    for (let i = count - 1; i >= 0; i--) {
      const behind = wanted[i + 1];
      wanted[i] = halving(Math.max(tops[i], behind), 1000, (level) => links[i].flow(level, behind) < rate);
    }
    levelsOf(network).forEach((level, i) => expect(Math.abs(level - wanted[i])).toBeLessThan(1e-6));
  },
);
