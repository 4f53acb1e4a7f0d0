/** The traveller as content, before it is laid out for paper or for a screen. */
import type { Figure } from './mark.js';

export interface Traveller {
  /** What the paper is: `Shop traveller`. */
  readonly title: string;
  readonly tub: string;
  readonly paper: Paper;
  readonly sections: readonly Section[];
}

export type Paper = 'A4' | 'Letter';

export interface Section {
  /** By which other places lead to it; letters, digits, hyphens. */
  readonly key: string;
  readonly title: string;
  /** `sheet`: begins a sheet of paper, to be handed to whoever does that work. `follows`: goes below when it fits whole. */
  readonly starts: 'sheet' | 'follows';
  readonly blocks: readonly Block[];
}

export type Block =
  | { readonly kind: 'text'; readonly text: string; readonly weight?: 'bold' }
  /** `fine`: to be looked up, not to be worked from. */
  | { readonly kind: 'facts'; readonly rows: readonly Fact[]; readonly type?: 'fine' }
  | { readonly kind: 'table'; readonly columns: readonly Column[]; readonly rows: readonly (readonly Cell[])[] }
  | { readonly kind: 'figure'; readonly figure: Figure; readonly caption?: string }
  | { readonly kind: 'cautions'; readonly items: readonly Caution[] }
  /** The sections after this one, each with the sheet it begins on. */
  | { readonly kind: 'contents' };

export interface Fact {
  readonly name: string;
  readonly value: string;
}

export interface Caution {
  readonly title: string;
  readonly text: string;
}

export interface Column {
  readonly head: string;
  readonly align: 'left' | 'right' | 'middle';
  /** Share of the width. */
  readonly share: number;
}

/** Words, words that lead to a section, a picture, a box to tick, or a line to write on. */
export type Cell =
  | string
  | { readonly text: string; readonly to: string }
  | { readonly figure: Figure }
  | { readonly fill: 'box' | 'line' };

export const BOX: Cell = { fill: 'box' };
export const WRITE: Cell = { fill: 'line' };
