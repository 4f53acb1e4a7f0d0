/** Writes laid-out pages as a PDF. The only file that knows the PDF library; a bundle of its own, loaded when first needed. */
import PDFDocument from 'pdfkit';
import { runsOf, widthOf, type Face } from '../../analysis/export/traveller/layout/measure-text.js';
import {
  extentOf,
  type Fill,
  type Mark,
  type Page,
  type Piece,
  type TextMark,
} from '../../analysis/export/traveller/layout/mark.js';
import { registerFaces } from './pdf-fonts.js';
import { createTagger } from './pdf-tags.js';

/** Points per mm. */
const POINT = 72 / 25.4;

const FILLS: Readonly<Record<Fill, string>> = { white: '#ffffff', light: '#dddddd', black: '#000000' };

export interface PdfTitle {
  readonly title: string;
  /** Mark by which the file is known again. */
  readonly keywords: string;
}

/** A file as it is written: sets the type in a face. */
interface Pen {
  readonly pdf: PDFKit.PDFDocument;
  readonly setFace: (face: Face) => void;
}

/**
 * The bytes of the file: vector, at true size, tagged, with a bookmark for each section and links between them. Same pages,
 * same bytes: no date of writing, no random identifier. Rejects only when the library fails.
 */
export const writePdf = ({ title, keywords }: PdfTitle, pages: readonly Page[]): Promise<Uint8Array> => {
  const pdf = new PDFDocument({
    autoFirstPage: false,
    // None that a reader would have to bring along.
    font: '',
    margin: 0,
    compress: true,
    pdfVersion: '1.7',
    tagged: true,
    lang: 'en',
    displayTitle: true,
    info: {
      Title: title,
      Keywords: keywords,
      Creator: 'Tubwright',
      Producer: 'Tubwright',
      CreationDate: FIXED_DATE,
      ModDate: FIXED_DATE,
    },
  });
  const whole = collect(pdf);
  const pen: Pen = { pdf, setFace: registerFaces(pdf) };
  const tagger = createTagger(pdf);
  for (const { size, pieces, opens } of pages) {
    pdf.addPage({ size: [size[0] * POINT, size[1] * POINT], margin: 0 });
    for (const { key, title: name, y } of opens) {
      pdf.addNamedDestination(key, 'XYZ', 0, y * POINT, 0);
      pdf.outline.addItem(name);
    }
    for (const piece of pieces) {
      tagger.piece(
        piece,
        () => piece.marks.forEach((mark) => draw(pen, mark)),
        (link) => linkFrom(pdf, piece, link),
      );
    }
  }
  tagger.end();
  pdf.end();
  return whole;
};

/** The place of the words leads to their section. */
const linkFrom = (pdf: PDFKit.PDFDocument, { to, marks }: Piece, structParent: PDFKit.PDFStructureElement): void => {
  if (to === undefined) return;
  const [left, top, right, bottom] = extentOf(marks).map((side) => side * POINT);
  const options: object = { structParent, Contents: new String(to) };
  pdf.goTo(left, top, right - left, bottom - top, to, options);
};

/** A file that tells when it was made would differ on every run. */
const FIXED_DATE = new Date(Date.UTC(2000, 0, 1));

const collect = (pdf: PDFKit.PDFDocument): Promise<Uint8Array> =>
  new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    pdf.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    pdf.on('end', () => resolve(concatenated(chunks)));
    pdf.on('error', reject);
  });

const concatenated = (chunks: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
};

const draw = (pen: Pen, mark: Mark): void => {
  const { pdf } = pen;
  if (mark.kind === 'text') return drawText(pen, mark);
  if (mark.kind === 'circle') pdf.circle(mark.center[0] * POINT, mark.center[1] * POINT, mark.radius * POINT);
  else {
    mark.points.forEach(([x, y], i) => (i === 0 ? pdf.moveTo(x * POINT, y * POINT) : pdf.lineTo(x * POINT, y * POINT)));
    if (mark.closed) pdf.closePath();
  }
  setDash(pdf, mark.kind === 'line' ? mark.dash : undefined);
  pdf
    .lineWidth(mark.width * POINT)
    .lineJoin('round')
    .lineCap('butt')
    .strokeColor(mark.kind === 'line' && mark.white ? '#ffffff' : '#000000');
  if (mark.fill && mark.width > 0) pdf.fillAndStroke(FILLS[mark.fill], '#000000');
  else if (mark.fill) pdf.fill(FILLS[mark.fill]);
  else pdf.stroke();
};

const setDash = (pdf: PDFKit.PDFDocument, dash: 'dashes' | 'chain' | undefined): void => {
  if (dash === undefined) pdf.undash();
  else if (dash === 'dashes') pdf.dash(2.2 * POINT, { space: 1.2 * POINT });
  // The library takes a list of lengths, its types do not say so.
  else
    (pdf as unknown as { dash: (lengths: readonly number[]) => void }).dash([
      4 * POINT,
      1 * POINT,
      0.8 * POINT,
      1 * POINT,
    ]);
};

const drawText = ({ pdf, setFace }: Pen, mark: TextMark): void => {
  const runs = runsOf(mark.text, mark.weight);
  const [x, y] = [mark.at[0] * POINT, mark.at[1] * POINT];
  pdf.fontSize(mark.size * POINT).fillColor(mark.color === 'white' ? '#ffffff' : '#000000');
  const width = widthOf(mark.text, mark.size, mark.weight) * POINT;
  let from = x - (mark.align === 'left' ? 0 : mark.align === 'right' ? width : width / 2);
  pdf.save();
  if (mark.upright) pdf.rotate(-90, { origin: [x, y] });
  for (const { face, text } of runs) {
    setFace(face);
    pdf.text(text, from, y, { lineBreak: false, baseline: 'alphabetic' });
    from += widthOf(text, mark.size, mark.weight) * POINT;
  }
  pdf.restore();
};
