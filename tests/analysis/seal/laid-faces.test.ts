/** Faces laid on one another below the water: two halves of a tub on a gasket, a lid on a trough, any way round. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reportFaces } from '../../../src/analysis/report/joining/faces.js';
import { rules } from '../../../src/analysis/rules/registry.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { analyseText, codesOf } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';

type Point = readonly [number, number, number];

interface Halves {
  readonly lengths: readonly [number, number];
  readonly deep: number;
  readonly high: number;
  readonly frame: number;
  readonly gasket: number;
  readonly pressed: number;
  /** Level to which the frames go, mm. */
  readonly framed: number;
  /** Of the second half over the first, mm. */
  readonly step: number;
  /** rad, about z. */
  readonly turn: number;
  readonly seam: string;
}

const HALVES: Halves = {
  lengths: [300, 200],
  deep: 240,
  high: 120,
  frame: 30,
  framed: 120,
  gasket: 3,
  pressed: 30,
  step: 0,
  turn: 0,
  seam: 'bolted M6 every 50',
};

/** Two boxes open to one another, each with a frame of flat sheet round its open end, by points alone. */
const halvesText = (halves: Halves): string => {
  const { lengths, deep, high, frame, framed, gasket, pressed, step, turn, seam } = halves;
  const gap = gasket * (1 - pressed / 100);
  const at = ([x, y, z]: Point): string =>
    `(${[x * Math.cos(turn) - y * Math.sin(turn), x * Math.sin(turn) + y * Math.cos(turn), z].map((value) => value.toFixed(9)).join(', ')})`;
  const panel = (name: string, corners: readonly Point[]): string =>
    `panel ${name} of skin = ${corners.map(at).join(' ')}`;
  const half = (name: string, end: number, open: number, low: number): string => {
    const top = high;
    return `part ${name} {
    ${panel('bed', [
      [end, 0, low],
      [open, 0, low],
      [open, deep, low],
      [end, deep, low],
    ])}
    ${panel('front', [
      [end, 0, low],
      [open, 0, low],
      [open, 0, top],
      [end, 0, top],
    ])}
    ${panel('back', [
      [end, deep, low],
      [open, deep, low],
      [open, deep, top],
      [end, deep, top],
    ])}
    ${panel('cheek', [
      [end, 0, low],
      [end, deep, low],
      [end, deep, top],
      [end, 0, top],
    ])}
    ${panel('collar', [
      [open, 0, framed],
      [open, 0, low],
      [open, deep, low],
      [open, deep, framed],
      [open, deep + frame, framed],
      [open, deep + frame, low - frame],
      [open, -frame, low - frame],
      [open, -frame, framed],
    ])}
    bend bed front  bend bed back
    seam cheek bed { weld tig }
    seam cheek front { weld tig }
    seam cheek back { weld tig }
    seam collar bed { weld tig }
    seam collar front { weld tig }
    seam collar back { weld tig }
}`;
  };
  return `units mm
sheet skin = stainless thickness 1.2 radius 1.2
${half('one', 0, lengths[0], 0)}
${half('other', lengths[0] + gap + lengths[1], lengths[0] + gap, step)}
seam one.collar other.collar { ${seam}${gasket > 0 ? ` gasket ${gasket} pressed ${pressed} %` : ''} }
`;
};

/** Findings that have to do with the joint. */
const told = (text: string): readonly string[] => codesOf(analyseText(text, { rules: ofJoints }));
const ofJoints = rules.filter(({ code }) => /^seal|^shape|faces|gasket|row-/.test(code));

/** L. Up to the rim, the outlet-less tub plugged by nature. */
const holds = (text: string): number =>
  (createStages(analyseText(text, { rules: [] }).tub)
    .water()
    .capacity() ?? 0) / 1e6;

