/** Writes laid-out pages as a PDF. The only file that knows the PDF library; a bundle of its own, loaded when first needed. */
import PDFDocument from 'pdfkit';
import { printable } from '../../analysis/export/traveller/measure-text.js';
import type { Fill, Mark, Page, TextMark } from '../../analysis/export/traveller/mark.js';

/** Points per mm. */
const POINT = 72 / 25.4;

const FACES: Readonly<Record<TextMark['weight'], string>> = { plain: 'Helvetica', bold: 'Helvetica-Bold' };
const FILLS: Readonly<Record<Fill, string>> = { white: '#ffffff', light: '#dddddd', black: '#000000' };

export interface PdfTitle {
  readonly title: string;
  /** Mark by which the file is known again. */
  readonly keywords: string;
}

/**
 * The bytes of the file: vector, at true size. Same pages, same bytes: no date of writing, no random identifier.
 * Rejects only when the library fails.
 */
export const writePdf = ({ title, keywords }: PdfTitle, pages: readonly Page[]): Promise<Uint8Array> => {
  const pdf = new PDFDocument({
    autoFirstPage: false,
    margin: 0,
    compress: true,
    pdfVersion: '1.4',
    info: {
      Title: printable(title),
      Keywords: keywords,
      Creator: 'Tubwright',
      Producer: 'Tubwright',
      CreationDate: FIXED_DATE,
      ModDate: FIXED_DATE,
    },
  });
  const whole = collect(pdf);
  for (const { size, marks } of pages) {
    pdf.addPage({ size: [size[0] * POINT, size[1] * POINT], margin: 0 });
    for (const mark of marks) draw(pdf, mark);
  }
  pdf.end();
  return whole;
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

const draw = (pdf: PDFKit.PDFDocument, mark: Mark): void => {
  if (mark.kind === 'text') return drawText(pdf, mark);
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
    .strokeColor('#000000');
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

const drawText = (pdf: PDFKit.PDFDocument, mark: TextMark): void => {
  const text = printable(mark.text);
  if (text === '') return;
  const [x, y] = [mark.at[0] * POINT, mark.at[1] * POINT];
  pdf
    .font(FACES[mark.weight])
    .fontSize(mark.size * POINT)
    .fillColor(mark.color === 'white' ? '#ffffff' : '#000000');
  const width = pdf.widthOfString(text);
  const shift = mark.align === 'left' ? 0 : mark.align === 'right' ? width : width / 2;
  pdf.save();
  if (mark.upright) pdf.rotate(-90, { origin: [x, y] });
  pdf.text(text, x - shift, y, { lineBreak: false, baseline: 'alphabetic' });
  pdf.restore();
};
