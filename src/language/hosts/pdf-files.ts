/** The traveller and the templates as PDF. Apart from the other exporters because the PDF library is not for every host. */
import { exportMarker, fileStem } from '../../analysis/export/own-export.js';
import type { Doing, ExportFile, ExportOptions, Exporter } from '../../analysis/export/registry.js';
import { layOut } from '../../analysis/export/traveller/lay-out.js';
import { makeTraveller } from '../../analysis/export/traveller/traveller.js';
import type { Stages } from '../../analysis/stages.js';

export const pdfExporter: Exporter = { format: 'pdf', load: () => Promise.resolve(pdfFiles) };

async function* pdfFiles(stages: Stages, options: ExportOptions): AsyncIterable<ExportFile | Doing> {
  const { name } = stages.tub;
  const { writePdf } = await import('./pdf-writer.js');
  const stem = fileStem(name);
  const keywords = exportMarker(name);
  const traveller = yield* makeTraveller(stages, options);
  yield { name: `${stem}-traveller.pdf`, content: await writePdf({ title: `${name}: shop traveller`, keywords }, layOut(traveller)) };
}
