/** An independent reader of page files: what stands on each page, and how large it is. */
import { getDocument, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';

export interface ReadPage {
  /** mm. */
  readonly size: readonly [number, number];
  /** All words in the order in which they were drawn. */
  readonly text: string;
  readonly items: readonly { readonly text: string; readonly x: number; readonly y: number }[];
}

const MM = 25.4 / 72;

export const readPdf = async (bytes: Uint8Array): Promise<ReadPage[]> => {
  const file: PDFDocumentProxy = await getDocument({
    data: Uint8Array.from(bytes),
    useSystemFonts: false,
    verbosity: 0,
  }).promise;
  const pages: ReadPage[] = [];
  for (let i = 1; i <= file.numPages; i++) {
    const page = await file.getPage(i);
    const [, , width, height] = page.view;
    const { items } = await page.getTextContent();
    const words = items.flatMap((item) =>
      'str' in item && item.str.trim() !== ''
        ? [{ text: item.str, x: item.transform[4] * MM, y: (height - item.transform[5]) * MM }]
        : [],
    );
    pages.push({ size: [width * MM, height * MM], text: words.map(({ text }) => text).join(' '), items: words });
  }
  await file.destroy();
  return pages;
};
