/** A part's flat pattern and the solid it folds to. Types only; `unfold.ts` and `fold.ts` make them. */
import type { Lean } from '../geometry/lean.js';
import type { Contour, ContourVertex } from '../geometry/contour.js';
import type { Frame } from '../geometry/frame.js';
import type { Vec2, Vec3 } from '../geometry/vec.js';
import type { SheetIndex, SheetSide } from '../model/tub.js';
import type { FaceIndex } from '../shape/shape.js';

/** Faces of one sheet joined by bends: what is cut as one piece. */
export interface Part {
  readonly index: number;
  /** The strip's name, else that of its largest panel. */
  readonly name: string;
  readonly sheet: SheetIndex;
  readonly thickness: number;
  /** Root first, then in walking order: a parent stands before its children. */
  readonly faces: readonly FaceIndex[];
  /** `bends[i]` (index into `Shape.bends`) joins `faces[i + 1]` to its parent. */
  readonly bends: readonly number[];
}

/**
 * The part laid flat, **dry side up** unless it was turned over to be marked (`dryUp`),
 * the root panel's first edge along x. Outer contour counter-clockwise, inner ones clockwise; mm.
 */
export interface FlatPattern {
  readonly name: string;
  /** Index into the parts; undefined for loose clips. */
  readonly part: number | undefined;
  readonly sheet: SheetIndex;
  readonly thickness: number;
  readonly quantity: number;
  readonly outline: Contour;
  readonly holes: readonly FlatHole[];
  readonly bends: readonly FlatBend[];
  readonly panels: readonly FlatPanel[];
  readonly marks: readonly FlatMark[];
  /** Maps flat coordinates of the root panel (index 0 of `panels`) to its dry face in the tub; undefined for clips. */
  readonly place: Frame | undefined;
  /** How the tub leans; undefined: it stands as it is built. */
  readonly lean?: Lean | undefined;
  /** Of a flat that lies wet side up instead, to be marked there: the same dry side up. All else is as seen on the wet side. */
  readonly dryUp?: FlatPattern;
}

export interface FlatHole {
  readonly contour: Contour;
  /** Set when the contour is a full circle. */
  readonly circle: { readonly center: Vec2; readonly radius: number } | undefined;
  /** Index into `Tub.openings`; undefined for reliefs and slots of tabs. */
  readonly opening: number | undefined;
  /** What goes through it, of holes that no statement makes: `rivet 3.2`. */
  readonly through?: string;
}

export interface FlatBend {
  /** Index into `Shape.bends`; undefined for hems and for bends of tabs and clips. */
  readonly bend: number | undefined;
  /** Index into `Tub.rims`; hems alone have one. */
  readonly rim?: number;
  readonly name: string;
  /** Middle of the bend zone, end to end on the outline, which may be curved there: the line to mark. */
  readonly start: Vec2;
  readonly end: Vec2;
  /** Tangent lines: the zone's borders towards parent and child. Each runs in the direction of start -> end. */
  readonly tangents: readonly [readonly [Vec2, Vec2], readonly [Vec2, Vec2]];
  /** Width of the zone. */
  readonly allowance: number;
  /** Deviation from flat, > 0. */
  readonly angle: number;
  /** Up: towards the viewer of the flat. */
  readonly direction: 'up' | 'down';
  readonly radius: number;
  readonly kFactor: number;
  /** It was read already: every order begins with it. */
  readonly isMade?: true;
  /** Pressed in a tool of its own along the edge, as the step of a lap; no stroke of a brake. These come last of all bends. */
  readonly pressed?: true;
  /** Indices into `FlatPattern.panels`. */
  readonly parent: number;
  readonly child: number;
}

export interface FlatPanel {
  readonly name: string;
  readonly face: FaceIndex | undefined;
  /** A seam lies along an edge of it: cut back there it would leave a gap. */
  readonly isSeamed?: boolean;
  /** The flat region between its tangent lines, counter-clockwise. */
  readonly region: Contour;
}

/** Something the pen draws: where a clip sits or a divider stands, a flood line, a datum. */
export interface FlatMark {
  /** Of the sheet, on which it is; dry unless given. */
  readonly side?: SheetSide | undefined;
  /** Another panel stands there, its wet face along the first two points. */
  readonly isFoot?: true;
  readonly kind: 'place' | 'level' | 'note';
  readonly points: readonly Vec2[];
  readonly closed: boolean;
  readonly text: string | undefined;
}

/** The part folded with true radii and thickness: plates between tangent lines, and rolls (bent zones). */
export interface FoldedPart {
  readonly name: string;
  readonly thickness: number;
  readonly plates: readonly Plate[];
  readonly rolls: readonly Roll[];
}

/** Flat piece. `frame` maps the flat pattern's own coordinates to the dry face in space, so `contour` is the region of
 *  the flat as it is. The metal lies at 0 .. -thickness along the frame's normal: the wet face is at `-thickness`. */
export interface Plate {
  readonly panel: number;
  readonly name: string;
  readonly face: FaceIndex | undefined;
  readonly frame: Frame;
  readonly contour: Contour;
  readonly holes: readonly Contour[];
}

/**
 * Bent piece. The axis runs through `axis.origin` along `axis.normal`; at turn 0 (the parent's tangent line) the metal
 * lies in direction `axis.u`, and turns by `sweep` about `axis.normal` (right-handed, `sweep` > 0) to the child's.
 * Metal between `innerRadius` and `outerRadius`. Along the axis it runs from `near` to `far`.
 */
export interface Roll {
  readonly bend: number;
  readonly axis: Frame;
  readonly sweep: number;
  readonly innerRadius: number;
  readonly outerRadius: number;
  readonly wet: 'inside' | 'outside';
  readonly near: ZoneEnd;
  readonly far: ZoneEnd;
}

/**
 * An end of a bend zone as it lies in the flat, from the parent's tangent line to the child's: x across the zone, 0 to its
 * allowance, over which the turn is spread evenly; y along the axis. Two vertices where it is straight.
 */
export type ZoneEnd = readonly ContourVertex[];

/** Triangles with outward normals (counter-clockwise seen from outside). */
export interface Triangles {
  readonly positions: readonly Vec3[];
  readonly triangles: readonly (readonly [number, number, number])[];
}