describe('two halves on a gasket', () => {
  it('hold what both hold and what stands over the gasket, whatever their size and any way round', () => {
    const arbitrary = fc.record<Halves>({
      lengths: fc.tuple(fc.integer({ min: 60, max: 500 }), fc.integer({ min: 60, max: 500 })),
      deep: fc.integer({ min: 80, max: 400 }),
      high: fc.integer({ min: 40, max: 200 }),
      frame: fc.integer({ min: 30, max: 50 }),
      framed: fc.constant(0),
      gasket: fc.double({ min: 1, max: 5, noNaN: true }),
      pressed: fc.integer({ min: 5, max: 60 }),
      step: fc.constant(0),
      turn: fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
      seam: fc.constantFrom(
        'bolted M6 every 50',
        'bolted M6 every 60 heads on one.collar',
        'bolted M6 every 45 rivetnut in one.collar',
      ),
    });
    fc.assert(
      fc.property(arbitrary, (halves) => {
        const text = halvesText({ ...halves, framed: halves.high });
        const { lengths, deep, high, gasket, pressed } = halves;
        const long = lengths[0] + lengths[1] + gasket * (1 - pressed / 100);
        expect(holds(text)).toBeCloseTo((long * deep * high) / 1e6, 6);
        expect(told(text)).toEqual([]);
      }),
      { numRuns: casesOf(6), seed: 13 },
    );
  });

  // By hand: the gasket ends where the lower frame does, level with the lower bed; the higher half is 4 mm shallower.
  it('keep the step between their floors', () => {
    const text = halvesText({ ...HALVES, step: 4 });
    const byHand = 240 * ((300 + 2.1) * 120 + 200 * 116);
    expect(holds(text)).toBeCloseTo(byHand / 1e6, 6);
    expect(told(text)).toEqual([]);
  });

  it('leak where nothing lies between them, and where screws stand too far apart', () => {
    expect(told(halvesText({ ...HALVES, gasket: 0 }))).toEqual(['seal/open-face-joint']);
    const wide = analyseText(halvesText({ ...HALVES, seam: 'bolted M6 every 90' }), { rules: ofJoints }).findings;
    // By hand: 10 thread diameters; 240 mm of water line over the bed and 120 mm at each side.
    expect(wide.find(({ code }) => code === 'join/gasket-pitch')).toMatchObject({ severity: 'error' });
  });

  it('leak where the gasket ends below the water', () => {
    const found = told(halvesText({ ...HALVES, framed: 80 }));
    expect(found.filter((code) => code === 'seal/open-face-joint')).toHaveLength(2);
  });

  it('have screws all round, none farther from the next than asked', () => {
    const [row] = reportFaces(createStages(analyseText(halvesText(HALVES), { rules: [] }).tub));
    // By hand, along the middle of the frame: 270 mm below, 135 mm up each side, less what the round takes at the inner corners.
    expect(row.length_mm).toBeCloseTo(270 + 135 + 135, -1);
    expect(row.screws_count).toBe(6 + 3 + 3);
    expect(row.pitch_at_most_mm).toBeLessThanOrEqual(50);
  });
});

const lid = (x: number, bottom: number): string => `units mm
sheet skin = stainless thickness 1.5 radius 1.5
strip floor of skin from (0, 200, 100) heading front across right 300 {
    panel back  to z 10  falling 90 deg
    panel bed   to y 0   falling 0 deg
    panel front to z 100 rising 90 deg
}
side cheek of skin closes floor.left up to 100
seam cheek floor { weld tig }
panel frame of skin = (300, 200, 100) (300, 200, 10) (300, 0, 10) (300, 0, 100) (300, -30, 100) (300, -30, -20) (300, 230, -20) (300, 230, 100)
seam frame floor { weld tig }
panel lid of skin = (${x}, -30, 110) (${x}, 230, 110) (${x}, 230, ${bottom}) (${x}, -30, ${bottom})
seam frame lid { bolted M6 every 60 gasket 3 pressed 30 % }
`;

describe('a lid on the end of a trough', () => {
  it('closes it', () => {
    expect(told(lid(302.1, -20))).toEqual([]);
    // By hand.
    expect(holds(lid(302.1, -20))).toBeCloseTo((302.1 * 200 * 90) / 1e6, 6);
  });
});

/** A trough of two lengths: the end of the upper one lies in the lower one on a gasket. */
const lapped = (outer: number, gasket: number): string => `units mm
sheet inner = stainless thickness 1.5 radius 1.5
sheet outer = stainless thickness 1.5 radius ${outer}
let step = 1.5 + ${gasket} * (1 - 0.25)
strip low of outer from (0, 200, 100) heading front across right 400 {
    panel back  to z 0  falling 90 deg
    panel bed   to y 0   falling 0 deg
    panel front to z 100 rising 90 deg
}
strip high of inner from (-400, 200 - step, 100) heading front across right 440 {
    panel back  to z step  falling 90 deg
    panel bed   to y step  falling 0 deg
    panel front to z 100 rising 90 deg
}
side endLow of outer closes low.right up to 100
side endHigh of inner closes high.left up to 100
seam endLow low { weld tig }
seam endHigh high { weld tig }
seam high.bed low.bed { bolted M5 every 45 gasket ${gasket} pressed 25 % }
seam high.back low.back { bolted M5 every 45 gasket ${gasket} pressed 25 % }
seam high.front low.front { bolted M5 every 45 gasket ${gasket} pressed 25 % }
`;

