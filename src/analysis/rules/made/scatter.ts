import { scatterOf } from '../../built/learned.js';
import { FEW_BY_CHANCE } from '../../model/tolerance.js';
import { inDeg, toDeg } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** Fewer readings say nothing of a shop. */
const LEAST_READINGS = 3;

export const scatter: Rule = {
  code: 'made/scatter',
  severity: 'warning',
  *check({ tub, built }) {
    const within = tub.shop?.bendsWithin;
    if (within === undefined || within <= 0) return;
    const found = scatterOf(built.strips, within);
    if (!found || found.count < LEAST_READINGS || found.chance >= FEW_BY_CHANCE) return;
    const needs = found.size * Math.sqrt(3);
    yield {
      message: `${found.count} readings lie ${inDeg(found.size)} off what was planned (root mean square); a shop that holds bends within ${inDeg(within)} does so in ${percent(found.chance)} of cases, so state about \`bends within ${inDeg(needs)}\``,
      at: built.strips[0].made.at,
      about: [tub.shop?.name ?? ''],
      values: {
        readings_count: found.count,
        off_deg: toDeg(found.size),
        within_deg: toDeg(within),
        needs_deg: toDeg(needs),
        chance_percent: found.chance * 100,
      },
    };
  },
};

const percent = (share: number): string => (share < 1 / 1000 ? 'less than 0.1 %' : `${(share * 100).toFixed(1)} %`);
