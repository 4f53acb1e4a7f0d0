/**
 * Every kind of file that a tub can be exported to. Exporters are loaded when first asked for. The one for `pdf` needs a
 * host with Node and is added there.
 */
import type { Stages } from '../stages.js';

export interface ExportFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** What long work is at: a place where it can be stopped. */
export interface Doing {
  readonly doing: string;
}

export const isFile = (made: ExportFile | Doing): made is ExportFile => 'content' in made;

/** Makes the files one by one: a caller may stop between them. Every file holds `exportMarker` of the tub. */
export type MakeFiles = (
  stages: Stages,
  options: ExportOptions,
) => Iterable<ExportFile | Doing> | AsyncIterable<ExportFile | Doing>;

/** For what is printed; drawings for machines are always in mm. */
export interface ExportOptions {
  readonly paper: 'A4' | 'Letter';
  readonly units: 'metric' | 'inch';
}

export const DEFAULT_OPTIONS: ExportOptions = { paper: 'A4', units: 'metric' };

export interface Exporter {
  readonly format: ExportFormat;
  readonly load: () => Promise<MakeFiles>;
}

export type ExportFormat = 'dxf' | 'svg' | 'nest' | 'template' | 'pdf' | 'html' | 'step' | 'stl' | 'glb' | 'csv';

/** In the order in which they are named on the command line. */
export const exportFormats: readonly ExportFormat[] = [
  'dxf',
  'svg',
  'nest',
  'template',
  'pdf',
  'html',
  'step',
  'stl',
  'glb',
  'csv',
];

export const exporters: readonly Exporter[] = [
  { format: 'dxf', load: async () => (await import('./flat-files.js')).dxfFiles },
  { format: 'svg', load: async () => (await import('./flat-files.js')).svgFiles },
  { format: 'nest', load: async () => (await import('../nest/nest-files.js')).nestFiles },
  { format: 'template', load: async () => (await import('./template-files.js')).templateFiles },
  { format: 'html', load: async () => (await import('./traveller/html-files.js')).htmlFiles },
  { format: 'step', load: async () => (await import('./solid-files.js')).stepFiles },
  { format: 'stl', load: async () => (await import('./solid-files.js')).stlFiles },
  { format: 'glb', load: async () => (await import('./solid-files.js')).glbFiles },
  { format: 'csv', load: async () => (await import('./csv.js')).csvFiles },
];
