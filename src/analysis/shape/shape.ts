/**
 * The tub as a surface: every panel as an oriented flat face, and who meets whom along every stretch of every edge.
 * Types only; `build-shape.ts` makes it.
 */
import type { Lean } from '../geometry/lean.js';
import type { KSource, WetSide } from '../material/bend-allowance.js';
import type { Frame } from '../geometry/frame.js';
import type { Vec2, Vec3 } from '../geometry/vec.js';
import type { LaidFaces } from './laid/laid-faces.js';
import type { Opening, PanelIndex, SourceId } from '../model/tub.js';

/** Index into `Shape.faces`; equal to the panel's index: `faces[i]` is panel `i`. */
export type FaceIndex = PanelIndex;

export interface Shape {
  readonly faces: readonly Face[];
  readonly bends: readonly Bend[];
  /** Faults found while building: not flat, self-crossing, no shared edge, no consistent wet side. */
  readonly faults: readonly ShapeFault[];
  /** Wet faces that lie on one another; only of the shape as the liquid meets it. */
  readonly laid?: LaidFaces | undefined;
  /** How it leans, as it stands; undefined: as it is built. */
  readonly lean?: Lean | undefined;
}

/**
 * A panel seen from its wet side. A face that is not usable (too few corners, not flat, crossing itself) stays in the
 * list with `usable: false`, so that indices hold; no later stage may count on its geometry.
 */
export interface Face {
  readonly panel: PanelIndex;
  readonly name: string;
  readonly usable: boolean;
  /** `normal` points to the wet side; origin in the first corner, `u` along the first edge. */
  readonly frame: Frame;
  /** Sharp corners on the wet face, counter-clockwise seen from the wet side. */
  readonly corners: readonly Vec3[];
  /** The same in the frame. */
  readonly outline: readonly Vec2[];
  /** `panelEdge[i]`: the edge of the panel that face edge `i` (corner i to i+1) is. */
  readonly panelEdge: readonly number[];
  /** Per face edge, its stretches from start to end; together they cover the edge. */
  readonly stretches: readonly (readonly Stretch[])[];
  readonly openings: readonly FaceOpening[];
  readonly area: number;
  /** Faces that lie on it, of the shape as the liquid meets it. */
  readonly laidOn?: readonly FaceIndex[];
}

/** A length of one edge along which its neighbours do not change. */
export interface Stretch {
  readonly face: FaceIndex;
  readonly edge: number;
  readonly start: Vec3;
  readonly end: Vec3;
  /** Faces whose edges lie along it (within SAME_POINT), in index order; usually none or one. */
  readonly mates: readonly Mate[];
  /** Faces on which it stands away from their edges, where a seam joins it to them. */
  readonly feet?: readonly Foot[];
  /** A joint of faces closes it, or keeps the liquid from it. */
  readonly isLaid?: true;
  /** Index into `Shape.bends` when a bend joins it. */
  readonly bend: number | undefined;
  /** Indices into `Tub.seams` of the seams that name it. */
  readonly seams: readonly number[];
  /** Index into `Tub.rims` when a `rim` names it. */
  readonly rim: number | undefined;
}

/** Where a stretch stands: on which skin of which face. */
export interface Foot {
  readonly face: FaceIndex;
  readonly skin: 'wet' | 'dry';
}

export interface Mate {
  readonly face: FaceIndex;
  readonly edge: number;
  /** Index of the stretch in the mate's edge. */
  readonly stretch: number;
}

export interface FaceOpening {
  /** Index into `Tub.openings`. */
  readonly opening: number;
  readonly use: Opening['use'];
  /** In the face's frame. Windows are polygons, either way round; rounds and slots keep their true form. */
  readonly shape:
    /** `hex`: a hexagon instead, that far from its middle to its sides. */
    | { readonly kind: 'round'; readonly center: Vec2; readonly radius: number; readonly hex?: true }
    | { readonly kind: 'slot'; readonly from: Vec2; readonly to: Vec2; readonly radius: number }
    | { readonly kind: 'polygon'; readonly corners: readonly Vec2[] };
  /** Of the outline, to which a polygon is open between its last and its first corner; undefined: closed all around. */
  readonly edge?: number;
}

/** What is wrong with a notch: its panel is no wall, it does not come up at one straight edge, or not where it was stated to. */
export type NotchFault =
  | { readonly why: 'no-wall' }
  | { readonly why: 'no-edge' }
  | {
      readonly why: 'off-edge';
      /** How much higher the edge is, mm up the face. */
      readonly off: number;
    };

/** One bend between two faces that share a stretch. All mm and rad. */
export interface Bend {
  readonly index: number;
  /** `floor.shelf floor.chute`: the two panels in the order stated. */
  readonly name: string;
  readonly at: SourceId;
  readonly faces: readonly [FaceIndex, FaceIndex];
  /** Edge of each face, and stretch within that edge. */
  readonly edges: readonly [number, number];
  readonly stretches: readonly [number, number];
  /** Sharp line on the wet face, in the direction of the first face's edge. */
  readonly start: Vec3;
  readonly end: Vec3;
  readonly length: number;
  /** Deviation from flat, 0..pi. */
  readonly angle: number;
  /** Is the wet face on the inside (a valley) or on the outside (a ridge) of the bend? */
  readonly wet: WetSide;
  readonly thickness: number;
  /** Inside radius of the metal, whichever face that is. */
  readonly radius: number;
  readonly kFactor: number;
  readonly kSource: KSource;
  /** angle (R + K T). */
  readonly allowance: number;
  /** On the wet face: (R or R + T) tan(angle / 2). */
  readonly setback: number;
  /** 2 setback - allowance. */
  readonly deduction: number;
}

export type ShapeFault =
  | { readonly kind: 'too-few-corners'; readonly panel: PanelIndex }
  | { readonly kind: 'repeated-corner'; readonly panel: PanelIndex; readonly corner: number }
  | { readonly kind: 'no-area'; readonly panel: PanelIndex }
  | { readonly kind: 'not-flat'; readonly panel: PanelIndex; readonly corner: number; readonly off: number }
  | {
      readonly kind: 'self-crossing';
      readonly panel: PanelIndex;
      readonly edges: readonly [number, number];
      readonly point: Vec3;
    }
  | {
      readonly kind: 'wet-side-conflict';
      readonly panels: readonly [PanelIndex, PanelIndex];
      readonly start: Vec3;
      readonly end: Vec3;
    }
  | { readonly kind: 'no-shared-edge'; readonly bend: number; readonly nearest: number }
  | { readonly kind: 'bend-loop'; readonly bend: number; readonly loop: readonly PanelIndex[] }
  | { readonly kind: 'folded-onto-itself'; readonly bend: number }
  | { readonly kind: 'two-sheets'; readonly bend: number }
  | { readonly kind: 'edge-used-twice'; readonly at: SourceId; readonly other: SourceId; readonly panel: PanelIndex }
  | { readonly kind: 'seam-no-shared-edge'; readonly seam: number; readonly nearest: number }
  | { readonly kind: 'opening-off-plane'; readonly opening: number; readonly off: number }
  | { readonly kind: 'opening-outside'; readonly opening: number; readonly over: number }
  | { readonly kind: 'notch-off-edge'; readonly opening: number; readonly fault: NotchFault };
