/** Changes of a row of tabs with which all of them stand. */
import { keepBy } from '../../cache/memo.js';
import type { Seam, Tabs, Tub } from '../../model/tub.js';
import type { SeamJoint } from '../seam-joint.js';
import { DEFAULT_MARGIN } from './tab-rows.js';

export type TabRemedy =
  | { readonly kind: 'margin'; readonly margin: number }
  | { readonly kind: 'pitch'; readonly every: number }
  /** Tabs on the other member of the seam. */
  | { readonly kind: 'member'; readonly on: 0 | 1 }
  | { readonly kind: 'loose' };

export interface TabQuestion {
  readonly tub: Tub;
  readonly seams: readonly SeamJoint[];
  /** Joins a changed tub of the same panels. */
  readonly join: (tub: Tub) => readonly SeamJoint[];
}

/** mm. A margin or pitch is found to this much. */
const STEP = 1;

/** Times the margin is doubled at most. */
const DOUBLINGS = 6;

/** Shares of the stated pitch, the nearest first. */
const PITCHES = [0.95, 1.05, 0.9, 1.1, 0.8, 1.25];

const remediesFor = keepBy<SeamJoint, readonly TabRemedy[]>();

/**
 * What frees the tabs of a seam, each joined again before it is told: the least margin, another pitch, tabs on the other member,
 * loose clips; in this order, by how little they change. None for the leg of a lap. Cost: some twenty times that of joining.
 */
export const tabRemediesOf = (question: TabQuestion, seam: number): readonly TabRemedy[] => {
  const { tabs } = question.tub.seams[seam];
  if (!tabs || tabs.isLap || tabs.on === 'loose') return [];
  return remediesFor(question.seams[seam], ['remedies'], () => newRemedies(question, seam, tabs));
};

const newRemedies = ({ tub, seams, join }: TabQuestion, seam: number, tabs: Tabs): readonly TabRemedy[] => {
  const crowded = crowdedCount(seams, seam);
  const frees = (change: Partial<Tabs>): boolean => {
    const changed = join(withTabs(tub, seam, { ...tabs, ...change }));
    return stands(changed[seam]) && crowdedCount(changed, seam) <= crowded;
  };
  const found: TabRemedy[] = [];
  const margin = leastMargin(tabs.margin ?? DEFAULT_MARGIN, (size) => frees({ margin: size }));
  if (margin !== undefined) found.push({ kind: 'margin', margin });
  const pitch = PITCHES.map((share) => Math.round((tabs.every * share) / STEP) * STEP).find(
    (every) => every !== tabs.every && every > tabs.wide && frees({ every }),
  );
  if (pitch !== undefined) found.push({ kind: 'pitch', every: pitch });
  const other = tabs.on === 0 ? 1 : 0;
  if (frees({ on: other })) found.push({ kind: 'member', on: other });
  if (frees({ on: 'loose' })) found.push({ kind: 'loose' });
  return found;
};

const withTabs = (tub: Tub, seam: number, tabs: Tabs): Tub => ({
  ...tub,
  seams: tub.seams.map((each, i): Seam => (i === seam ? { ...each, tabs } : each)),
});

/** Does every run of a seam that has tabs have all that were stated? */
const stands = ({ runs }: SeamJoint): boolean =>
  runs.every(({ row }) => !row || (row.stated === undefined && row.centres.length > 0));

/** Rows of other seams that are cut short. */
const crowdedCount = (seams: readonly SeamJoint[], but: number): number =>
  seams.reduce(
    (sum, { runs }, i) => sum + (i === but ? 0 : runs.filter(({ row }) => row?.stated !== undefined).length),
    0,
  );

/** Doubling what is added, then halving; what is returned did work. */
const leastMargin = (stated: number, works: (margin: number) => boolean): number | undefined => {
  let fails = 0;
  for (let more = STEP, i = 0; i < DOUBLINGS; more *= 2, i++) {
    if (!works(stated + more)) {
      fails = more;
      continue;
    }
    let good = more;
    while (good - fails > STEP) {
      const between = Math.round((good + fails) / 2 / STEP) * STEP;
      if (works(stated + between)) good = between;
      else fails = between;
    }
    return stated + good;
  }
  return undefined;
};
