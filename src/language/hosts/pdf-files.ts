/** The traveller, the sheet for the customer and the templates as PDF. Apart from the other exporters because the PDF library is not for every host. */
import { fileStem } from '../../analysis/export/file-names.js';
import { exportMark } from '../../files/own-mark.js';
import type { Progress, ExportFile, ExportOptions, Exporter } from '../../analysis/export/exporter.js';
import { customerSheetOf } from '../../analysis/export/traveller/customer-sheet.js';
import { lettersLacking } from '../../analysis/export/traveller/layout/measure-text.js';
import { layOut } from '../../analysis/export/traveller/layout/lay-out.js';
import { templatesOf } from '../../analysis/export/flat/template.js';
import { templatePages } from '../../analysis/export/traveller/template-pages.js';
import { makeTraveller } from '../../analysis/export/traveller/traveller.js';
import { unitsOf } from '../../analysis/export/traveller/layout/units.js';
import type { Stages } from '../../analysis/stages/stages.js';

export const pdfExporter: Exporter = { format: 'pdf', load: () => Promise.resolve(pdfFiles) };

async function* pdfFiles(stages: Stages, options: ExportOptions): AsyncIterable<ExportFile | Progress> {
  const { name } = stages.tub;
  const { writePdf } = await import('./pdf-writer.js');
  const stem = fileStem(name);
  const keywords = exportMark(name);
  const traveller = yield* makeTraveller(stages, options);
  yield {
    name: `${stem}-traveller.pdf`,
    content: await writePdf({ title: `${name}: shop traveller`, keywords }, layOut(traveller)),
    lacks: lettersLacking(JSON.stringify(traveller)),
  };
  const sheet = customerSheetOf(stages, options);
  yield {
    name: `${stem}-sheet.pdf`,
    content: await writePdf({ title: `${name}: ${sheet.title.toLowerCase()}`, keywords }, layOut(sheet)),
  };
  const templates = templatesOf(stages);
  if (templates.length === 0) return;
  const pages = templatePages(name, templates, options.paper, unitsOf(options.units));
  yield { name: `${stem}-templates.pdf`, content: await writePdf({ title: `${name}: templates`, keywords }, pages) };
}
