/** The type that a page file embeds: what is used of open fonts, which lie beside this file or beside its bundle. */
import { readFileSync } from 'node:fs';
import type { Face } from '../../analysis/export/traveller/measure-text.js';

const FILES: Readonly<Record<Face, string>> = {
  plain: 'SourceSans3-Regular.ttf',
  bold: 'SourceSans3-Bold.ttf',
  symbol: 'noto-sans-math-latin-400-normal.woff',
};

/** Each face is read when a page first asks for it. */
export const registerFaces = (pdf: PDFKit.PDFDocument): ((face: Face) => void) => {
  const known = new Set<Face>();
  return (face) => {
    if (!known.has(face)) pdf.registerFont(face, readFileSync(new URL(`fonts/${FILES[face]}`, import.meta.url)));
    known.add(face);
    pdf.font(face);
  };
};
