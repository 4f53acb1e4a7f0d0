/**
 * Every kind of file that a tub can be exported to. Exporters are loaded when first asked for. Those for `pdf` and
 * `card` need a host with Node and are added there.
 */
import type { Exporter } from './exporter.js';

export const exporters: readonly Exporter[] = [
  { format: 'dxf', load: async () => (await import('./flat/flat-files.js')).dxfFiles },
  { format: 'svg', load: async () => (await import('./flat/flat-files.js')).svgFiles },
  { format: 'nest', load: async () => (await import('./flat/nest-files.js')).nestFiles },
  { format: 'template', load: async () => (await import('./flat/template-files.js')).templateFiles },
  { format: 'html', load: async () => (await import('./traveller/html-files.js')).htmlFiles },
  { format: 'step', load: async () => (await import('./solid/solid-files.js')).stepFiles },
  { format: 'stl', load: async () => (await import('./solid/solid-files.js')).stlFiles },
  { format: 'glb', load: async () => (await import('./solid/solid-files.js')).glbFiles },
  { format: 'csv', load: async () => (await import('./lists/csv.js')).csvFiles },
];
