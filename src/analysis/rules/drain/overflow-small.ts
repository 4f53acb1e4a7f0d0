import { NOTABLE_SHARE } from '../../geometry/tolerance.js';
import { inMm, named, plain } from '../../model/wording.js';
import type { InflowEnd, InflowFlow } from '../../water/flow/inflows.js';
import type { Rule, RuleFinding } from '../rule.js';
import type { Stages } from '../../stages/stages.js';

export const overflowSmall: Rule = {
  code: 'drain/overflow-small',
  severity: 'error',
  *check(stages) {
    if (!stages.water().whenBlocked()) return;
    // Of one that is shut nothing else is to be said.
    if (stages.tub.outlets.some(({ overflow, shut }) => overflow && shut)) return yield* shutOnes(stages);
    yield* tooSmall(stages);
    yield* passedBy(stages);
  },
};

function* shutOnes({ tub }: Stages): Iterable<RuleFinding> {
  for (const { name, at, overflow, shut } of tub.outlets) {
    if (!overflow || !shut) continue;
    yield {
      message: `Overflow ${named(name)} is shut in use; it needs to be open all the time`,
      at,
      about: [name],
      values: {},
    };
  }
}

function* tooSmall({ tub, water }: Stages): Iterable<RuleFinding> {
  for (const state of water().whenBlocked()?.outlets ?? []) {
    const { outlet, comesMm3S, capacityMm3S, headNeeded: head, floodLevel, lip } = state;
    if (!tub.outlets[outlet].overflow || capacityMm3S === undefined || comesMm3S <= capacityMm3S) continue;
    const { name, at } = tub.outlets[outlet];
    const [has, needs] = [(capacityMm3S * 60) / 1e6, (comesMm3S * 60) / 1e6];
    const headNeeded = Number.isFinite(head) ? `it needs ${inMm(head, floodLevel - lip)} of head, ` : '';
    yield {
      message: `Overflow ${named(name)} takes ${plain(has, 2, needs)} L/min before the tub runs over; with the other outlets shut it needs to take ${plain(needs, 2, has)} L/min`,
      at,
      about: [name],
      related: [
        {
          at,
          message: `${headNeeded}the rim leaves ${inMm(floodLevel - lip, head)}`.replace(/^./, (c) => c.toUpperCase()),
        },
      ],
      values: { capacity_L_min: has, inflow_L_min: needs, room_mm: floodLevel - lip },
      measure: { has, needs, better: 'more' },
    };
  }
}

/** What leaves over an edge or through a hole once the others are shut, and does not in use. */
function* passedBy({ tub, water }: Stages): Iterable<RuleFinding> {
  const used = water().flows();
  for (const flow of water().whenBlocked()?.flows ?? []) {
    const share = lostOf(flow) - lostOf(used.find(({ inflow }) => inflow === flow.inflow));
    if (share < NOTABLE_SHARE) continue;
    const { name, at } = tub.inflows[flow.inflow];
    const overflow = tub.outlets.find((outlet) => outlet.overflow);
    yield {
      message: `With the other outlets shut ${plain(share * 100, 1)} % of ${named(name)} runs over an edge and not through an overflow; all of it needs to leave through ${overflow ? named(overflow.name) : 'one'}`,
      at: overflow?.at ?? at,
      about: [name, ...(overflow ? [overflow.name] : [])],
      related: [{ at, message: 'The edge lies lower than the overflow, or on the way to it' }],
      values: { share_percent: share * 100 },
      measure: { has: share * 100, needs: NOTABLE_SHARE * 100, better: 'less' },
    };
  }
}

const lostOf = (flow: InflowFlow | undefined): number =>
  flow?.ends.reduce((sum, end) => sum + (end.kind === 'outlet' || isTold(end) ? 0 : end.share), 0) ?? 0;

/** What runs over the rim because an outlet does not take it is told of that outlet. */
const isTold = (end: InflowEnd): boolean => end.kind === 'rim' && end.isOverfull === true;
