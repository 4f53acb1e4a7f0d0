/** The type that a page file embeds: what is used of open fonts, which lie beside this file or beside its bundle. */
import { readFileSync } from 'node:fs';
import { create, type Font } from 'fontkit';
import type { Face } from '../../analysis/export/traveller/measure-text.js';

const FILES: Readonly<Record<Face, string>> = {
  plain: 'SourceSans3-Regular.ttf',
  bold: 'SourceSans3-Bold.ttf',
  symbol: 'noto-sans-math-latin-400-normal.woff',
};

/** Read once for all files of a run, each when a page first asks for it. */
const opened = new Map<Face, Font>();

const fontOf = (face: Face): Font => {
  const known = opened.get(face);
  if (known) return known;
  const font = letterByLetter(create(readFileSync(new URL(`fonts/${FILES[face]}`, import.meta.url))));
  opened.set(face, font);
  return font;
};

/**
 * The font without anything that it does to letters side by side: none is drawn nearer to its neighbour or joined with it,
 * so every word is as wide as it was measured. It also spares the rules of the font, which cost more than all else of a page.
 */
const letterByLetter = (font: Font): Font => {
  font.layout = (text: string) => {
    const glyphs = [...text].map((char) => font.glyphForCodePoint(char.codePointAt(0) ?? 0));
    const positions = glyphs.map(({ advanceWidth: xAdvance }) => ({ xAdvance, yAdvance: 0, xOffset: 0, yOffset: 0 }));
    return { glyphs, positions, advanceWidth: glyphs.reduce((sum, { advanceWidth }) => sum + advanceWidth, 0) };
  };
  return font;
};

/** Each face is opened when a page first asks for it. */
export const registerFaces = (pdf: PDFKit.PDFDocument): ((face: Face) => void) => {
  const known = new Set<Face>();
  return (face) => {
    // The library takes a font that is opened already, its types do not say so.
    if (!known.has(face)) pdf.registerFont(face, fontOf(face) as unknown as PDFKit.Mixins.PDFFontSource);
    known.add(face);
    pdf.font(face);
  };
};
