import { describe, expect, it } from 'vitest';
import { asIfNothingWasSeen } from '../../../src/analysis/cache/lru-cache.js';
import { findingsOf } from '../../../src/analysis/rules/run.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';
import { shopWith } from '../../support/random/arbitrary-bendable.js';
import { looseClips, stripAndSides } from '../../support/tubs/strip-and-sides.js';
import type { Seam, Tub } from '../../../src/analysis/model/tub.js';
import { seededUniform } from '../../support/random/random.js';
import { casesOf } from '../../support/cases.js';

/** What is joined, what leaks, and all that is said of it, written out. */
const outcomeOf = (tub: Tub): string => {
  const stages = createStages(structuredClone(tub));
  const { seams, clips, frames, looseFlats, additions } = stages.joints();
  const joined = { seams, clips, frames, looseFlats, additions, flats: stages.flats() };
  const { account, leaks, lowest } = stages.watertight();
  return JSON.stringify({ joined, account, leaks, lowest, mass: stages.mass(), findings: findingsOf(stages) });
};

/** A tub as a list of numbers and words, from which its model is made anew for every edit. */
interface Draft {
  readonly profile: readonly (readonly [number, number])[];
  readonly wide: number;
  readonly joins: readonly Partial<Seam>[];
  readonly thickness: number;
  /** Inside radius of each bend of the strip, in turn. */
  readonly radii: readonly [number, number];
  readonly bendsWithin: number | undefined;
  readonly clampAtMostN: number | undefined;
}

const JOINS: readonly Partial<Seam>[] = [
  looseClips,
  { ...looseClips, weld: undefined, sealant: 6, spots: 2 },
  { ...looseClips, tabs: { ...looseClips.tabs!, on: 0, inset: 0 } },
  { style: { kind: 'lap', by: 12, lapping: 0 }, spots: 3 },
  { weld: undefined },
  { gapAtMost: 0.2 },
];

const tubOfDraft = ({ profile, wide, joins, thickness, radii, bendsWithin, clampAtMostN }: Draft): Tub => {
  const tub = stripAndSides(profile, wide);
  const shop = bendsWithin === undefined ? undefined : shopWith({ bendsWithin, clampAtMostN });
  return {
    ...tub,
    shop,
    sheets: tub.sheets.map((sheet) => ({ ...sheet, thickness })),
    bends: tub.bends.map((bend, i) => ({ ...bend, radius: radii[i % radii.length] })),
    seams: tub.seams.map((seam, i) => ({ ...seam, ...joins[i % joins.length] })),
  };
};

type Uniform = () => number;

const pick = <T>(uniform: Uniform, items: readonly T[]): T => items[Math.floor(uniform() * items.length)];

const randomDraft = (uniform: Uniform): Draft => {
  const legs = 3 + Math.floor(uniform() * 4);
  const between = Array.from({ length: legs - 1 }, (_, i): [number, number] => [
    20 + 70 * i + 20 * uniform(),
    (i % 2) * 20 + 15 * uniform(),
  ]);
  const end = between[between.length - 1][0] + 20;
  return {
    profile: [[0, 120], ...between, [end, 120]],
    wide: 120 + 80 * uniform(),
    joins: [pick(uniform, JOINS), pick(uniform, JOINS)],
    thickness: 1,
    radii: [1, 1],
    bendsWithin: undefined,
    clampAtMostN: undefined,
  };
};

/** One number or word changed; mostly one that leaves a part of the tub as it is. */
const edited = (draft: Draft, uniform: Uniform): Draft => {
  const place = Math.floor(uniform() * draft.profile.length);
  const edits: readonly (() => Draft)[] = [
    () => ({
      ...draft,
      profile: draft.profile.map((point, i) => (i === place ? [point[0], point[1] + 4 * uniform()] : point)),
    }),
    () => ({ ...draft, joins: [draft.joins[0], pick(uniform, JOINS)] }),
    () => ({ ...draft, joins: [pick(uniform, JOINS), draft.joins[1]] }),
    () => ({ ...draft, wide: draft.wide + 5 * uniform() }),
    () => ({ ...draft, thickness: 0.8 + uniform() }),
    () => ({ ...draft, radii: [draft.radii[0], 1 + uniform()] }),
    () => ({ ...draft, clampAtMostN: 1 + 40 * uniform(), bendsWithin: draft.bendsWithin ?? 0.01 }),
    () => ({ ...draft, bendsWithin: uniform() < 0.3 ? undefined : 0.02 * uniform() }),
  ];
  return pick(uniform, edits)();
};

const EDITS = 12;
const SEEDS = Array.from({ length: casesOf(2, 0.02) }, (_, i) => i + 1);

describe('what was joined before', () => {
  it.each(SEEDS)('changes no joint, no leak and no finding of a random tub that is edited, no. %i', (seed) => {
    const uniform = seededUniform(seed);
    const drafts = [randomDraft(uniform)];
    for (let i = 0; i < EDITS; i++) drafts.push(edited(uniform() < 0.8 ? drafts[i] : pick(uniform, drafts), uniform));
    for (const [i, draft] of drafts.entries()) {
      const tub = tubOfDraft(draft);
      const alone = asIfNothingWasSeen(() => outcomeOf(tub));
      expect(outcomeOf(tub) === alone, `edit ${i} of tub ${seed}`).toBe(true);
    }
  });

  it('joins anew only what an edit has touched', () => {
    const basin = (i: number, back: number): string => `
strip s${i} of skin from (${300 * i}, 300, 200) heading front across right 150 {
  panel back ${back} falling 88 deg
  panel floor 150 falling 4 deg
  panel front to z 200 rising 80 deg
}
side l${i} of skin closes s${i}.left up to 200
seam l${i} s${i} { tabs loose 18 wide 14 deep every 70  weld tig }
`;
    const textOf = (back: number): string =>
      `units mm\ntub "Two basins"\nsheet skin = steel thickness 1 radius 1\n${basin(0, 90)}${basin(1, back)}`;
    const [before, after] = [90, 91].map((back) => analyseText(textOf(back)).stages.joints());
    expect(before.seams).toHaveLength(2);
    expect(after.seams.map((seam, i) => seam === before.seams[i])).toEqual([true, false]);
  });
});
