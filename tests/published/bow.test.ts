/** Flats that bow under liquid, beyond the published ones of `cases/sheet.tsv`: differences on a grid, and walls by their text. */
import { describe, expect, test } from 'vitest';
import { reportOf } from '../../src/analysis/report/report.js';
import { bend, type BentPlate, type EdgeHold, type Plate } from '../../src/analysis/water/bow/plate.js';
import { openingBetween } from '../../src/analysis/water/bow/held-at-points.js';
import { analyseText } from '../support/analyse-text.js';

const within = (value: number, wanted: number, off: number): void =>
  expect(Math.abs(value - wanted), `${value} for ${wanted}`).toBeLessThanOrEqual(off);
const share = (value: number, wanted: number, part: number): void => within(value, wanted, Math.abs(wanted) * part);

const hold = (left: EdgeHold, right: EdgeHold, bottom: EdgeHold, top: EdgeHold): Plate['edges'] => ({
  ...{ left, right, bottom, top },
});
const TUB_WALL = hold('fixed', 'fixed', 'fixed', 'free');

/** Of stiffness D = 1 and thickness 1. */
const unit = (width: number, height: number, poisson: number): Omit<Plate, 'edges' | 'pressure'> => ({
  ...{ width, height, thickness: 1, youngsModulus: 12 * (1 - poisson ** 2), poisson, stiffener: 0 },
});
const bent = (plate: Plate): BentPlate => bend(plate)!;

describe('a wall built in at the floor and both sides, its rim free, liquid to the rim', () => {
  const wall = (high: number): BentPlate =>
    bent({ ...unit(1, high, 1 / 6), edges: TUB_WALL, pressure: { bottom: 1, fall: 1 / high } });

  // Differences of the energy on a grid of 40 by 40 and more, made for this test (derived): 0.0003624 and 0.0005658.
  test.each([
    [1.5, 0.0003624],
    [0.6, 0.0005658],
  ])('%d times as high as wide, against differences on a grid', (high, deflection) => {
    share(wall(high).deflection(0.5, 1), deflection, 0.01);
  });
});

describe('walls by their text', () => {
  const bows = (rim: string, walls = ''): ReturnType<typeof reportOf>['water']['bows'] =>
    reportOf(
      analyseText(`units mm
sheet skin = stainless thickness 1 radius 1
strip box of skin from (0, 400, 300) heading front across right 600 {
    panel back  to z 0  falling 90 deg
    panel bed   400     level
    panel front to z 300 rising 90 deg
}
side left  of skin closes box.left  up to 300
side right of skin closes box.right up to 300
seam left  box { weld tig }
seam right box { weld tig }
${walls}
${rim}`).stages,
    ).water.bows;
  const front = (list: ReturnType<typeof bows>): number =>
    list.find(({ panel }) => panel === 'box.front')!.bow_at_least_mm;

  test('a wall of 600 by 300 bows as the plate built in at three edges', () => {
    const edges = TUB_WALL;
    const plate = { width: 600, height: 300, thickness: 1, youngsModulus: 193e3, poisson: 0.3, stiffener: 0, edges };
    const fall = (998.2 * 9.80665) / 1e9;
    share(front(bows('rim box.front.end')), bent({ ...plate, pressure: { bottom: 300 * fall, fall } }).most, 0.001);
  });

  test('a hem and a flange along the rim stiffen it, a divider that is seamed to it halves its bay', () => {
    const bare = front(bows('rim box.front.end'));
    expect(front(bows('rim box.front.end hem closed 12'))).toBeLessThan(0.95 * bare);
    expect(front(bows('flange lip on box.front.end turned out 90 deg by 20'))).toBeLessThan(0.3 * bare);
    const wall = `point A = (300, 0, 0)  point B = (300, 400, 0)  point C = (300, 400, 280)  point D = (300, 0, 280)
panel mid of skin = A B C D
seam mid box.bed { weld tig }  seam mid box.front { weld tig }  seam mid box.back { weld tig }`;
    expect(front(bows('rim box.front.end', wall))).toBeLessThan(0.4 * bare);
  });
});

describe('an edge held at places', () => {
  // Derived: finite elements across the plate for each wave of the load, 200 cubic ones, worked once with NumPy.
  test.each([
    [0.2, 100, 0, 18000, 0.163155],
    [0.2, 100, 18, 18000, 0.150376],
    [0.4, 260, 18, 9000, 11.297],
  ])('%d N/mm every %d mm, %d mm wide, on a stiffness of %d N mm', (reaction, pitch, wide, rigidity, opens) => {
    share(openingBetween({ reaction, pitch, wide, rigidity, poisson: 0.3 }), opens, 2e-4);
  });
});

// Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, three edges supported and one free, even load (from memory): deflection
// in the middle of the free edge, as a share of q a4 / D, by the way across to the way along that edge; Poisson 0.3.
describe('a floor that nothing but sealant holds along one side', () => {
  test.each([
    [150, 0.0071],
    [300, 0.0129],
    [600, 0.0151],
  ])('%d mm wide opens as a plate with that edge free', (width, factor) => {
    const { findings } = analyseText(`units mm
sheet skin = stainless thickness 1.5 radius 1.5
sheet stiff = stainless thickness 4 radius 4
strip bed of skin from (0, 300, 200) heading front across right ${width} {
    panel back  200 falling 90 deg
    panel base  300 level
    panel front to z 200 rising 90 deg
}
side L of stiff closes bed.left up to 200
side R of stiff closes bed.right up to 200
seam L bed.back { weld tig }
seam L bed.base { sealant 0.1 }
seam L bed.front { weld tig }
seam R bed { weld tig }
outlet drain in bed.base at (${width / 2}, 60, 0) diameter 30 { lip 10 }`);
    const { values } = findings.find(({ code }) => code === 'seal/bow-opens')!;
    const load = (9.81e-9 * 998.2 * 200 * 300 ** 4) / ((193000 * 1.5 ** 3) / (12 * (1 - 0.3 ** 2)));
    share(values!.opens_mm as number, factor * load, 0.02);
  });
});
