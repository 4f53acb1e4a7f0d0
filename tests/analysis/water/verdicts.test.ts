/** What is told of water whose ways out are uncommon: spouts, bent tops, dividers as high as the rim. Closed forms beside each. */
import { describe, expect, test } from 'vitest';
import type { Analysis } from '../../../src/language/analyse.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import type { Water } from '../../../src/analysis/water/water.js';
import { analyseText, codesOf } from '../../support/analyse-text.js';
import { BOX, boxVolume, inflowAt, outletAt, partedBox } from '../../support/tubs/parted-box.js';

const waterOf = ({ tub }: Analysis): Water => createStages(tub).water();
const litres = (perMinute: number): number => (perMinute * 1e6) / 60;
const drain = outletAt('drain', 60, 40);

describe('the top of a divider that is bent over', () => {
  // The outside of the bend is a round of radius R = r + t; turned by 120 deg its sharp corner lies R tan 60 above where the round
  // begins, the top of the round R above that.
  test.each([
    ['out', 2],
    ['in', 2],
    ['out', 6],
  ])('turned %s at radius %d is the top of its round', (way, radius) => {
    const cap = `flange cap on d.top turned ${way} 120 deg by 20 radius ${radius}\nseam cap left { weld tig }\nseam cap right { weld tig }\n`;
    const text = partedBox([{ name: 'd', at: 400, top: 150 }], cap + drain);
    const round = radius + BOX.sheet;
    const [behind, before] = waterOf(analyseText(text)).chambers();
    const crest = 150 - round * (Math.tan(Math.PI / 3) - 1);
    expect(behind.level).toBeCloseTo(crest, 9);
    expect(before.level).toBeCloseTo(crest, 9);
    expect(behind.spill.width).toBeCloseTo(BOX.wide, 6);
    // Both chambers and the metal under the crest are the box: the sheet of the divider, and the cap with its round.
    const metal = boxVolume(0.5, BOX.backY, crest) - behind.volume - before.volume;
    expect(metal).toBeGreaterThan(BOX.wide * BOX.sheet * 118);
    expect(metal).toBeLessThan(BOX.wide * BOX.sheet * (124 + 20) + boxVolume(0.48, 0.5, crest));
  });
});

describe('a spout as the way out', () => {
  const basins = (front: string): string => `units mm
sheet skin = stainless thickness 1.5 radius 2
strip u of skin from (0, 800, 420) heading front across right 300 {
    panel back to z 300 falling 90 deg
    panel bed 200 falling 2 deg
    panel front to z 360 rising 80 deg
}
side ul of skin closes u.left up to 420
side ur of skin closes u.right up to 420
seam ul u { weld tig }
seam ur u { weld tig }
${front}
strip w of skin from (-20, 640, 250) heading front across right 340 {
    panel back to z 60 falling 90 deg
    panel bed 420 falling 2 deg
    panel front to z 250 rising 80 deg
}
side wl of skin closes w.left up to 250
side wr of skin closes w.right up to 250
seam wl w { weld tig }
seam wr w { weld tig }
outlet dr in w.bed at (150, 260, 60 - 380 * tan(2 deg)) diameter 40 { lip 15 }
inflow 15 L/min on u.bed`;

  test('onto a lower basin of the same tub: both outlets pass all of it, and it ends once', () => {
    const analysis = analyseText(basins('outlet m spout over u.front.end'));
    const water = waterOf(analysis);
    expect(codesOf(analysis)).not.toContain('drain/outlet-starved');
    const [mouth, lower] = water.outlets();
    for (const { rateMm3S } of [mouth, lower]) expect(rateMm3S / litres(15)).toBeCloseTo(1, 9);
    expect(mouth.againMm3S / litres(15)).toBeCloseTo(1, 9);
    expect(water.flows()[0].ends.map(({ kind, share }) => [kind, share])).toEqual([['outlet', expect.closeTo(1, 9)]]);
    // Critical depth of an ideal broad crest: Q = b sqrt(g) (2 h / 3)^1.5.
    const head = 1.5 * Math.cbrt((litres(15) / 300) ** 2 / 9806.65);
    expect(mouth.head).toBeCloseTo(head, 6);
    expect(water.chambers().map(({ spill }) => spill.into)).toEqual([1, undefined]);
  });

  test('what falls over a rim into a lower basin is told as running into it', () => {
    const water = waterOf(analyseText(basins('rim u.front.end')));
    expect(water.chambers()[0].spill.into).toBe(1);
  });

  test('what stands behind the rising end of a chute is told as with any other outlet', () => {
    const text = `units mm
sheet skin = stainless thickness 1.2 radius 1.6
strip chute of skin from (0, 700, 420) heading front across right 240 {
    panel back   80   falling 90 deg
    panel pan    300  falling 4 deg
    panel nose   60   rising 60 deg
}
side left  of skin closes chute.left  up to 420
side right of skin closes chute.right up to 420
seam left  chute { weld tig }
seam right chute { weld tig }
inflow 20 L/min on chute.pan
outlet m spout over chute.end`;
    const pool = analyseText(text).findings.find(({ code }) => code === 'drain/pool');
    expect(pool?.values?.depth_mm).toBeCloseTo(60 * Math.sin(Math.PI / 3), 6);
  });
});

