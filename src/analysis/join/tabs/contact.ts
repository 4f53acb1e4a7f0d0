/** Where a tab or clip lies on a panel, and the spots through it. */
import { addScaled, type Vec3 } from '../../geometry/vec.js';
import { setbackOf } from '../../material/bend-allowance.js';
import type { Tub } from '../../model/tub.js';
import { deviationOf, pointOnRun, type SeamRun } from '../seam/seam-runs.js';
import { isSetDown, needsClipBend, reachOnto, type PlacedRow } from './tab-rows.js';

/**
 * The band of a panel on which the tabs of a row lie flat, mm from its wet edge inward. Where the other panel stands on its
 * face: from the line of the edge, to the wet side of the other.
 */
export interface TabContact {
  readonly side: 0 | 1;
  readonly from: number;
  readonly to: number;
}

/** Contact of a row on one side; the carrier of integral tabs has none (the tab is the panel itself). */
export const contactOf = (tub: Tub, row: PlacedRow, side: 0 | 1): TabContact | undefined => {
  const { run, tabs, carrier } = row;
  if (tabs.on !== 'loose' && side === carrier) return undefined;
  if (isSetDown(row)) return { side, from: 0, to: tabs.deep };
  const sheet = tub.sheets[tub.panels[run.sides[carrier].face].sheet];
  if (run.footing !== undefined) {
    const bend = { angle: run.corner, radius: sheet.radius, thickness: sheet.thickness };
    return { side, from: -tabs.deep, to: -setbackOf({ ...bend, wet: 'outside' }) };
  }
  const wet = run.corner <= Math.PI ? 'inside' : 'outside';
  const setback = needsClipBend(run)
    ? setbackOf({ angle: deviationOf(run), radius: sheet.radius, thickness: sheet.thickness, wet })
    : 0;
  const to = reachOnto(run, side, carrier, tabs);
  return { side, from: Math.max(-run.sides[side].runOn, to - tabs.deep + setback), to };
};

/** One spot weld: its place on the panel's wet face, over the middle of the sheets it joins. */
export interface Spot {
  readonly side: 0 | 1;
  readonly point: Vec3;
  /** Distance to the nearest edge of the tab, clip or lap. */
  readonly edge: number;
  /** Distance to its nearest edge along the seam's cross direction: half the overlap. */
  readonly across: number;
}

/** Spots through the tabs of a row: `count` on each leg, spread evenly over its width, in the middle of the contact. */
export const spotsThroughTabs = (tub: Tub, row: PlacedRow, count: number): readonly Spot[] => {
  const contacts = ([0, 1] as const).flatMap((side) => contactOf(tub, row, side) ?? []);
  const share = row.tabs.wide / count;
  return contacts.flatMap((contact) =>
    row.centres.flatMap((centre) =>
      Array.from({ length: count }, (_, i): Spot => {
        const along = centre - row.tabs.wide / 2 + (i + 0.5) * share;
        const inward = (contact.from + contact.to) / 2;
        const half = (contact.to - contact.from) / 2;
        return {
          side: contact.side,
          point: spotPoint(row.run, contact.side, along, inward),
          edge: Math.min(share / 2, half),
          across: half,
        };
      }),
    ),
  );
};

/** One row of `count` spots along the middle of a lap (or of the sheet that covers an edge). */
export const spotsAlongLap = (run: SeamRun, count: number): readonly Spot[] => {
  const share = run.length / count;
  const over: 0 | 1 = run.sides[0].runOn > 0 ? 0 : 1;
  const lap = run.sides[over].runOn;
  return Array.from({ length: count }, (_, i): Spot => ({
    side: over === 0 ? 1 : 0,
    point: spotPoint(run, over === 0 ? 1 : 0, (i + 0.5) * share, lap / 2),
    edge: Math.min(share / 2, lap / 2),
    across: lap / 2,
  }));
};

const spotPoint = (run: SeamRun, side: 0 | 1, along: number, inward: number): Vec3 =>
  addScaled(pointOnRun(run, along), run.sides[side].inward, inward);
