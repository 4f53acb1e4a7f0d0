import { leakFinding, panelNames, severityOf, waterOver } from '../tell-leak.js';
import { inMm } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const unjoinedEdge: Rule = {
  code: 'seal/unjoined-edge',
  severity: 'error',
  *check({ tub, watertight }) {
    for (const leak of watertight().leaks) {
      if (leak.kind !== 'unjoined') continue;
      yield {
        ...leakFinding(tub, leak),
        severity: severityOf(leak),
        message: `${panelNames(tub, leak)} meet along ${inMm(leak.length)} and nothing joins them, ${waterOver(leak)}; it needs a bend or a seam`,
      };
    }
  },
};
