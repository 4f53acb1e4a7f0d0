/** How a panel's cut edge fits into the bend of the clips or tabs that hold it. */
import type { Tub } from '../../model/tub.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { deviationOf } from '../seam/seam-runs.js';
import { innerCornerBeyond, isSetDown, needsClipBend, type PlacedRow } from './tab-rows.js';

/** What of an edge would stand inside the bend, and must be bevelled off its dry side. */
export interface EdgeFit {
  readonly side: 0 | 1;
  readonly edge: EdgeInBend;
  /** Along the dry face, and across the thickness from the dry face, mm. */
  readonly along: number;
  readonly across: number;
  /** How far the wet edge itself must stand back, mm: 0 where the bevel leaves it. */
  readonly back: number;
}

/**
 * The edges of a run that stand inside the bend of its clips or tabs; none where the bend is sharp enough, or where the panels
 * turn away from each other. Both edges for clips, that of the other panel for tabs of one piece.
 */
export const edgeFitsOf = (tub: Tub, row: PlacedRow): readonly EdgeFit[] => {
  const { run, tabs, carrier, centres } = row;
  if (run.footing !== undefined || centres.length === 0 || isSetDown(row)) return [];
  if (!needsClipBend(run) || run.corner >= Math.PI) return [];
  const { radius } = tub.sheets[tub.panels[run.sides[carrier].face].sheet];
  const other: 0 | 1 = carrier === 0 ? 1 : 0;
  const sides = tabs.on === 'loose' ? ([0, 1] as const) : [other];
  return sides.flatMap((side) => {
    const { runOn, thickness } = run.sides[side];
    // A tab that is set in springs back to the panel that it holds; a clip is fixed to the carrier where it is set in.
    const inset = tabs.on === 'loose' ? tabs.inset : 0;
    const from = innerCornerBeyond(run, side, carrier, { ...tabs, inset }) - runOn;
    const edge = { angle: deviationOf(run), radius, thickness, from };
    const fit = fitInBend(edge);
    return fit ? [{ side, edge, ...fit }] : [];
  });
};

export interface EdgeInBend {
  /** Of the bend, from flat, and its inside radius. */
  readonly angle: number;
  readonly radius: number;
  /** Of the panel. */
  readonly thickness: number;
  /** From the corner between the bend's inner faces to the panel's square edge, along the panel. */
  readonly from: number;
}

/**
 * The bevel that clears a square edge which lies with its dry face on the leg of a bend; undefined when it is clear as it is.
 *
 * With u along the leg from the corner of the inner faces and v square to it, the bend's inner face is the arc about (L, R),
 * L = R tan(angle / 2), as far as v = R (1 - cos angle): metal must lie at u >= L - sqrt(R2 - (R - v)2). Beyond it the other leg
 * runs along u = -v / tan(angle). The bevel goes straight from the tangent point (L, 0) to where these meet the edge, which
 * stays inside, as the space between them is convex. Derived.
 */
export const fitInBend = (edge: EdgeInBend): Omit<EdgeFit, 'side' | 'edge'> | undefined => {
  const { angle, radius, thickness, from } = edge;
  const tangent = radius * Math.tan(angle / 2);
  const along = tangent - from;
  if (along <= SAME_POINT) return undefined;
  const far = radius * (1 - Math.cos(angle));
  const arcAt = (v: number): number => tangent - Math.sqrt(Math.max(0, radius ** 2 - (radius - v) ** 2));
  const back = Math.max(0, (thickness < far ? arcAt(thickness) : otherLegAt(edge)) - from);
  const end = from + back;
  const across =
    end < arcAt(far) ? -end * Math.tan(angle) : radius - Math.sqrt(Math.max(0, radius ** 2 - (tangent - end) ** 2));
  return { along, across: Math.min(thickness, across), back };
};

/** Where the other leg of the bend would run at the panel's wet face if the bend were sharp. */
const otherLegAt = ({ angle, thickness }: EdgeInBend | Omit<EdgeInBend, 'radius'>): number =>
  -thickness / Math.tan(angle);

/** How far the wet edges of a run must stand back at its clips or tabs, mm. */
export const edgeBackOf = (fits: readonly EdgeFit[]): number => Math.max(0, ...fits.map(({ back }) => back));

/**
 * Largest inside radius whose bevel leaves the wet edge where it is, mm: the arc through the wet corner,
 * R tan(angle / 2) - from = sqrt(2 R T - T2), or one that ends before it reaches the wet face. Derived. 0 for an edge that
 * would stand beyond the other leg of even a sharp bend, set in by too much.
 */
export const largestRadiusFor = (edge: Omit<EdgeInBend, 'radius'>): number => {
  const { angle, thickness, from } = edge;
  if (from < otherLegAt(edge) - SAME_POINT) return 0;
  const slope = Math.tan(angle / 2);
  const middle = slope * from + thickness;
  const square = middle ** 2 - slope ** 2 * (from ** 2 + thickness ** 2);
  const through = square >= 0 ? (middle + Math.sqrt(square)) / slope ** 2 : 0;
  return Math.max(through, thickness / (1 - Math.cos(angle)));
};
