/** All exporters of a host with Node: those that every host has, and those that set a PDF. */
import type { Exporter } from '../../analysis/export/exporter.js';
import { exporters } from '../../analysis/export/registry.js';
import { cardExporter } from './card-files.js';
import { pdfExporter } from './pdf-files.js';

export const nodeExporters: readonly Exporter[] = [...exporters, pdfExporter, cardExporter];
