import { describe, expect, test } from 'vitest';
import { areaOfContour } from '../../../src/analysis/geometry/contour.js';
import { metalArea } from '../../../src/analysis/nest/metal-area.js';
import { flatsToCut } from '../../../src/analysis/stages/flats-to-cut.js';
import { analyseText } from '../../support/analyse-text.js';

const SIDES = {
  'level, up': 'metal up = (0, 0, 0) (360, 0, 0) (360, 300, 0) (0, 300, 0)',
  'level, down': 'metal down = (0, 0, 0) (360, 0, 0) (360, 300, 0) (0, 300, 0)',
  'level, drawn the other way round, up': 'metal up = (0, 0, 0) (0, 300, 0) (360, 300, 0) (360, 0, 0)',
  'as drawn': '= (0, 0, 0) (360, 0, 0) (360, 300, 0) (0, 300, 0)',
};
const CORNERS = [
  ['(40, 40, 0)', '(320, 240, 0)'],
  ['(320, 40, 0)', '(40, 240, 0)'],
];

describe('a window takes its area off the metal', () => {
  for (const [side, panel] of Object.entries(SIDES)) {
    for (const [from, to] of [...CORNERS, ...CORNERS.map((pair) => [...pair].reverse())]) {
      test(`${side}, from ${from} to ${to}`, () => {
        const { stages } = analyseText(
          `units mm
sheet s = stainless thickness 1.5 radius 1.5
panel a of s ${panel}
cutout window in a from ${from} to ${to}
`,
          { rules: [] },
        );
        const [flat] = flatsToCut(stages);
        expect(areaOfContour(flat.outline)).toBeCloseTo(360 * 300, 6);
        expect(metalArea(flat)).toBeCloseTo(360 * 300 - 280 * 200, 6);
      });
    }
  }
});
