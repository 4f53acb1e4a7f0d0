import { expect, it } from 'vitest';
import { liquidOf } from '../../../src/analysis/water/flow/liquids.js';
import { analyseText, codesOf } from '../../support/analyse-text.js';

it('a liquid that is stated in numbers names the text as its source, whatever it is called', () => {
  const stated = (text: string) => liquidOf(analyseText(text, { rules: [] }).tub.liquid).source;
  expect(stated('liquid oil\n')).toContain('viscosity grade 22');
  expect(stated('liquid oil 68 cSt 880 kg/m3\n')).toBe('as stated');
  expect(stated('liquid oil 22 cSt 880 kg/m3\n')).toBe('as stated');
});

it('no diameter is suggested for a fastener whose hole is not known', () => {
  const analysis = analyseText(
    `units mm
sheet skin = steel thickness 2 radius 2
panel base of skin = (0, 0, 0) (100, 0, 0) (100, 100, 0) (0, 100, 0)
hole bore in base at (50, 50, 0) rivetnut M12
`,
    { rules: [] },
  );
  expect(codesOf(analysis)).toEqual(['hole/no-diameter']);
  expect(analysis.findings[0].message).not.toMatch(/\d mm/);
});
