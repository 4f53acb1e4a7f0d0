/** Ways out of a place: every told way, and every way that is told blocked, moved step by step in an independent solid modeller. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Manifold } from 'manifold-3d';
import { dot, type Vec3 } from '../../../../src/analysis/geometry/vec.js';
import type { Stages } from '../../../../src/analysis/stages/stages.js';
import { analyseText } from '../../../support/analyse-text.js';
import { casesOf } from '../../../support/cases.js';
import { seededUniform } from '../../../support/random/random.js';
import { solidKernel } from '../../../support/oracles/solid-kernel.js';

let kernel: Awaited<ReturnType<typeof solidKernel>>;
beforeAll(async () => {
  kernel = await solidKernel();
});

const HEADINGS: readonly Vec3[] = [[0, 0, 1], [0, -1, 0], [-1, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, -1]]; // prettier-ignore

/** A box that stands there, each of its sides as high as chance has it, its lid with a window; and a bent thing in it. */
const randomText = (uniform: () => number): string => {
  const within = (from: number, to: number): string => (from + (to - from) * uniform()).toFixed(2);
  const [s, r, n, f] = Array.from({ length: 4 }, () => (uniform() < 0.4 ? within(10, 60) : '118.5'));
  const [x0, y0] = [Number(within(5, 140)), Number(within(5, 90))];
  const window = `(${x0}, ${y0}, 120) to (${within(x0 + 10, 295)}, ${within(y0 + 10, 195)}, 120)`;
  const [leg, wide, deep] = [within(10, 60), within(40, 200), within(20, 120)];
  return `units mm
sheet skin = stainless thickness 1.2 radius 1.6
existing box {
    panel under of skin metal down = (0, 0, 0) (300, 0, 0) (300, 200, 0) (0, 200, 0)
    panel lid of skin metal up = (0, 0, 120) (300, 0, 120) (300, 200, 120) (0, 200, 120)
    cutout window in lid from ${window}
    panel sill of skin metal front = (0, 0, 0) (300, 0, 0) (300, 0, ${s}) (0, 0, ${s})
    panel rear of skin metal back = (0, 200, 0) (300, 200, 0) (300, 200, ${r}) (0, 200, ${r})
    panel near of skin metal left = (0, 0, 0) (0, 200, 0) (0, 200, ${n}) (0, 0, ${n})
    panel far of skin metal right = (300, 0, 0) (300, 200, 0) (300, 200, ${f}) (300, 0, ${f})
}
removable tray {
    strip pan of skin from (${within(5, 80)}, ${within(5, 60)}, ${within(5, 50)}) heading right across back ${deep} {
        panel bed ${wide} level
        panel end ${leg} rising ${within(30, 120)} deg
    }
}
`;
};

/** Where it stands, in cubic mm. */
const commonAt = (thing: Manifold, [x, y, z]: Vec3, room: Manifold): number => {
  const moved = thing.translate([x, y, z]);
  const both = moved.intersect(room);
  const volume = both.volume();
  both.delete();
  moved.delete();
  return volume;
};

/** mm. Less than sheet and wall are thick together, 2.4, so that neither steps over the other. */
const STEP = 2;
/** mm, of whole steps. So far apart second moves are tried. */
const TURNED_OFF = 24;
/** mm. Out of the box from any place in it. */
const FAR = 330;

const along = (way: Vec3, by: number, from: Vec3 = [0, 0, 0]): Vec3 =>
  from.map((at, k) => at + by * way[k]) as unknown as Vec3;

/** Is anything met on a straight way? */
const meets = (thing: Manifold, room: Manifold, from: Vec3, way: Vec3): boolean => {
  for (let at = 0; at <= FAR; at += STEP) if (commonAt(thing, along(way, at, from), room) > 0) return true;
  return false;
};

/** The most that is met on a straight way, from one place to another. */
const mostMet = (thing: Manifold, room: Manifold, from: Vec3, way: Vec3, by: number): number => {
  let most = 0;
  for (let at = 0; at <= by; at += STEP) most = Math.max(most, commonAt(thing, along(way, at, from), room));
  return most;
};