describe('dividers as high as the rim and higher', () => {
  const box = (top: number): Analysis =>
    analyseText(partedBox([{ name: 'd', at: 400, top }], drain + outletAt('second', 700, 40)));

  test.each([BOX.rim, BOX.rim + 50])('up to %d: two waters, each to the rim', (top) => {
    const analysis = box(top);
    expect(codesOf(analysis)).not.toContain('shape/seam-apart');
    const levels = waterOf(analysis)
      .chambers()
      .map(({ level }) => level);
    expect(levels).toEqual([BOX.rim, BOX.rim].map((rim) => expect.closeTo(rim, 9)));
  });

  test('one without an outlet behind it is told once, what it holds back as an information', () => {
    const analysis = analyseText(partedBox([{ name: 'd', at: 400, top: BOX.rim }], drain));
    const found = analysis.findings.filter(({ code }) => code === 'drain/no-way-out');
    const [behind] = waterOf(analysis).chambers();
    expect(found.map(({ values }) => values?.volume_L)).toEqual([expect.closeTo(behind.volume / 1e6, 9)]);
    const held = analysis.findings.filter(({ code, values }) => code === 'drain/pool' && values?.is_film === false);
    expect(held.map(({ severity }) => severity)).toEqual(['info']);
  });

  test('one with too little height left for its head says by how much', () => {
    const text = partedBox([{ name: 'd', at: 400, top: 250 }], outletAt('drain', 60, 60) + inflowAt(60, 750));
    const found = analyseText(text).findings.find(({ code }) => code === 'drain/crest-overwhelmed');
    // Q = 2/3 Cd b sqrt(2 g) h^1.5, Cd 0.62 (textbooks of hydraulics): what 60 L/min need over 400 mm.
    const head = (litres(60) / ((2 / 3) * 0.62 * 400 * Math.sqrt(2 * 9806.65))) ** (2 / 3);
    expect(found?.values?.head_needed_mm).toBeCloseTo(head, 6);
    expect(found?.values?.lower_mm).toBeCloseTo(250 + head - BOX.rim, 6);
  });
});

test('what a tub with a divider in it holds at a level is what stands on both sides of it', () => {
  const water = waterOf(analyseText(partedBox([{ name: 'd', at: 400, top: 200 }], drain)));
  const { level, volume } = water
    .curve()
    .filter((each) => each.level < 195)
    .at(-1)!;
  const metal = BOX.wide * BOX.sheet * (level - 26);
  expect(volume).toBeGreaterThan(boxVolume(0.5, BOX.backY, level) - 1.01 * metal);
  expect(volume).toBeLessThan(boxVolume(0.4, BOX.backY, level) - 0.99 * metal);
});
