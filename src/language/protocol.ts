/**
 * What the editor and the language server say to each other beyond the standard protocol, and what the editor and the
 * preview say to each other. Names and payloads only: nothing here runs.
 */
import type { ExportFormat, ExportOptions } from '../analysis/export/exporter.js';
import type { TextPosition, TextRange, ValueEdits } from './text-edits.js';
import type { Leaning } from '../analysis/scene/leaning.js';
import type { SceneItem, ScreenUnits, View } from '../analysis/scene/scene-items.js';

export type { ExportFormat, ExportOptions } from '../analysis/export/exporter.js';

export type { Leaning } from '../analysis/scene/leaning.js';
export type * from '../analysis/scene/scene-items.js';

export { PAGE_SCHEME } from './diagnostics/finding-data.js';

export * from './readings/readings-protocol.js';
export type * from './text-edits.js';

/** Server to editor: the text is read and linked anew, its checks may still run; a preview may ask for its scene. */
export const LINKED = 'tubwright/linked';
export interface Linked {
  readonly uri: string;
  readonly version: number;
}

/** Server to editor, after every whole check that was not overtaken. */
export const ANALYSED = 'tubwright/analysed';
export type Analysed = Linked;

/** Editor to server: what changed in one view of the tub since the drawing that the preview has. */
export const SCENE = 'tubwright/scene';
export interface SceneParams {
  readonly uri: string;
  /** One per preview: the server remembers what it sent to each. */
  readonly preview: string;
  readonly view: View;
  /** Serial of the last patch painted in this view; 0: nothing is there. */
  readonly have: number;
  /** Name of the variant to show; the tub as it is written when there is none of that name. */
  readonly variant?: string;
  /** How it is to stand in the view of the water; undefined: as the text says. */
  readonly leaning?: Leaning;
}

/**
 * Items by key: `set` replaces or adds, `remove` takes away. `whole`: everything not in `set` goes. Keys are stable over
 * edits that keep the names.
 */
export interface ScenePatch {
  /** When the text cannot be read to its end: where that begins, and what is drawn. */
  readonly slip: Slip | undefined;
  readonly view: View;
  /** Of the text, in its order, and the one that is shown. */
  readonly variants: readonly string[];
  readonly variant: string | undefined;
  /** How far off level the water can be looked at, deg; 0: not at all. */
  readonly within_deg: number;
  /** Of the tub, as its text names it. */
  readonly name: string;
  /** In which its words are, and the numbers that are read off the picture. */
  readonly units: ScreenUnits;
  readonly version: number;
  readonly serial: number;
  readonly whole: boolean;
  readonly set: Readonly<Record<string, SceneItem>>;
  readonly remove: readonly string[];
}

/** A line that says nothing, counted from 0; `earlier`: the tub before it lost something, `rest`: that of the rest of the text. */
export interface Slip {
  readonly line: number;
  readonly shows: 'earlier' | 'rest';
}

/** Editor to server, after a whole check: what is found, and which items of the view on show it is about. */
export const SHOWN_FINDINGS = 'tubwright/shownFindings';
export interface ShownFindingsParams {
  readonly uri: string;
  readonly preview: string;
  readonly view: View;
}
export interface ShownFinding {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'info';
  readonly message: string;
  /** Of the items, the nearest first; none: it has no place in this view. */
  readonly keys: readonly string[];
  readonly place: Place | undefined;
}

export const CLOSE_PREVIEW = 'tubwright/closePreview';
export interface ClosePreview {
  readonly preview: string;
}

/** Server to editor: the nest of a text has come on; a preview that shows it may ask for its scene. */
export const NESTED = 'tubwright/nested';
export interface Nested {
  readonly uri: string;
}

/** Server to editor: the bends of a text are planned; a preview that shows its flats may ask for the numbers of the strokes. */
export const PLANNED = 'tubwright/planned';
export interface Planned {
  readonly uri: string;
}

/** Editor to server: end the work on the nest that a preview shows, with the best so far, or go on with it for longer. */
export const NEST_WORK = 'tubwright/nestWork';
export interface NestWorkParams {
  readonly uri: string;
  readonly variant?: string;
  readonly act: NestAct;
}
export type NestAct = 'stop' | 'go on';

/** Editor to server: what writes pins for pieces of the nest that a preview shows into the text, or takes them out of it. */
export const NEST_PIN = 'tubwright/nestPin';
export interface NestPinParams {
  readonly uri: string;
  /** Of the pieces that are meant; none: all. */
  readonly keys: readonly string[];
  readonly act: PinAct;
}
export type PinAct = 'pin' | 'unpin';

/** Where the item with this key stands in the text. */
export const PLACE_OF = 'tubwright/placeOf';
export interface PlaceOfParams {
  readonly uri: string;
  readonly preview: string;
  readonly view: View;
  readonly key: string;
}
export interface Place {
  readonly uri: string;
  readonly range: TextRange;
}

/** Keys of the items that the text at a position speaks of; the closest statement counts. Null while the preview is behind the text. */
export const KEYS_AT = 'tubwright/keysAt';
export interface KeysAtParams {
  readonly uri: string;
  readonly preview: string;
  readonly view: View;
  readonly position: TextPosition;
}

