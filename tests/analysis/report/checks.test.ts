import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { reportChecks } from '../../../src/analysis/report/making/checks.js';
import { reportHardware } from '../../../src/analysis/report/joining/hardware.js';
import { analyseText } from '../../support/analyse-text.js';

const tubOf = (text: string): ReturnType<typeof analyseText>['stages'] => analyseText(text).stages;

const CHANNEL = `units mm
tub "Channel"
sheet skin = stainless thickness 2  radius 3
strip floor of skin from (0, 200, 60) heading front across right 300 {
    panel back   60 falling 90 deg
    panel bed   100 falling 0 deg
    panel front  60 rising 90 deg
}
`;

test('a channel measures its inside and two thicknesses, a flange its inside and one: 90 deg, by hand', () => {
  const { profile, legs } = reportChecks(tubOf(CHANNEL));
  const sizes = Object.fromEntries(profile.map(({ panel, over_outside_mm }) => [panel, over_outside_mm]));
  expect(sizes['floor.bed']).toBeCloseTo(104, 3);
  expect(sizes['floor.back']).toBeCloseTo(62, 3);
  expect(sizes['floor.front']).toBeCloseTo(62, 3);
  expect(legs.map(({ to_level_deg }) => to_level_deg).sort((a, b) => a - b)).toEqual([0, 90, 90]);
});

/** The outside corner lies T tan(angle / 2) beyond the wet one in a valley, and is the wet one on a ridge. Derived. */
test('at any angle the outside is the wet face and T tan(angle / 2) for each valley', () => {
  const stages = tubOf(readFileSync(join(import.meta.dirname, '../../../samples/herb-wash-basin.tub'), 'utf8'));
  const { bends } = stages.shape();
  const beyond = (name: string): number => {
    const bend = bends.find((each) => each.name === name);
    return bend?.wet === 'inside' ? bend.thickness * Math.tan(bend.angle / 2) : 0;
  };
  const WET: Readonly<Record<string, number>> = { shelf: 310, chute: 120, sump: 110, back: 60 };
  const { profile } = reportChecks(stages);
  const compared = profile.filter(({ panel }) => (panel.split('.').pop() ?? '') in WET);
  expect(compared.length).toBe(4);
  for (const { panel, from, to, over_outside_mm } of compared)
    expect(over_outside_mm).toBeCloseTo(WET[panel.split('.').pop() ?? ''] + beyond(from) + beyond(to), 2);
});

test('rivets stand no farther apart than stated, half a pitch from each end', () => {
  const stages = tubOf(readFileSync(join(import.meta.dirname, '../../fixtures/rules/join/rivet-pitch/ok.tub'), 'utf8'));
  const [seam] = stages.joints().seams.filter(({ seam: index }) => stages.tub.seams[index].fasteners !== undefined);
  const pitch = stages.tub.seams[seam.seam].fasteners?.every ?? 0;
  const count = reportHardware(stages).find(({ kind }) => kind === 'rivet')?.count ?? 0;
  const length = seam.runs.reduce((sum, { run }) => sum + run.length, 0);
  expect(count * pitch).toBeGreaterThanOrEqual(length - 1e-6);
  expect((count - seam.runs.length) * pitch).toBeLessThan(length);
});

test('lips and the screws of frames are counted', () => {
  const stages = tubOf(readFileSync(join(import.meta.dirname, '../../../samples/clipped-seed-rinse.tub'), 'utf8'));
  const items = reportHardware(stages);
  expect(items.find(({ kind }) => kind === 'lip')).toMatchObject({ count: 1 });
  const frame = stages.loosePieces().find(({ name }) => name.endsWith('frame'));
  expect(items.find(({ item }) => item.startsWith('Screw'))?.count).toBe(
    frame?.holes.filter(({ circle }) => circle).length,
  );
});