const solidsOf = (stages: Stages): { readonly thing: Manifold; readonly room: Manifold } => {
  const thing = kernel.solidOf(stages.folded()[0]!);
  const [first, ...rest] = stages.existing().map((slab) => kernel.solidOf(slab));
  return { thing, room: rest.reduce((sum, each) => sum.add(each), first) };
};

/** mm3. Up to 0.1 mm of what slides by gives way, over the width of what it slides by. */
const gives = (stages: Stages): number => 0.11 * stages.folded()[0]!.thickness * 900;

describe('a way out', () => {
  test('is free step by step, and one that is told blocked is not', () => {
    const uniform = seededUniform(53);
    const seen = { one: 0, two: 0, none: 0 };
    for (let i = 0; i < casesOf(5); i++) {
      const text = randomText(uniform);
      const { stages } = analyseText(text, { rules: [] });
      const [{ moves, blocked }] = stages.waysOut();
      const { thing, room } = solidsOf(stages);
      if (commonAt(thing, [0, 0, 0], room) > 1e-3) continue;
      seen[moves.length === 0 ? 'none' : moves.length === 1 ? 'one' : 'two']++;
      let from: Vec3 = [0, 0, 0];
      for (const { way, by = FAR } of moves) {
        expect(mostMet(thing, room, from, way, by), text).toBeLessThan(gives(stages));
        from = along(way, by, from);
      }
      // One move alone is told only where there is one: of what takes two, or has none, every heading meets something.
      if (moves.length !== 1) for (const way of HEADINGS) expect(meets(thing, room, [0, 0, 0], way), text).toBe(true);
      if (moves.length === 0) {
        expect(blocked!.depth).toBeGreaterThan(0.1);
        for (const way of HEADINGS) {
          for (let by = 0; by < 300 && commonAt(thing, along(way, by), room) < 1e-6; by += STEP) {
            if (by % TURNED_OFF > 0) continue;
            for (const then of HEADINGS)
              if (Math.abs(dot(way, then)) < 0.5) expect(meets(thing, room, along(way, by), then), text).toBe(true);
          }
        }
      }
    }
    expect(seen.one + seen.two).toBeGreaterThan(0);
  });

  const box = (sill: number, more = ''): string => `units mm
sheet skin = stainless thickness 1.2 radius 1.2
existing box {
    panel under of skin metal down = (0, 0, 0) (300, 0, 0) (300, 200, 0) (0, 200, 0)
    panel lid of skin metal up = (0, 0, 90) (300, 0, 90) (300, 200, 90) (0, 200, 90)
    panel sill of skin metal front = (0, 0, 0) (300, 0, 0) (300, 0, ${sill}) (0, 0, ${sill})
    panel rear of skin metal back = (0, 200, 0) (300, 200, 0) (300, 200, 90) (0, 200, 90)
    panel near of skin metal left = (0, 0, 0) (0, 200, 0) (0, 200, 90) (0, 0, 90)
    panel far of skin metal right = (300, 0, 0) (300, 200, 0) (300, 200, 90) (300, 0, 90)
}
removable tray {
    panel plate of skin metal down = (20, 20, 30) (280, 20, 30) (280, 180, 30) (20, 180, 30)
}
${more}`;

  test('lifts a tray over its sill and then takes it to the front, by as much as the sill is higher', () => {
    const [{ moves, after }] = analyseText(box(40)).stages.waysOut();
    expect(moves.map(({ way }) => way.map((share) => share + 0))).toEqual([[0, 0, 1], [0, -1, 0]]); // prettier-ignore
    // Its underside is at 28.8: 11.2 mm to the top of the sill, less what gives, and 2 mm to spare.
    expect(moves[0].by).toBeGreaterThan(11.1);
    expect(moves[0].by).toBeLessThan(13.3);
    expect(after).toEqual([]);
  });

  test('of two moves is told blocked by what the second lacks, where that is least', () => {
    // Below the lid it rises by 60 mm; over the sill it would have to by 89.3 - 28.8 = 60.5, less what gives.
    const { stages, findings } = analyseText(box(89.3));
    const [{ moves, blocked }] = stages.waysOut();
    expect(moves).toEqual([]);
    expect(blocked!.reach).toBeCloseTo(60, 6);
    expect(blocked!.depth).toBeCloseTo(0.4, 1);
    const told = findings.find(({ code }) => code === 'shape/does-not-come-out')!;
    expect(told.message).toMatch(/up it goes 60 mm, then to the front `box.sill` is in the way by 0.[45]/);
  });

  test('past what comes out by itself needs nothing to wait for', () => {
    const bar = `removable bar {\n    panel rail of skin metal back = (40, -10, 60) (260, -10, 60) (260, -10, 85) (40, -10, 85)\n    panel rail2 of skin metal back = (40, -10, 20) (260, -10, 20) (260, -10, 45) (40, -10, 45)\n    panel web of skin metal left = (40, -10, 20) (40, -10, 85) (40, -60, 85) (40, -60, 20)\n}\n`;
    const ways = analyseText(box(24, bar)).stages.waysOut();
    expect(ways.map(({ mover, moves, after }) => [mover.name, moves.length > 0, after])).toEqual([
      ['tray', true, []],
      ['bar', true, []],
    ]);
  });

  test('of two moves waits for what lies over the second of them', () => {
    const { stages } = analyseText(`units mm
sheet skin = stainless thickness 1.2 radius 1.6
existing rail {
    panel over of skin metal up = (0, 0, 40) (60, 0, 40) (60, 200, 40) (0, 200, 40)
}
removable low {
    panel plate of skin metal up = (20, 10, 0) (320, 10, 0) (320, 190, 0) (20, 190, 0)
}
removable high {
    panel lid of skin metal up = (90, 10, 80) (330, 10, 80) (330, 190, 80) (90, 190, 80)
}
existing room {
    panel sill of skin metal front = (-10, -5, -10) (800, -5, -10) (800, -5, 60) (-10, -5, 60)
    panel rear of skin metal back = (-10, 205, -10) (800, 205, -10) (800, 205, 60) (-10, 205, 60)
    panel near of skin metal left = (-5, -5, -10) (-5, 205, -10) (-5, 205, 60) (-5, -5, 60)
    panel far of skin metal right = (395, -5, -10) (395, 205, -10) (395, 205, 60) (395, -5, 60)
    panel under of skin metal down = (-10, -5, -5) (800, -5, -5) (800, 205, -5) (-10, 205, -5)
}
`, { rules: [] }); // prettier-ignore
    const [low, high] = stages.waysOut();
    expect(low.moves).toHaveLength(2);
    expect(low.after).toEqual([1]);
    expect([high.moves.length, high.after]).toEqual([1, []]);
  });

  test('of what is screwed up under a deck is down, without its screws; of what is welded there is none to tell', () => {
    const hung = (joint: string): string => `units mm
sheet skin = stainless thickness 1.2 radius 1.2
existing stall {
    panel deck of skin metal up = (-50, -50, 100) (250, -50, 100) (250, 150, 100) (-50, 150, 100)
}
panel rail of skin metal down = (0, 0, 100) (200, 0, 100) (200, 40, 100) (0, 40, 100)
panel web of skin = (0, 40, 100) (200, 40, 100) (200, 40, 60) (0, 40, 60)
bend rail web
${joint}`;
    const [way] = analyseText(hung('seam rail stall.deck { bolted M5 every 60 }')).stages.waysOut();
    expect(way).toMatchObject({ mover: { kind: 'bolted', parts: [0] }, moves: [{ by: undefined }] });
    expect(way.moves[0].way[2]).toBeCloseTo(-1, 9);
    expect(analyseText(hung('')).stages.waysOut()).toEqual([]);
  });

  test('of a cover on a thing of many panels is told of the cover alone', () => {
    const { stages } = analyseText(`units mm
sheet skin = stainless thickness 1.2 radius 1.2
strip floor of skin from (0, 200, 100) heading front across right 200 {
    panel back 80 falling 90 deg
    panel base 200 level
    panel front 80 rising 90 deg
}
panel cover of skin metal up = (0, -30, 101.2) (200, -30, 101.2) (200, 0, 101.2) (0, 0, 101.2)
flange ledge on floor.front.end turned out level by 30
seam ledge cover { bolted M5 every 60 }
`);
    expect(stages.waysOut().map(({ mover }) => mover.name)).toEqual(['cover']);
  });
});
