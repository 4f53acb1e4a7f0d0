import type { Leaning, NestAct, PinAct, SceneItem } from '../../language/protocol.js';
import type { LegendEntry } from './around/legend.js';
import type { Place } from './around/marks.js';
import type { Rect } from './flat/crowd.js';
import type { SceneChanges } from './store.js';

/** One mode of the preview: a picture, its own controls, and the same facts as text. */
export interface PreviewView {
  readonly picture: HTMLElement | SVGSVGElement;
  readonly controls: HTMLElement;
  readonly hint: string;
  /** Draws what changed; keeps zoom, turn and selection. */
  update(changes: SceneChanges): void;
  select(keys: readonly string[]): void;
  fit(): void;
  /** The theme or the size of the picture changed. */
  refresh(): void;
  /** The picture as it stands, as a drawing that carries its own colours. */
  toSvg(): SVGSVGElement;
  /** Where an item is seen, from the top left corner of the picture; undefined: it is not. */
  placeOf?(key: string): Place | undefined;
  /** Nothing is to be written in these boxes of the picture. */
  keepClear?(boxes: readonly Rect[]): void;
  /** What the marks of the picture mean, as it stands. */
  legend?(): readonly LegendEntry[];
  /** Pixels per mm; undefined where the picture has no one scale. */
  scale?(): number | undefined;
  /** Text for those who do not see the picture. */
  table(): TextTable;
  /** How far off level it can be looked at, deg. */
  offerLean?(within: number): void;
  keep(): unknown;
  restore(kept: unknown): void;
  shown(): void;
}

export interface TextTable {
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly TextRow[];
}

export interface TextRow {
  readonly key: string;
  readonly cells: readonly string[];
}

/** The items of a view as rows, each with all that is told of it. */
export const rowsOf = (items: Iterable<readonly [string, SceneItem]>): TextRow[] =>
  [...items].flatMap(([key, item]) =>
    item.kind === 'note' || !item.told ? [] : [{ key, cells: [item.told.what, item.told.facts.join('; ')] }],
  );

/** What a view tells about what the user did in it. */
export interface ViewEvents {
  /** `focus`: where the user wants to go on. */
  picked(key: string, focus: 'text' | 'preview'): void;
  /** The item is to be written into the text. */
  taken(key: string): void;
  /** The work on the nest is to end, or to go on. */
  worked(act: NestAct): void;
  /** Pieces are to be pinned, or not to be any more. */
  pinned(act: PinAct, keys: readonly string[]): void;
  /** The tub is to stand so; undefined: as its text says. */
  leaned(leaning: Leaning | undefined): void;
  cleared(): void;
  moved(): void;
  say(text: string): void;
}