/** Editor to server: make the files of an export. Nothing is written: the editor does that, in whatever file system. */
export const EXPORT_FILES = 'tubwright/exportFiles';
export interface ExportParams {
  readonly uri: string;
  readonly formats: readonly ExportFormat[] | 'all';
  readonly errors: 'unless errors' | 'despite errors';
  /** Paper and units of what is printed; undefined: A4 and metric. */
  readonly options?: ExportOptions;
  /** Names this export in its progress notifications. */
  readonly progress: string;
}
export type ExportResult =
  | {
      readonly kind: 'files';
      /** The tub's name: its own earlier files, and no others, may be replaced. */
      readonly tub: string;
      readonly files: readonly ExportedFile[];
      /** Names that an earlier export of these formats may have given: a regular expression, with Unicode. */
      readonly earlier: string;
      /** The first lines of exported lists, by which those are known. */
      readonly listHeads: readonly string[];
      /** Why something that was asked for is not there. */
      readonly left: readonly string[];
    }
  | { readonly kind: 'refused'; readonly errors: number; readonly first: string };

export interface ExportedFile {
  readonly name: string;
  readonly base64: string;
}

/** Server to editor, while an export runs. */
export const EXPORT_PROGRESS = 'tubwright/exportProgress';
export interface ExportProgress {
  readonly progress: string;
  readonly done: number;
  readonly total: number;
  readonly message: string;
}

/** Server to editor: the text of a file that a tub uses; null when it cannot be read. */
export const READ_FILE = 'tubwright/readFile';

/** Bytes of a file in base 64, or null when it cannot be read. */
export const READ_BYTES = 'tubwright/readBytes';
/** Server to editor: what lies in a folder; nothing when it cannot be read. */
export const LIST_FOLDER = 'tubwright/listFolder';
export interface FileParams {
  readonly uri: string;
}
export interface ListedFile {
  readonly uri: string;
  readonly folder: boolean;
}

/** A page of text about the tub, as Markdown. */
export const PAGE = 'tubwright/page';
export interface PageParams {
  readonly uri: string;
  readonly page: 'bend plan' | 'fill test' | 'free values';
}
export interface Page {
  readonly title: string;
  readonly markdown: string;
}

/** Counts of a whole check, for the editor's message. */
export const CHECK = 'tubwright/check';
export interface CheckParams {
  readonly uris: readonly string[];
}
export interface CheckResult {
  readonly files: number;
  readonly errors: number;
  readonly warnings: number;
  readonly infos: number;
}

/** Editor to server: work out the free values. When it is cancelled, the answer is the best so far. */
export const WORK_OUT = 'tubwright/workOut';
export interface WorkOutParams {
  readonly uri: string;
  /** Names this run in its progress notifications. */
  readonly progress: string;
}
export type WorkOutResult =
  | { readonly kind: 'nothing'; readonly reason: string }
  | ({
      readonly kind: 'found';
      readonly isMet: boolean;
      /** There is a curve between two goals to choose from. */
      readonly hasChoices: boolean;
      readonly summary: string;
    } & ValueEdits);

/** Server to editor, while values are worked out. */
export const WORK_OUT_PROGRESS = 'tubwright/workOutProgress';
export interface WorkOutProgress {
  readonly progress: string;
  readonly tried: number;
  readonly what: 'values' | 'conflict' | 'choices';
}

/** Editor to server: what writes one of the choices of the preview into the text; null when they are not known any more. */
export const CHOICE = 'tubwright/choice';
export interface ChoiceParams {
  readonly uri: string;
  /** Of the item that shows it. */
  readonly key: string;
}

// ---- editor and preview -----------------------------------------------------------------------------------------

export type ToPreview =
  | { readonly type: 'scene'; readonly file: string; readonly patch: ScenePatch }
  | { readonly type: 'select'; readonly keys: readonly string[] }
  | { readonly type: 'findings'; readonly view: View; readonly findings: readonly ShownFinding[] }
  | { readonly type: 'show'; readonly view: View }
  | { readonly type: 'savePicture'; readonly format: PictureFormat }
  /** The text goes on under another name. */
  | { readonly type: 'moved'; readonly uri: string }
  | { readonly type: 'gone'; readonly reason: string };

export type FromPreview =
  | {
      readonly type: 'want';
      readonly view: View;
      readonly have: number;
      readonly variant: string | undefined;
      readonly leaning: Leaning | undefined;
    }
  | { readonly type: 'painted'; readonly view: View; readonly serial: number; readonly version: number }
  | { readonly type: 'take'; readonly key: string }
  | { readonly type: 'nest'; readonly act: NestAct }
  | { readonly type: 'pin'; readonly act: PinAct; readonly keys: readonly string[] }
  | { readonly type: 'reveal'; readonly view: View; readonly key: string; readonly focus: 'text' | 'preview' }
  /** What to do about a finding, by its number among those sent last. */
  | { readonly type: 'finding'; readonly index: number; readonly act: 'text' | 'fix' | 'explain' }
  | { readonly type: 'picture'; readonly format: PictureFormat; readonly name: string; readonly base64: string };

export type PictureFormat = 'svg' | 'png';

/** What the preview keeps over a reload of the window. */
export interface PreviewState {
  readonly uri: string;
  readonly view: View;
}
