/** Panels that were found standing to level tell of the bends between them; sums worked by hand. */
import { describe, expect, it } from 'vitest';
import { deviationsOf, worthOf } from '../../../src/analysis/built/worth.js';
import { reportOf } from '../../../src/analysis/report/report.js';
import type { MadeStrip } from '../../../src/analysis/built/as-made.js';
import { analyseText } from '../../support/analyse-text.js';

const DEG = Math.PI / 180;
const text = (made: string): string =>
  `units mm
sheet skin = stainless thickness 1.2 radius 1.6 k 0.42
strip ramp of skin from (0, 0, 300) heading back across right 240 {
    panel back  50  falling 90 deg
    panel s1   120  falling 6 deg
    panel d1    60  falling 62 deg
    panel s2   120  falling 6 deg
    panel lip   30  rising 40 deg
}
side left  of ramp closes ramp.left  up to 300
${made}`.replace('side left  of ramp', 'side left  of skin');
const stripOf = (made: string): MadeStrip =>
  analyseText(text(`made ramp {\n${made}\n}`), { rules: [] }).stages.built.strips[0];
const turnsOf = ({ folding }: MadeStrip): number[] => folding.turns.map((turn) => Math.abs(turn) / DEG);
const slopesOf = ({ profile, moved }: MadeStrip): number[] =>
  moved.turned.map((by, leg) => {
    const [a, b] = [profile.points[leg], profile.points[leg + 1]];
    return (Math.atan2(b[1] - a[1], b[0] - a[0]) + by) / DEG;
  });

describe('slopes that were found', () => {
  it('tell the one bend between two panels that was not read: the strip is as with that reading typed', () => {
    // From 5.1 down to 60.4 down: 55.3; from 60.4 down to 41.5 up beyond a bend that read 55: 46.9.
    const found = stripOf(
      'panel s1 stands 5.1 deg  panel d1 stands 60.4 deg  panel lip stands 41.5 deg  bend d1 s2 reads 55 deg',
    );
    expect(found.open).toEqual([0]);
    const [, a, b, c] = turnsOf(found);
    expect(a).toBeCloseTo(55.3, 9);
    expect(b).toBeCloseTo(55, 9);
    expect(c).toBeCloseTo(46.9, 9);
    const [, s1, d1, , lip] = slopesOf(found);
    expect([s1, d1, lip]).toEqual([-5.1, -60.4, 41.5].map((each) => expect.closeTo(each, 9) as number));
    const typed = stripOf(
      'panel s1 stands 5.1 deg  bend s1 d1 reads 55.3 deg  bend d1 s2 reads 55 deg  bend s2 lip reads 46.9 deg',
    );
    found.moved.by.forEach((by, i) => by.forEach((each, k) => expect(each).toBeCloseTo(typed.moved.by[i][k], 6)));
  });

  it('and readings that miss one another share what is left by least squares', () => {
    // Two slopes and one reading say 55.6 and 55: 0.6 is left, of which each of the three takes a third.
    const found = stripOf('panel s1 stands 5 deg  panel d1 stands 60.6 deg  bend s1 d1 reads 55 deg');
    expect(turnsOf(found)[1]).toBeCloseTo(55.2, 9);
    const [, s1, d1] = slopesOf(found);
    expect(s1).toBeCloseTo(-5.2, 9);
    expect(d1).toBeCloseTo(-60.4, 9);
  });

  it('leave bends open that are two between them, and say nothing where they agree with the plan', () => {
    expect(stripOf('panel s1 stands 5 deg  panel s2 stands 7 deg').open).toEqual([0, 1, 2, 3]);
    const { stages } = analyseText(text('made ramp { panel s1 stands 6 deg  panel d1 stands 62 deg }'), { rules: [] });
    expect(stages.built.isAsPlanned).toBe(true);
    expect(stages.planned()).toBeUndefined();
  });

  it('say of a wall by plan upright to which side it leans only where the bends were read', () => {
    expect(stripOf('panel back stands 88 deg  panel s1 stands 6 deg').open).toContain(0);
    const leaning = stripOf('panel back stands 88 deg  panel s1 stands 6 deg  bend back s1 reads 86 deg');
    // Beyond upright: -92 to -6 is 86.
    expect(turnsOf(leaning)[0]).toBeCloseTo(86, 9);
    expect(slopesOf(leaning)[0]).toBeCloseTo(-92, 9);
  });

  it('that cannot go together change nothing, and are told', () => {
    const wrong = 'panel s1 stands 5 deg  panel d1 stands 30 deg  bend s1 d1 reads 56 deg';
    expect(turnsOf(stripOf(wrong))[1]).toBeCloseTo(56, 9);
    const { findings } = analyseText(text(`made ramp { ${wrong} }`));
    expect(findings.filter(({ code }) => code === 'made/far-off')).toHaveLength(2);
  });

  it('give what follows from them their own worth, and their name in the report', () => {
    const made = 'panel s1 stands 5.1 deg  panel d1 stands 60.4 deg  gauge within 0.3 deg';
    const { stages } = analyseText(text(`made ramp {\n${made}\n}`), { rules: [] });
    const [strip] = stages.built.strips;
    const worth = worthOf(strip.task, strip.folding.turns, deviationsOf(stages.tub, strip.made, strip));
    // A panel that was found standing is as certain as that, whatever lies between; the strip is leaned by the mean of both.
    expect(worth.slopes[1] / DEG).toBeCloseTo(0.3 / Math.sqrt(3), 6);
    expect(worth.slopes[2] / DEG).toBeCloseTo(0.3 / Math.sqrt(3), 6);
    const rows = reportOf(stages).made!.bends;
    expect(rows[1]).toMatchObject({ state: 'slopes', read_deg: null, planned_deg: 56, made_deg: 55.3, off_deg: -0.7 });
    expect(stages.flats()[0]!.bends.filter(({ isMade }) => isMade)).toHaveLength(1);
  });
});
