/** What an exporter is, and the formats there are. */
import type { Stages } from '../stages/stages.js';

export interface ExportFile {
  readonly name: string;
  readonly content: string | Uint8Array;
  /** Letters of the text that this format cannot show, each once: an empty box stands for them. */
  readonly lacks?: string;
  /** What it should hold and does not, and why: a sentence each, without its full stop. */
  readonly notHeld?: readonly string[];
}

/** What long work is at: a place where it can be stopped. */
export interface Progress {
  readonly doing: string;
  /** What no file holds and one should, and why: as of a file. */
  readonly notHeld?: readonly string[];
}

export const isFile = (made: ExportFile | Progress): made is ExportFile => 'content' in made;

/** Makes the files one by one: a caller may stop between them. Every file holds `exportMark` of the tub; lists name it in every row. */
export type MakeFiles = (
  stages: Stages,
  options: ExportOptions,
) => Iterable<ExportFile | Progress> | AsyncIterable<ExportFile | Progress>;

/** For what is printed; drawings for machines are always in mm. */
export interface ExportOptions {
  readonly paper: 'A4' | 'Letter';
  readonly units: 'metric' | 'inch';
  /** Places tried for each piece to tighten the nest; absent: as many as take seconds for a hundred pieces. */
  readonly nestTries?: number;
}

export const DEFAULT_OPTIONS: ExportOptions = { paper: 'A4', units: 'metric' };

export interface Exporter {
  readonly format: ExportFormat;
  readonly load: () => Promise<MakeFiles>;
}

/** In the order in which they are named on the command line. */
export const exportFormats = [
  'dxf',
  'svg',
  'nest',
  'template',
  'pdf',
  'card',
  'html',
  'step',
  'stl',
  'glb',
  'csv',
] as const;

export type ExportFormat = (typeof exportFormats)[number];
