/** Every kind of file that a tub can be exported to. Exporters are loaded when first asked for. */
import type { Stages } from '../stages.js';

export interface ExportFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** Makes the files one by one: a caller may stop between them. Every file holds `exportMarker` of the tub. */
export type MakeFiles = (stages: Stages) => Iterable<ExportFile> | AsyncIterable<ExportFile>;

export interface Exporter {
  readonly format: ExportFormat;
  readonly load: () => Promise<MakeFiles>;
}

export type ExportFormat = 'dxf' | 'svg' | 'nest' | 'pdf' | 'step' | 'stl' | 'glb' | 'csv';

/** In the order in which they are named on the command line. */
export const exportFormats: readonly ExportFormat[] = ['dxf', 'svg', 'nest', 'pdf', 'step', 'stl', 'glb', 'csv'];

export const exporters: readonly Exporter[] = [
  { format: 'dxf', load: async () => (await import('./flat-files.js')).dxfFiles },
  { format: 'svg', load: async () => (await import('./flat-files.js')).svgFiles },
  { format: 'nest', load: async () => (await import('../nest/nest-files.js')).nestFiles },
  { format: 'step', load: async () => (await import('./solid-files.js')).stepFiles },
  { format: 'stl', load: async () => (await import('./solid-files.js')).stlFiles },
  { format: 'glb', load: async () => (await import('./solid-files.js')).glbFiles },
  { format: 'csv', load: async () => (await import('./csv.js')).csvFiles },
];
