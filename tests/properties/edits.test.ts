/** What an edit leaves alone is kept from the run before: no outcome may show that there was one. */
import { casesOf } from '../support/cases.js';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Vec3 } from '../../src/analysis/geometry/vec.js';
import type { Panel, Tub } from '../../src/analysis/model/tub.js';
import { findingsOf } from '../../src/analysis/rules/run.js';
import { rules } from '../../src/analysis/rules/registry.js';
import { createStages } from '../../src/analysis/stages/stages.js';
import { analyseText } from '../support/analyse-text.js';
import { arbitraryDrainedTub } from '../support/random/arbitrary-tub.js';
import { tubOf } from '../support/tub-of.js';

const checks = rules.filter(({ code }) => /^(shape|drain|seal|join)\//.test(code));

/** Shape, water and findings, as text that does not tell the tub's name. */
const outcomeOf = (tub: Tub): string => {
  const stages = createStages(tub);
  const { faces, bends, faults } = stages.shape();
  const water = stages.water();
  const { points, mesh } = water.surface();
  const { borders, ...lists } = mesh;
  const outcome = {
    shape: { faces, bends, faults },
    surface: { points, lists, borders: [...borders] },
    pools: water.pools(),
    basins: water.basins(),
    tilted: water.tilted(),
    flows: water.flows().map(({ ends }) => ends),
    findings: findingsOf(stages, { rules: checks }),
  };
  return JSON.stringify(outcome, (_, value: unknown) =>
    ArrayBuffer.isView(value) ? [...(value as Int32Array)] : value,
  );
};

let unseen = 0;
/** The tub as one that no run has seen: no object of it and no name was there before. */
const asNew = (tub: Tub): Tub => ({ ...structuredClone(tub), name: `tub ${unseen++}` });

type Edit = (tub: Tub, pick: number, by: number) => Tub;

const withPanel = (tub: Tub, pick: number, change: (panel: Panel) => Panel): Tub => {
  const chosen = pick % tub.panels.length;
  return { ...tub, panels: tub.panels.map((panel, i) => (i === chosen ? change(panel) : panel)) };
};

/** A corner goes elsewhere, of every panel that has it. */
const moveCorner: Edit = (tub, pick, by) => {
  const { corners } = tub.panels[pick % tub.panels.length];
  const from = corners[pick % corners.length];
  const move = (corner: Vec3): Vec3 =>
    corner.every((value, axis) => value === from[axis]) ? [corner[0] + by, corner[1], corner[2] + by / 2] : corner;
  return { ...tub, panels: tub.panels.map((panel) => ({ ...panel, corners: panel.corners.map(move) })) };
};

const edits: readonly Edit[] = [
  moveCorner,
  // A panel slides along, away from its neighbours or into them.
  (tub, pick, by) =>
    withPanel(tub, pick, (panel) => ({ ...panel, corners: panel.corners.map(([x, y, z]): Vec3 => [x + by, y, z]) })),
  // A corner more, straight on an edge.
  (tub, pick) =>
    withPanel(tub, pick, (panel) => {
      const [a, b] = panel.corners;
      const middle: Vec3 = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];
      return {
        ...panel,
        corners: [a, middle, ...panel.corners.slice(1)],
        cornerNames: [undefined, ...panel.cornerNames],
        cornerAts: [panel.at, ...panel.cornerAts],
      };
    }),
  // Counted the other way round.
  (tub, pick) => withPanel(tub, pick, (panel) => ({ ...panel, corners: [...panel.corners].reverse() })),
  // Two panels change places.
  (tub, pick) => {
    const other = (pick + 1) % tub.panels.length;
    const order = tub.panels.map((_, i) => i);
    [order[pick % order.length], order[other]] = [order[other], order[pick % order.length]];
    return { ...tub, panels: order.map((i) => tub.panels[i]) };
  },
  (tub, _, by) => ({
    ...tub,
    sheets: tub.sheets.map((sheet) => ({ ...sheet, radius: sheet.radius + Math.abs(by) / 50 })),
  }),
  (tub, pick, by) => ({
    ...tub,
    openings: tub.openings.map((opening, i) =>
      i === pick % tub.openings.length && opening.shape.kind === 'round'
        ? { ...opening, shape: { ...opening.shape, diameter: opening.shape.diameter + by / 4 } }
        : opening,
    ),
  }),
  (tub, pick) => ({
    ...tub,
    rims: [
      ...tub.rims,
      {
        at: 7000 + pick,
        edge: { panel: pick % tub.panels.length, edge: pick % 3, at: 7000 + pick },
        hem: { kind: 'closed', length: 8, gap: 0, turned: 'wet' },
      },
    ],
  }),
  (tub) => ({ ...tub, seams: tub.seams.slice(1), bends: tub.bends.slice(1) }),
  (tub, pick) => ({
    ...tub,
    bends: [
      ...tub.bends,
      {
        name: `bend ${pick}`,
        at: 8000 + pick,
        panels: [pick % tub.panels.length, (pick + 1) % tub.panels.length],
        radius: undefined,
        kFactor: undefined,
        origin: 'statement',
      },
    ],
  }),
  (tub) => ({ ...tub, level: { at: 0, within: 0.01 } }),
];

const arbitraryEdits = fc.array(
  fc.tuple(fc.nat(edits.length - 1), fc.nat(50), fc.double({ min: -12, max: 12, noNaN: true })),
  { minLength: 2, maxLength: 6 },
);

/** Each state of the tub, the edits one after the other, the same as seen for the first time. */
const sameAsNew = (start: Tub, changes: readonly (readonly [number, number, number])[]): void => {
  let tub: Tub = { ...start, name: 'the tub that is edited' };
  createStages(tub).shape();
  for (const [edit, pick, by] of changes) {
    // What comes from the text is never the same object twice.
    tub = structuredClone(edits[edit](tub, pick, by));
    expect(outcomeOf(tub)).toBe(outcomeOf(asNew(tub)));
  }
};

test('an edited tub comes out as if it had never been another', () => {
  fc.assert(
    fc.property(arbitraryDrainedTub, arbitraryEdits, ({ tub }, changes) => sameAsNew(tub, changes)),
    { seed: 53, numRuns: casesOf(4) },
  );
});

test('an edited floor with two walls along one edge comes out as if it had never been another', () => {
  const wall = (from: number, to: number): readonly Vec3[] => [
    [from, 0, 0],
    [to, 0, 0],
    [to, 0, 60],
    [from, 0, 60],
  ];
  const floor: readonly Vec3[] = [
    [0, 0, 0],
    [200, 0, 0],
    [200, 90, 0],
    [0, 90, 0],
  ];
  const tub = tubOf({ panels: { floor, first: wall(0, 80), second: wall(80, 140), third: wall(140, 200) } });
  fc.assert(
    fc.property(arbitraryEdits, (changes) => sameAsNew(tub, changes)),
    { seed: 55, numRuns: casesOf(4) },
  );
});

const textOf = (sample: string): string => readFileSync(`samples/${sample}.tub`, 'utf8');
const files = { 'shop.tub': textOf('shop') };

const SAMPLES = ['boot-wash', 'herb-wash-basin', 'clipped-seed-rinse', ...(casesOf(0) > 0 ? ['faults-water'] : [])];

test.each(SAMPLES)('the edited %s comes out as if it had never been another', (sample) => {
  const { tub } = analyseText(textOf(sample), { files, rules: [] }).stages;
  fc.assert(
    fc.property(arbitraryEdits, (changes) => sameAsNew(tub, changes)),
    { seed: 54, numRuns: casesOf(1, 0.3) },
  );
});
