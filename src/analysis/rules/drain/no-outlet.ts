import { inMm, plain } from '../../model/wording.js';
import { basinWithoutOutlet } from '../../water/outlet/no-way-open.js';
import type { Rule } from '../rule.js';

export const noOutlet: Rule = {
  code: 'drain/no-outlet',
  severity: 'warning',
  worst: 'error',
  *check({ tub, water }) {
    const basin = basinWithoutOutlet(tub, water());
    if (!basin) return;
    const isClosed = !Number.isFinite(basin.level);
    const litres = (water().capacity() ?? 0) / 1e6;
    const holds = isClosed ? 'is closed all around' : `holds ${plain(litres, 2)} L to ${inMm(basin.level)}`;
    const has = tub.outlets.length > 0 ? 'all of its outlets are shut in use' : 'has no outlet';
    const rate = tub.inflows.reduce((sum, { rateMm3S }) => sum + (rateMm3S * 60) / 1e6, 0);
    const needs =
      rate > 0 && !isClosed
        ? `the ${plain(rate, 2)} L/min that run in leave over its rim, and need one that is open`
        : 'it needs one to drain';
    yield {
      message: `The tub ${holds} and ${has}; ${needs}`,
      at: tub.at,
      about: basin.faces.map((face) => tub.panels[face].name),
      related: [{ at: tub.panels[basin.faces[0]]?.at ?? tub.at, message: 'Water gathers here' }],
      values: {
        is_closed: isClosed,
        ...(isClosed ? {} : { volume_L: litres, level_mm: basin.level }),
        ...(rate > 0 ? { rate_L_min: rate } : {}),
      },
      ...(rate > 0 ? { severity: 'error' } : {}),
    };
  },
};
