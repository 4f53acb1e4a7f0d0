/** Patterns of card as PDF. Apart from the other exporters because the PDF library is not for every host. */
import { cardPages } from '../../analysis/export/card/card-pages.js';
import type { ExportFile, ExportOptions, Exporter } from '../../analysis/export/exporter.js';
import { fileStem } from '../../analysis/export/file-names.js';
import { unitsOf } from '../../analysis/export/traveller/layout/units.js';
import type { Stages } from '../../analysis/stages/stages.js';
import { exportMark } from '../../files/own-mark.js';

export const cardExporter: Exporter = { format: 'card', load: () => Promise.resolve(cardFiles) };

async function* cardFiles(stages: Stages, { paper, units }: ExportOptions): AsyncIterable<ExportFile> {
  const { name } = stages.tub;
  const { pages, smallOnly } = cardPages(stages, paper, unitsOf(units));
  if (pages.length === 0) return;
  const { writePdf } = await import('./pdf-writer.js');
  yield {
    name: `${fileStem(name)}-card.pdf`,
    content: await writePdf({ title: `${name}: patterns of card`, keywords: exportMark(name) }, pages),
    notHeld: smallOnly.map(
      ({ part, sheets }) => `The pattern of ${part} would take ${sheets} sheets 1:1, so it is printed small only`,
    ),
  };
}
