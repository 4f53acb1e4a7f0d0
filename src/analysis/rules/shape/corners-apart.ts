import { HAND_ROUNDED } from '../../model/tolerance.js';
import { atPoint, inMm, named } from '../../model/wording.js';
import { snapsByPair, type Snap } from '../../shape/contact/snap-corners.js';
import type { Rule } from '../rule.js';

export const cornersApart: Rule = {
  code: 'shape/corners-apart',
  severity: 'info',
  *check({ tub, snaps, planned }) {
    // What was read takes corners apart as well: that nobody rounded.
    for (const pair of snapsByPair(planned()?.snaps ?? snaps)) {
      const worst = pair.reduce((most, each) => (each.off > most.off ? each : most));
      const [panel, other] = [tub.panels[worst.panel], tub.panels[worst.onto.panel]];
      const [name, otherName] = [panel, other].map((each) => named(each.name));
      const count = pair.length === 1 ? 'A corner' : `${pair.length} corners`;
      const stand = pair.length === 1 ? 'stands' : 'stand up to';
      yield {
        message: `${count} of ${name} ${stand} ${inMm(worst.off)} off ${otherName} and ${pair.length === 1 ? 'is' : 'are'} put onto it, as up to ${inMm(HAND_ROUNDED)} is taken for rounding`,
        at: panel.cornerAts[worst.corner],
        about: [panel.name, other.name],
        related: [{ at: other.at, message: `${whatOf(worst)} ${otherName} is at ${atPoint(worst.place)}` }],
        values: { off_mm: worst.off, allowed_mm: HAND_ROUNDED, corners: pair.length },
      };
    }
  },
};

const whatOf = ({ onto }: Snap): string => (onto.corner === undefined ? 'The edge of' : 'The corner of');
