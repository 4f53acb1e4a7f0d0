import { inMm, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const noOutlet: Rule = {
  code: 'drain/no-outlet',
  severity: 'warning',
  *check({ tub, water }) {
    const [basin] = water().basins();
    const isShut = tub.outlets.length > 0 && tub.inflows.length > 0 && tub.outlets.every(({ shut }) => shut);
    if (!basin || (tub.outlets.length > 0 && !isShut) || basin.volume <= 0) return;
    const isClosed = !Number.isFinite(basin.level);
    const litres = (water().capacity() ?? 0) / 1e6;
    const holds = isClosed ? 'is closed all around' : `holds ${plain(litres, 2)} L to ${inMm(basin.level)}`;
    yield {
      message: isShut
        ? `The tub ${holds} and all of its outlets are shut in use; what runs in needs one that is open`
        : `The tub ${holds} and has no outlet; it needs one to drain`,
      at: tub.at,
      about: basin.faces.map((face) => tub.panels[face].name),
      related: [{ at: tub.panels[basin.faces[0]]?.at ?? tub.at, message: 'Water gathers here' }],
      values: { is_closed: isClosed, ...(isClosed ? {} : { volume_L: litres, level_mm: basin.level }) },
    };
  },
};
