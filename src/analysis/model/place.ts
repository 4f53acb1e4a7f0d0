/** Where things stand: in the text, and in the lists of a tub. */

/** A place in the builder's text. Opaque here: the language layer keeps the table from id to text. */
export type SourceId = number;

/** Index into `Tub.sheets`, `Tub.panels`, … : names are for people, indices for the model. */
export type SheetIndex = number;
export type PanelIndex = number;
export type StripIndex = number;
export type OutletIndex = number;
