import { expect, it } from 'vitest';
import { unitsOf, wordsIn } from '../../../../src/analysis/export/traveller/layout/units.js';

it('sentences of findings are told in the units of the paper', () => {
  const sentence =
    'Flange lip is 6.35 mm; a 12.7 mm die needs 0.254 mm more, 3.785411784 L at 3.785411784 L/min 8.896443 kN and 4.448222 N';
  expect(wordsIn(unitsOf('metric'), sentence)).toBe(sentence);
  expect(wordsIn(unitsOf('inch'), sentence)).toBe(
    'Flange lip is 0.25 in; a 0.5 in die needs 0.01 in more, 1 gal at 1 gal/min 1 ton and 1 lbf',
  );
});
