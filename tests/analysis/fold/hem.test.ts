import { describe, expect, test } from 'vitest';
import { hemOf } from '../../../src/analysis/fold/trim/hem.js';
import type { Hem, Sheet } from '../../../src/analysis/model/tub.js';
import { analyseText } from '../../support/analyse-text.js';

const hemmed = (words: string): readonly [Hem, Sheet] => {
  const { tub } = analyseText(
    `units mm
sheet skin = steel thickness 1.5 radius 1.5 k 0.4
point A = (0, 0, 0)
point B = (200, 0, 0)
point C = (200, 100, 0)
point D = (0, 100, 0)
panel base of skin = A B C D
rim base[A B] hem ${words}
`,
    { rules: [] },
  ).stages;
  return [tub.rims[0].hem!, tub.sheets[0]];
};

describe('what a hem takes of its sheet of 1.5', () => {
  test('closed: turned about nothing, its K one half', () => {
    // Inset T, allowance pi (0 + T / 2), lip what is left of 12.
    expect(hemOf(...hemmed('closed 12'))).toMatchObject({
      radius: 0,
      kFactor: 0.5,
      inset: 1.5,
      allowance: expect.closeTo(0.75 * Math.PI, 12),
      lip: 10.5,
    });
  });

  test('open: about half its gap, with the K of the sheet', () => {
    // Radius 3, inset R + T, allowance pi (R + 0.4 T).
    expect(hemOf(...hemmed('open 20 gap 6'))).toMatchObject({
      radius: 3,
      kFactor: 0.4,
      inset: 4.5,
      allowance: expect.closeTo(3.6 * Math.PI, 12),
      lip: 15.5,
    });
  });
});
