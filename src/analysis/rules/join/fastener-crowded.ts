import { APART_HOLES, crowdedPairs, fastenerSitesOf } from '../../join/fasteners/fasteners.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const fastenerCrowded: Rule = {
  code: 'join/fastener-crowded',
  severity: 'warning',
  *check({ tub, shape }) {
    for (const [a, b, apart] of crowdedPairs(fastenerSitesOf(tub, shape()))) {
      const [first, second] = [tub.openings[a.opening], tub.openings[b.opening]];
      const needs = APART_HOLES * Math.max(a.hole, b.hole);
      yield {
        message: `${named(first.name)} and ${named(second.name)} are ${inMm(apart, needs)} apart; holes of ${inMm(Math.max(a.hole, b.hole))} need at least ${inMm(needs, apart)}`,
        at: second.at,
        about: [first.name, second.name, a.face.name],
        values: { apart_mm: apart, needed_mm: needs },
        measure: { has: apart, needs, better: 'more' },
      };
    }
  },
};
