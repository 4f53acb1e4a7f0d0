/** What the pieces of a page are, for those who have it read to them: headings, words, pictures, tables by rows and cells. */
import type { Piece, Tag } from '../../analysis/export/traveller/layout/mark.js';

type Element = PDFKit.PDFStructureElement;

/** A place in the structure, with the name by which content is marked as belonging there. */
interface Place {
  readonly element: Element;
  readonly name: string;
}

type CellTag = Extract<Tag, { readonly row: number }>;

const NAMES = { title: 'H1', head: 'H2', words: 'P', caption: 'Caption' } as const;

export interface Tagger {
  /** Draws a piece as what it is; `leadsTo` gets the element that a link from it belongs to. */
  readonly piece: (piece: Piece, draw: () => void, leadsTo: (link: Element) => void) => void;
  /** After the last page. */
  readonly end: () => void;
}

/** A table runs on over pages as long as its pieces come in one go. */
export const createTagger = (pdf: PDFKit.PDFDocument): Tagger => {
  const whole = pdf.struct('Document');
  pdf.addStructure(whole);
  let table: { readonly number: number; readonly element: Element } | undefined;
  let row: { readonly number: number; readonly element: Element } | undefined;
  const opened = (parent: Element, name: string, options: object = {}): Place => {
    const element = pdf.struct(name, options);
    parent.add(element);
    return { element, name };
  };
  const cellFor = (tag: CellTag): Place => {
    if (table?.number !== tag.table) {
      table = { number: tag.table, element: opened(whole, 'Table').element };
      row = undefined;
    }
    if (row?.number !== tag.row) row = { number: tag.row, element: opened(table.element, 'TR').element };
    if (tag.kind !== 'cell') return opened(row.element, 'TH', { scope: tag.kind === 'head cell' ? 'Column' : 'Row' });
    const cell = opened(row.element, 'TD');
    return tag.figure === undefined ? cell : opened(cell.element, 'Figure', { alt: tag.figure });
  };
  const placeFor = (tag: Tag): Place | undefined => {
    if ('row' in tag) return cellFor(tag);
    if (tag.kind === 'aside') return undefined;
    [table, row] = [undefined, undefined];
    return tag.kind === 'figure' ? opened(whole, 'Figure', { alt: tag.text }) : opened(whole, NAMES[tag.kind]);
  };
  return {
    piece: ({ as, to }, draw, leadsTo) => {
      const place = placeFor(as);
      if (!place) {
        pdf.markContent('Artifact', { type: 'Layout' });
        draw();
        pdf.endMarkedContent();
        return;
      }
      const { element, name } = to === undefined ? place : opened(place.element, 'Link');
      const content = pdf.markStructureContent(name);
      draw();
      pdf.endMarkedContent();
      element.add(content);
      if (to !== undefined) leadsTo(element);
    },
    end: () => whole.end(),
  };
};