describe('a trough that lies in another', () => {
  it('goes on round the corners of both where their rounds leave what the gasket fills', () => {
    // The gasket of 2 mm leaves 1.5 mm: the outer radius is the inner one, the sheet and that.
    expect(told(lapped(4.5, 2))).toEqual([]);
    // By hand: the inner trough ends 40 mm within the outer one.
    expect(holds(lapped(4.5, 2))).toBeCloseTo((440 * 194 * 97 + 360 * 200 * 100) / 1e6, 6);
  });

  it('leaks at its corners where they do not', () => {
    const corners = analyseText(lapped(1.5, 2)).findings.filter(({ code }) => code === 'seal/open-face-joint');
    expect(corners).toHaveLength(2);
    // By hand: 1.5 sqrt(2) and (3 - 1.5) (sqrt(2) - 1).
    expect(corners[0].values.gap_mm).toBeCloseTo(1.5 * Math.SQRT2 + 1.5 * (Math.SQRT2 - 1), 6);
  });
});

/** A rim of four walls that is bolted on a basin, flanges of both lying level on one another below the water. */
const RAISED = `units mm
sheet skin = stainless thickness 1.5 radius 1.5
let gap = 2.1
let top = 100 + gap
part low {
    strip floor of skin from (0, 300, 100) heading front across right 400 {
        panel back  to z 10  falling 90 deg
        panel bed   to y 0   falling 2 deg
        panel front to z 100 rising 90 deg
    }
    side l of skin closes floor.left up to 100
    side r of skin closes floor.right up to 100
    seam l floor { weld tig }
    seam r floor { weld tig }
    flange lipBack  on floor.back.start turned out level by 30 mitred
    flange lipFront on floor.front.end turned out level by 30 mitred
    flange lipLeft  on l.top turned out level by 30 mitred
    flange lipRight on r.top turned out level by 30 mitred
    seam lipBack lipLeft { weld tig }
    seam lipLeft lipFront { weld tig }
    seam lipFront lipRight { weld tig }
    seam lipRight lipBack { weld tig }
}
part high {
    point A = (0, 0, top)
    point B = (400, 0, top)
    point C = (400, 300, top)
    point D = (0, 300, top)
    panel a of skin = A B (400, 0, 160) (0, 0, 160)
    panel b of skin = B C (400, 300, 160) (400, 0, 160)
    panel c of skin = C D (0, 300, 160) (400, 300, 160)
    panel d of skin = D A (0, 0, 160) (0, 300, 160)
    seam a b { weld tig }
    seam b c { weld tig }
    seam c d { weld tig }
    seam d a { weld tig }
    flange la on a[A B] turned out level by 30 mitred
    flange lb on b[B C] turned out level by 30 mitred
    flange lc on c[C D] turned out level by 30 mitred
    flange ld on d[D A] turned out level by 30 mitred
    seam la lb { weld tig }
    seam lb lc { weld tig }
    seam lc ld { weld tig }
    seam ld la { weld tig }
}
seam low.lipFront high.la { bolted M6 every 55 gasket 3 pressed 30 % }
seam low.lipRight high.lb { bolted M6 every 55 gasket 3 pressed 30 % }
seam low.lipBack high.lc { bolted M6 every 55 gasket 3 pressed 30 % }
seam low.lipLeft high.ld { bolted M6 every 55 gasket 3 pressed 30 % }
`;

describe('a rim that is bolted on', () => {
  it('has its wet side inside though its flanges look down, and holds the liquid', () => {
    expect(told(RAISED)).toEqual([]);
    // By hand: the bed falls 2 deg over 300 mm from 10 mm; the rim goes up to 160.
    const mean = 160 - (10 - 150 * Math.tan((2 * Math.PI) / 180));
    expect(holds(RAISED)).toBeCloseTo((400 * 300 * mean) / 1e6, 6);
  });
});
