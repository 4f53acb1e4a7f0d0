import { describe, expect, it } from 'vitest';
import { learnedFrom, lessonsOf } from '../../../src/analysis/built/learned.js';
import { analyseText } from '../../support/analyse-text.js';
import { BASIN_PROFILE as POINTS, drawnTurns, foldLegs, type CutStrip } from '../../support/oracles/fold-as-read.js';

const DEG = Math.PI / 180;

/** Lengths along the profile and its slopes, for the text. */
const legs = POINTS.slice(1).map(([x, z], i) => {
  const [a, b] = POINTS[i];
  return { length: Math.hypot(x - a, z - b), slope: Math.atan2(z - b, x - a) / DEG };
});

describe('what readings teach', () => {
  it('K comes back from legs that were taped on metal of another K, springback from what the brake was set to', () => {
    const strip: CutStrip = { points: POINTS, thickness: 1.5, radius: 2, kFactor: 0.4 };
    const turns = drawnTurns(strip).map((turn, i) => turn + Math.sign(turn) * [0.4, -0.9, 0.7, -0.3][i] * DEG);
    // Cut by 0.4, of metal that has 0.33: between its bend lines each leg keeps less in its arcs, so that more stays straight.
    const folded = foldLegs(strip, { turns });
    const longer = (leg: number): number =>
      ((Math.abs(turns[leg - 1]) + Math.abs(turns[leg])) * 1.5 * (0.4 - 0.33)) / 2;
    const outside = (leg: number): number => {
      const [[a, b], [c, d]] = folded[leg].sharp;
      const corner = (turn: number): number => (turn > 0 ? 1.5 * Math.tan(turn / 2) : 0);
      return Math.hypot(c - a, d - b) + longer(leg) + corner(turns[leg - 1]) + corner(turns[leg]);
    };
    const text = `units mm
sheet skin = steel thickness 1.5 radius 2 k 0.4
strip floor of skin from (0, 0, 200) heading back across right 300 {
${legs.map(({ length, slope }, i) => `panel p${i} ${length} ${slope < 0 ? 'falling' : 'rising'} ${Math.abs(slope)} deg`).join('\n')}
}
made floor standing on p1 {
${turns.map((turn, i) => `bend p${i} p${i + 1} reads ${Math.abs(turn) / DEG} deg bent to ${Math.abs(turn) / DEG + [1, 1.2, 0.9, 1.1][i]} deg`).join('\n')}
${[1, 2, 3].map((leg) => `panel p${leg} measures ${outside(leg)} over outside`).join('\n')}
}`;
    const { stages } = analyseText(text, { rules: [] });
    const learned = learnedFrom(lessonsOf(stages.tub, stages.built.strips, () => 12))!;
    expect(learned.kFactor).toMatchObject({ count: 3 });
    expect(learned.kFactor!.value).toBeCloseTo(0.33, 6);
    expect(learned.springbacks[0].learned.value / DEG).toBeCloseTo(1.05, 9);
    // Of 1, 1.2, 0.9, 1.1: s = 0.129099, over the root of 4.
    expect(learned.springbacks[0].learned.deviation! / DEG).toBeCloseTo(0.0645497, 6);
  });
});
