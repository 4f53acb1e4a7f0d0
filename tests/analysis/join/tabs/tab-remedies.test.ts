/** What frees tabs that have no room: each told change, put into the text, does. */
import { expect, it } from 'vitest';
import { tabsCollide } from '../../../../src/analysis/rules/join/tabs-collide.js';
import { createStages } from '../../../../src/analysis/stages/stages.js';
import { analyseText, codesOf } from '../../../support/analyse-text.js';

const textWith = (on: string, more = ''): string => `units mm
sheet skin = stainless thickness 1.2 radius 1.2
panel floor of skin = (0, 0, 0) (200, 0, 0) (200, 80, 0) (80, 80, 0) (80, 200, 0) (0, 200, 0)
panel left  of skin = (80, 80, 0) (80, 200, 0) (80, 200, 60) (80, 80, 60)
panel right of skin = (80, 80, 0) (200, 80, 0) (200, 80, 60) (80, 80, 60)
seam left floor  { tabs on floor 20 wide 40 deep every 40 weld tig }
seam right floor { tabs ${on} 20 wide 40 deep every 40 ${more} weld tig }
`;

const collides = (text: string): boolean =>
  codesOf(analyseText(text, { rules: [tabsCollide] })).includes(tabsCollide.code);

it('tells the least margin, the other panel and clips, and each of them does', () => {
  const stages = createStages(analyseText(textWith('on floor'), { rules: [] }).tub);
  const remedies = stages.tabRemedies(1);
  expect(remedies.map(({ kind }) => kind)).toEqual(['margin', 'member', 'loose']);
  const [margin] = remedies;
  if (margin.kind !== 'margin') throw new Error('the margin is told first');
  expect(collides(textWith('on floor'))).toBe(true);
  expect(collides(textWith('on floor', `margin ${margin.margin}`))).toBe(false);
  expect(collides(textWith('on floor', `margin ${margin.margin - 1}`))).toBe(true);
  expect(collides(textWith('on right'))).toBe(false);
  expect(collides(textWith('loose'))).toBe(false);
});
