import { inMm, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const noOutlet: Rule = {
  code: 'drain/no-outlet',
  severity: 'warning',
  *check({ tub, water }) {
    const [basin] = water().basins();
    if (!basin || tub.outlets.length > 0 || basin.volume <= 0) return;
    const isClosed = !Number.isFinite(basin.level);
    const holds = isClosed ? 'is closed all around' : `holds ${plain(basin.volume / 1e6, 2)} L to ${inMm(basin.level)}`;
    yield {
      message: `The tub ${holds} and has no outlet; it needs one to drain`,
      at: tub.at,
      about: basin.faces.map((face) => tub.panels[face].name),
      related: [{ at: tub.panels[basin.faces[0]]?.at ?? tub.at, message: 'Water gathers here' }],
      values: { is_closed: isClosed, ...(isClosed ? {} : { volume_L: basin.volume / 1e6, level_mm: basin.level }) },
    };
  },
};
