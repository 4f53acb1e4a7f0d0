/** Play in a seat: against numbers by hand, and against the same tub written with its bends off. */
import { describe, expect, test } from 'vitest';
import { analyseText } from '../../../support/analyse-text.js';
import { casesOf } from '../../../support/cases.js';
import { seededUniform } from '../../../support/random/random.js';

interface Frame {
  readonly play: number;
  readonly fall?: number;
  readonly wall?: number;
  readonly down?: number;
  readonly shop?: string;
}

/** A frame with sides turned down, in a trough whose front rises at an angle. */
const framed = ({ play, fall = 0, wall = 90, down = 90, shop = '' }: Frame): string => `units mm
sheet skin = stainless thickness 1.2 radius 1.6
panel back of skin = (0, 260, 20) (300, 260, 20) (300, 260, 120) (0, 260, 120)
strip bath of skin from (0, 260, 20) heading front across right 300 {
    panel bed ${260 / Math.cos((fall * Math.PI) / 180)} falling ${fall} deg
    panel front 100 rising ${wall} deg
}
removable sieve in bath.bed play 0.5 {
    panel deck of skin metal down = (5, ${play}, 90) (295, ${play}, 90) (295, ${260 - play}, 90) (5, ${260 - play}, 90)
    point P = (5, ${play}, 90) point Q = (295, ${play}, 90)
    flange frontWall on deck[P Q] turned down ${down} deg by 40
}
${shop}`;

const sidesOf = (text: string): Record<string, { gap: number; worst: number }> => {
  const [{ sides }] = analyseText(text).stages.plays();
  return Object.fromEntries(
    sides.map(({ way, gap, worst }) => [way[1] < -0.5 ? 'front' : way[1] > 0.5 ? 'back' : 'side', { gap, worst }]),
  );
};

describe('play in a seat', () => {
  test('is what is left between metal and metal on each side, by hand', () => {
    const uniform = seededUniform(61);
    for (let i = 0; i < casesOf(6); i++) {
      const play = 2 + 8 * uniform();
      const sides = sidesOf(framed({ play }));
      // The deck's edge at the back; at the front the flange, whose metal lies outside of its wet face.
      expect(sides.back.gap).toBeCloseTo(play, 6);
      expect(sides.front.gap).toBeCloseTo(play - (sides.front.gap < play - 0.6 ? 1.2 : 0), 6);
      // Both ends are open: nothing is met to the left and right.
      expect(sides.side).toBeUndefined();
    }
  });

  test('at worst is what the same things have with their bends off', () => {
    const exact = sidesOf(framed({ play: 6, shop: 'shop "s" { bends within 0.5 deg marks within 0 }' })).front;
    // Both lean towards one another: the frame's flange out, the wall of the trough in.
    const off = sidesOf(framed({ play: 6, wall: 90.5, down: 89.5 })).front;
    expect(exact.gap - exact.worst).toBeGreaterThan(0.3);
    expect(Math.abs(exact.worst - off.gap)).toBeLessThan(0.15);
    const marked = sidesOf(framed({ play: 6, shop: 'shop "s" { bends within 0.5 deg marks within 0.4 }' })).front;
    // A mark for each of the two bends, and one for where each of the two is set down.
    expect(exact.worst - marked.worst).toBeCloseTo(1.6, 1);
  });

  test('is measured in the plane of the seat', () => {
    const { stages } = analyseText(framed({ play: 4, fall: 5 }), { rules: [] });
    for (const { way } of stages.plays()[0].sides)
      expect(Math.abs(way[2])).toBeCloseTo(Math.abs(way[1]) > 0.5 ? Math.sin((5 * Math.PI) / 180) : 0, 6);
  });

  test('of what is in other metal is told by that alone', () => {
    const codes = analyseText(framed({ play: -20 })).findings.map(({ code }) => code);
    expect(codes).toContain('shape/metal-in-metal');
    expect(codes).not.toContain('shape/play-short');
  });
});
