/** The type that a page file embeds: what is used of open fonts, which lie beside this file or beside its bundle. */
import { readFileSync } from 'node:fs';
import { create, type Font, type Glyph } from 'fontkit';
import type { Face } from '../../analysis/export/traveller/layout/measure-text.js';

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
    const glyphs = [...text].map((char) => glyphOf(font, char.codePointAt(0) ?? 0));
    const positions = glyphs.map(({ advanceWidth: xAdvance }) => ({ xAdvance, yAdvance: 0, xOffset: 0, yOffset: 0 }));
    return { glyphs, positions, advanceWidth: glyphs.reduce((sum, { advanceWidth }) => sum + advanceWidth, 0) };
  };
  return font;
};

/**
 * The library keeps one glyph for all files, without its letter where a file first needed it as a part of another one (the point
 * of a colon): whoever reads the words of a later file would not find it.
 */
const glyphOf = (font: Font, codePoint: number): Glyph => {
  const glyph = font.glyphForCodePoint(codePoint);
  return glyph.codePoints.length > 0 ? glyph : Object.assign(glyph, { codePoints: [codePoint] });
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
