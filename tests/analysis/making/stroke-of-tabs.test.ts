import { expect, test } from 'vitest';
import { FORCE_COEFFICIENT } from '../../../src/analysis/making/air-bend.js';
import { reportMaking } from '../../../src/analysis/report/making/making.js';
import { noBendingOrder } from '../../../src/analysis/rules/make/no-bending-order.js';
import { analyseText } from '../../support/analyse-text.js';

/** Tabs 20 wide along an edge of 800, made in one stroke; `ton`: of the press. */
const text = (ton: number): string => `units mm
sheet skin = stainless thickness 1.2 radius 1.3
panel floor of skin = (0, 0, 0) (800, 0, 0) (800, 300, 30) (0, 300, 30)
panel wall of skin = (0, 0, 0) (0, 0, 150) (800, 0, 150) (800, 0, 0)
seam wall floor { tabs on floor 20 wide 14 deep every 80 weld tig }
shop "s" { press brake p { force ${ton} ton bed 2600 die 8 10 12 punch radius 1 nose 30 deg fingers 20 40 100 200 400 800 depth 140 opening 280 } }
`;

// F = C Rm T^2 L / V over the metal that is bent: tabs, not the gaps between them (common practice, no source).
test('tabs pressed together take the force of their own widths', () => {
  const { stages } = analyseText(text(40), { rules: [], effort: 'full' });
  const step = reportMaking(stages)
    .sequence.flatMap(({ steps }) => steps)
    .find(({ bent_mm, length_mm }) => bent_mm < length_mm);
  const tabs = stages.flats().find((flat) => flat?.name === 'floor')!.bends.length;
  expect(tabs).toBeGreaterThan(5);
  expect(step?.bent_mm).toBeCloseTo(20 * tabs, 6);
  const tensile = 720;
  expect(step?.force_kN).toBeCloseTo((FORCE_COEFFICIENT * tensile * 1.2 ** 2 * 20 * tabs) / step!.die_mm! / 1000, 1);
});

test('and a press that is strong enough for these makes them', () => {
  expect(analyseText(text(6), { rules: [noBendingOrder], effort: 'full' }).findings).toEqual([]);
  expect(analyseText(text(1), { rules: [noBendingOrder], effort: 'full' }).findings).toHaveLength(1);
});
