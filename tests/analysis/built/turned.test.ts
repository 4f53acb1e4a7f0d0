/** Bends of panels by points and of flanges as they were read, against a fold of the same profile that shares no code. */
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import { analyseText } from '../../support/analyse-text.js';
import { BASIN_PROFILE as POINTS, drawnTurns, foldLegs, type CutStrip } from '../../support/oracles/fold-as-read.js';

const DEG = Math.PI / 180;
const STRIP: CutStrip = { points: POINTS, thickness: 1.5, radius: 2, kFactor: 0.4 };
const OFF = [0.9, -1.4, 2.1, -0.6];

const gapsBetween = (points: readonly (readonly number[])[]): number[] =>
  points.flatMap((a, i) => points.slice(i + 1).map((b) => Math.hypot(...a.map((each, k) => each - b[k]))));

/** Corners of the profile on the left edge. */
const leftEdge = (corners: readonly (readonly Vec3[])[]): Vec3[] => [corners[0][0], ...corners.map((each) => each[3])];

const panels = POINTS.slice(1)
  .map(([y, z], i) => {
    const [fromY, fromZ] = POINTS[i];
    return `panel p${i} of skin = (0, ${fromY}, ${fromZ}) (300, ${fromY}, ${fromZ}) (300, ${y}, ${z}) (0, ${y}, ${z})`;
  })
  .join('\n');
const bends = OFF.map((_, i) => `bend p${i} p${i + 1}`).join('\n');
const SHEET = 'units mm\nsheet skin = steel thickness 1.5 radius 2 k 0.4\n';
const turns = drawnTurns(STRIP).map((turn, i) => turn + Math.sign(turn) * OFF[i] * DEG);
const read = (made: string): string =>
  `${made} {\n${turns.map((turn, i) => `bend p${i} p${i + 1} reads ${Math.abs(turn) / DEG} deg`).join('\n')}\n}\n`;

describe('panels by points', () => {
  it.each(['made p1', 'made p1 standing on p3'])('%s: lie as an independent fold of what was read has them', (made) => {
    const { tub } = analyseText(`${SHEET}${panels}\n${bends}\n${read(made)}`, { rules: [] }).stages;
    const legs = foldLegs(STRIP, { turns });
    const own = [legs[0].sharp[0], ...legs.map(({ sharp }) => sharp[1])];
    const has = gapsBetween(leftEdge(tub.panels.map(({ corners }) => corners)));
    gapsBetween(own).forEach((needs, i) => expect(has[i]).toBeCloseTo(needs, 9));
    // What it stands on leans as it was drawn.
    if (!made.endsWith('p3')) return;
    const [from, to] = [POINTS[3], POINTS[4]];
    const [a, , , b] = tub.panels[3].corners;
    expect(Math.atan2(b[2] - a[2], b[1] - a[1])).toBeCloseTo(Math.atan2(to[1] - from[1], to[0] - from[0]), 9);
  });

  it('that read as planned change nothing', () => {
    const planned = drawnTurns(STRIP).map((turn, i) => `bend p${i} p${i + 1} reads ${Math.abs(turn) / DEG} deg`);
    const drawn = analyseText(`${SHEET}${panels}\n${bends}\n`, { rules: [] }).stages.tub;
    const made = analyseText(`${SHEET}${panels}\n${bends}\nmade p1 { ${planned.join(' ')} }\n`, { rules: [] }).stages;
    expect(made.tub.panels.map(({ corners }) => corners)).toEqual(drawn.panels.map(({ corners }) => corners));
    expect(made.planned()).toBeUndefined();
  });
});

describe('flanges', () => {
  const text = `${SHEET}strip floor of skin from (0, 0, 100) heading front across right 200 {
    panel back 100 falling 90 deg
    panel base 300 falling 3 deg
}
flange rail on floor.end turned up 90 deg by 40
flange lip on rail.end turned out 90 deg by 15
hole in rail at center(rail) diameter 6
`;

  it('turn about their line with what stands on them, the strip under them as it came out', () => {
    const { stages } = analyseText(
      `${text}made floor standing on base { bend back base reads 88 deg  bend base rail reads 88.5 deg }\n`,
      { rules: [] },
    );
    const drawn = stages.planned()!;
    const turn = (of: typeof stages, a: string, b: string): number =>
      of.shape().bends.find(({ name }) => name.includes(a) && name.includes(b))!.angle / DEG;
    expect(turn(stages, 'back', 'base')).toBeCloseTo(88, 9);
    expect(turn(stages, 'base', 'rail')).toBeCloseTo(88.5, 9);
    expect(turn(stages, 'rail', 'lip')).toBeCloseTo(turn(drawn, 'rail', 'lip'), 9);
    // What is cut keeps its flat, but for what both ways of reckoning a bend line round off.
    const flat = (of: typeof stages) => of.flats()[0]!;
    const sizeOf = ({ outline }: ReturnType<typeof flat>): number[] => {
      const [x, y] = [outline.map((each) => each.x), outline.map((each) => each.y)];
      return [Math.max(...x) - Math.min(...x), Math.max(...y) - Math.min(...y)];
    };
    sizeOf(flat(stages)).forEach((size, i) => expect(size).toBeCloseTo(sizeOf(flat(drawn))[i], 6));
    const [hole] = stages.tub.openings;
    const rail = stages.tub.panels.find(({ name }) => name === 'rail')!;
    const away = (point: Vec3): number => {
      const [o, u, , v] = rail.corners;
      const e = u.map((each, i) => each - o[i]);
      const f = v.map((each, i) => each - o[i]);
      const n = [e[1] * f[2] - e[2] * f[1], e[2] * f[0] - e[0] * f[2], e[0] * f[1] - e[1] * f[0]];
      return point.reduce((sum, each, i) => sum + (each - o[i]) * n[i], 0) / Math.hypot(...n);
    };
    expect(hole.shape.kind === 'round' && away(hole.shape.center)).toBeCloseTo(0, 6);
  });
});
