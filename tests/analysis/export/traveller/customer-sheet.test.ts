import { expect, test } from 'vitest';
import { customerSheetOf } from '../../../../src/analysis/export/traveller/customer-sheet.js';
import { layOut } from '../../../../src/analysis/export/traveller/layout/lay-out.js';
import type { OverallSize } from '../../../../src/analysis/report/making/checks.js';
import { reportOf } from '../../../../src/analysis/report/report.js';
import { writePdf } from '../../../../src/language/hosts/pdf-writer.js';
import { analyseText } from '../../../support/analyse-text.js';
import { basin, channel, METRIC } from './basin.js';
import { readPdf } from './read-pdf.js';

test('the customer gets one page with the sizes, the capacity and the masses of the report', async () => {
  const { stages } = basin();
  const { checks, water, mass } = reportOf(stages);
  const sheet = customerSheetOf(stages, METRIC);
  const pages = await readPdf(await writePdf({ title: 't', keywords: 'k' }, layOut(sheet)));
  expect(pages).toHaveLength(1);
  const [{ text }] = pages;
  const { overall } = checks;
  if (!overall) throw new Error('it folds');
  expect(text).toContain(
    `${overall.width_mm.toFixed(1)} x ${overall.depth_mm.toFixed(1)} x ${overall.height_mm.toFixed(1)} mm`,
  );
  expect(text).toContain(`${water.capacity_L?.toFixed(1)} L of water`);
  expect(text).toContain(`${mass.empty_kg.toFixed(2)} kg`);
  expect(text).toContain('4 x Rivet nut M6, sealed');
  expect(text).toContain('12.0 L/min');
  expect(text).toContain('residual-current');
});

test('the outside of a channel, by hand: inside 300 by 100 by 60, sheet of 2', () => {
  const { stages } = channel('Channel');
  const { overall } = reportOf(stages).checks;
  expect(overall?.width_mm).toBeCloseTo(300, 3);
  expect(overall?.depth_mm).toBeCloseTo(104, 3);
  expect(overall?.height_mm).toBeCloseTo(62, 3);
  expect(overall?.lowest_mm).toBeCloseTo(-2, 3);
});

test('a spout and clips are part of the outside, by hand', () => {
  const text = (clips: string): string => `units mm
tub "Tray"
sheet skin = stainless thickness 2  radius 3
strip floor of skin from (0, 200, 60) heading front across right 300 {
    panel back   60 falling 90 deg
    panel bed   100 falling 0 deg
    panel front  60 rising 90 deg
}
side left of skin closes floor.left up to 60
seam left floor { ${clips} weld tig }
outlet drain in floor.bed at (150, 150, 0) diameter 40 { lip 15 }
`;
  const overall = (clips: string): OverallSize | null => reportOf(analyseText(text(clips)).stages).checks.overall;
  // Down from the rim: 60 to the wet face, 2 of sheet, 15 of spout.
  expect(overall('')?.height_mm).toBeCloseTo(77, 3);
  expect(overall('')?.lowest_mm).toBeCloseTo(-17, 3);
  // Beside the sheet of the side stands that of the clips.
  const more = (overall('tabs loose 18 wide 14 deep every 70')?.width_mm ?? 0) - (overall('')?.width_mm ?? 0);
  expect(more).toBeCloseTo(2, 3);
});
