/** Corners rounded by hand: what is meant to be one place is one, and nothing wanders. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, distance, lerp, scale, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import { HAND_ROUNDED } from '../../../src/analysis/model/tolerance.js';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { rules } from '../../../src/analysis/rules/registry.js';
import { findingsOf } from '../../../src/analysis/rules/run.js';
import { snapTub } from '../../../src/analysis/shape/contact/snap-corners.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';
import { mapTub, real } from '../../support/random/arbitrary-part.js';
import { arbitraryTub } from '../../support/random/arbitrary-tub.js';
import { seededUniform } from '../../support/random/random.js';
import { tubOf } from '../../support/tub-of.js';
import { textFixers } from '../../../src/language/lsp/fixes/text-fixes.js';
import { casesOf } from '../../support/cases.js';

/** Each corner of each panel moved by itself, by up to `most` in a random direction. */
const jittered = (tub: Tub, most: number, seed: number): Tub => {
  const uniform = seededUniform(seed);
  const within = (): number => 2 * uniform() - 1;
  return mapTub(tub, (corner) => {
    const way: Vec3 = [within(), within(), within()];
    return add(corner, scale(way, (most * uniform()) / Math.max(1, Math.hypot(...way))));
  });
};

const judging = rules.filter(({ code }) => /^(shape|bend|seal)\//.test(code));
const errorsOf = (tub: Tub): string[] =>
  findingsOf(createStages(tub), { rules: judging })
    .filter(({ severity }) => severity === 'error')
    .map(({ code, about }) => `${code} ${[...about].sort().join()}`)
    .sort();

/** Straight panels on one line, each beside the one before and so far off it. */
const rowOf = (offs: readonly number[]): Tub => {
  let z = 0;
  const panels = offs.map((off, i): [string, readonly Vec3[]] => {
    z += off;
    const [x, y] = [0, 10 * i];
    return [
      `p${i}`,
      [
        [x, y, z],
        [200, y, z],
        [200 + i, y + 300, z + 40 * (i + 1)],
        [x - i, y + 300, z + 40 * (i + 1)],
      ],
    ];
  });
  // All begin in one line: only the heights differ.
  return mapTub(tubOf({ panels: Object.fromEntries(panels) }), ([x, y, z2]) => [
    x,
    y % 10 === 0 && y < 200 ? 0 : y,
    z2,
  ]);
};

describe('corners rounded by hand', () => {
  it('bring no error that the same tub with exact corners does not have', () => {
    let told = 0;
    fc.assert(
      fc.property(arbitraryTub, fc.nat(1e6), ({ tub }, seed) => {
        const rounded = jittered(tub, 0.024, seed);
        expect(errorsOf(rounded)).toEqual(errorsOf(tub));
        told += findingsOf(createStages(rounded), { rules }).filter(
          ({ code }) => code === 'shape/corners-apart',
        ).length;
      }),
      { seed: 31, numRuns: casesOf(4) },
    );
    expect(told).toBeGreaterThan(10);
  });

  it('never move farther than the tolerance from where they are stated, however many stand in a row', () => {
    let moved = 0;
    fc.assert(
      fc.property(fc.array(real(0, 0.09), { minLength: 2, maxLength: 12 }), (offs) => {
        const tub = rowOf(offs);
        const { tub: snapped, snaps } = snapTub(tub);
        moved += snaps.length;
        snapped.panels.forEach(({ corners }, i) =>
          corners.forEach((corner, k) => {
            expect(distance(corner, tub.panels[i].corners[k])).toBeLessThanOrEqual(HAND_ROUNDED);
          }),
        );
        const starts = snapped.panels.map(({ corners }) => corners[0]);
        const all = offs.slice(1).reduce((sum, off) => sum + off, 0);
        if (all <= HAND_ROUNDED)
          for (const start of starts) expect(distance(start, starts[0])).toBeLessThanOrEqual(1e-3);
      }),
      { seed: 32, numRuns: casesOf(30) },
    );
    expect(moved).toBeGreaterThan(25);
  });

  it('in the middle of an edge are put onto it, also when that edge is put onto another', () => {
    fc.assert(
      fc.property(real(0.0011, 0.024), real(0.0011, 0.024), real(0.1, 0.9), (off, rise, share) => {
        const at = lerp([0, 0, 0], [300, 0, 0], share);
        const floor: Vec3[] = [[0, 0, 0], [300, 0, 0], [300, 200, 0], [0, 200, 0]]; // prettier-ignore
        const wall: Vec3[] = [[0, 0, rise], [300, 0, rise], [300, 0, 90], [0, 0, 90]]; // prettier-ignore
        const rib: Vec3[] = [[at[0], off, 0], [at[0] + 20, off, 0], [at[0] + 20, -60, -40], [at[0], -60, -40]]; // prettier-ignore
        const { tub, snaps } = snapTub(tubOf({ panels: { floor, wall, rib } }));
        expect(snaps).toHaveLength(4);
        const { faces } = createStages(tub).shape();
        const mates = faces[2].stretches.flat().flatMap((stretch) => stretch.mates.map((mate) => mate.face));
        expect(mates.sort()).toEqual([0, 1]);
      }),
      { seed: 33, numRuns: casesOf(8) },
    );
  });

  it('of one panel are never made one, nor are those at the short edge that a neighbour shares', () => {
    const notch: Vec3[] = [[0, 0, 0], [100, 0, 0], [100, 0.04, 0], [100, 80, 0], [0, 80, 0]]; // prettier-ignore
    const beside: Vec3[] = [[100, 0.04, 0], [100, 80, 0], [150, 80, 30], [150, 0.04, 30]]; // prettier-ignore
    const tub = tubOf({ panels: { notch, beside } });
    expect(snapTub(tub)).toEqual({ tub, snaps: [] });
  });

  it('stay the objects they were when nothing is off', () => {
    fc.assert(
      fc.property(arbitraryTub, ({ tub }) => {
        expect(snapTub(tub).tub).toBe(tub);
      }),
      { seed: 34, numRuns: casesOf(4) },
    );
  });
});

describe('the fix of corners apart', () => {
  const text = (corner: string): string => `units mm
sheet skin = stainless thickness 1.2 radius 1.2
point A = (0, 0, 0)
panel base of skin = A (300, 0, 0) (300, 200, 0) (0, 200, 0)
panel wall of skin = (0, 0.03, 0) ${corner} (300, -30, 190) (0, -30, 190)
bend base wall
`;

  it('writes what the other panel says, and then nothing is found', () => {
    const analysis = analyseText(text('(300, 0, 0.02)'));
    const finding = analysis.findings.find(({ code }) => code === 'shape/corners-apart')!;
    const [fix] = textFixers[finding.code](finding, analysis);
    expect(fix.edits.map(({ newText }) => newText)).toEqual(['A', '(300, 0, 0)']);
    const fixed = analysis.document.textDocument;
    let content = fixed.getText();
    for (const { range, newText } of [...fix.edits].reverse())
      content = content.slice(0, fixed.offsetAt(range.start)) + newText + content.slice(fixed.offsetAt(range.end));
    expect(analyseText(content).findings.filter(({ code }) => /^(shape|bend)\//.test(code))).toEqual([]);
  });
});
