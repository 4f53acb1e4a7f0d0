/** Names of exported files: the tub's own letters as far as every system takes them, no two alike. */
import { nameHash } from '../../files/own-mark.js';
import type { ExportFormat } from './exporter.js';

/** Bytes for a tub, and for a part: with all that is between and around them, a name stays within the 255 that disks take. */
const MOST_BYTES = 100;

/** What the names of all files of a tub begin with. */
export const fileStem = (tub: string): string => {
  const stem = stemOf(tub);
  return RESERVED.test(stem) ? `tub-${stem}` : stem;
};

/** Names of devices, with any ending. Source: Microsoft, "Naming Files, Paths, and Namespaces". */
const RESERVED = /^(con|prn|aux|nul|(com|lpt)[0-9¹²³])(\.|$)/i;

/**
 * What stands for a name of the text in that of a file: `Bottle-rinse basin` becomes `Bottle-rinse-basin`, `水槽` stays.
 * One that is too long is cut off and told apart by letters that hang on all of it.
 */
const stemOf = (name: string): string => {
  const stem = name
    .normalize('NFC')
    .replace(/(?![._])(?:[^\p{L}\p{M}\p{N}\p{S}._]|[$+<=>^`|~])+/gu, '-')
    .replace(/^[-.]+|[-.]+$/g, '');
  if (stem === '') return 'tub';
  if (bytesIn(stem) <= MOST_BYTES) return stem;
  const end = `-${nameHash(name).slice(0, 8)}`;
  return cutTo(stem, MOST_BYTES - end.length).replace(/[-.]+$/, '') + end;
};

const bytesIn = (text: string): number => new TextEncoder().encode(text).length;

const cutTo = (text: string, most: number): string => {
  let [cut, bytes] = ['', 0];
  for (const letter of text) {
    bytes += bytesIn(letter);
    if (bytes > most) break;
    cut += letter;
  }
  return cut;
};

/** The names, numbered where two differ only in case or not at all: some file systems take those for one. */
export const distinctNames = (names: readonly string[]): string[] => {
  const used = new Set<string>();
  return names.map((name) => {
    let distinct = name;
    for (let n = 2; used.has(distinct.toLowerCase()); n++) distinct = `${name}-${n}`;
    used.add(distinct.toLowerCase());
    return distinct;
  });
};

/** Words after the tub's name that say what a drawing is; a part that begins with one is told apart from them. */
const TEMPLATE = 'template';
const SHEET = 'sheet';
const PART = 'part';

/** Names for the drawings of parts, in their order, without endings. */
export const partFileNames = (tub: string, parts: readonly string[]): string[] =>
  distinctNames(parts.map((part) => `${fileStem(tub)}-${partStem(part)}`));

const partStem = (part: string): string => {
  const stem = stemOf(part);
  return new RegExp(`^(${TEMPLATE}|${SHEET}|${PART})-`, 'i').test(stem) ? `${PART}-${stem}` : stem;
};

/** Names for the drawings of templates, in their order, without endings. */
export const templateFileNames = (tub: string, templates: readonly string[]): string[] =>
  distinctNames(templates.map((name) => `${fileStem(tub)}-${TEMPLATE}-${stemOf(name)}`));

/** Name for the drawing of a nested sheet, counted from 1, without ending. */
export const sheetFileName = (tub: string, number: number): string => `${fileStem(tub)}-${SHEET}-${number}`;

/** Names (composed) that an export of the tub to these formats may give, of whatever text the tub had at the time. */
export const fileNamesOf = (tub: string, formats: readonly ExportFormat[]): RegExp => {
  const stem = fileStem(tub).replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  return new RegExp(`^${stem}(${formats.map((format) => ENDINGS[format]).join('|')})$`, 'u');
};

const DRAWN = `-(?!${TEMPLATE}-|${SHEET}-\\d).+`;

/** What the lists for a spreadsheet are of. */
export const listNames = ['parts', 'bends', 'seams', 'hardware'] as const;
export type ListName = (typeof listNames)[number];

const ENDINGS: Readonly<Record<ExportFormat, string>> = {
  dxf: `${DRAWN}\\.dxf`,
  svg: `${DRAWN}\\.svg`,
  nest: `-${SHEET}-\\d+\\.dxf`,
  template: `-${TEMPLATE}-.+\\.dxf`,
  pdf: '-(traveller|templates|sheet)\\.pdf',
  card: '-card\\.pdf',
  html: '-(traveller|sheet)\\.html',
  step: '\\.step',
  stl: '\\.stl',
  glb: '\\.glb',
  csv: `-(${listNames.join('|')})\\.csv`,
};
