/** A panel that a clamp bends back about the bend that holds it. */
import { addScaled, cross, dot, scale, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import { pulledWidth } from '../../material/plate-stiffness.js';
import { propertiesOf } from '../../material/properties.js';
import type { Tub } from '../../model/tub.js';
import type { Bend, FaceIndex, Shape } from '../../shape/shape.js';

/** The panel as a strip that stands on its bend. All mm; forces N. */
export interface FlexingPanel {
  readonly face: FaceIndex;
  /** On the bend line, and the panel's directions along the bend and away from it. */
  readonly root: Vec3;
  readonly along: Vec3;
  readonly inward: Vec3;
  /** How far from the bend the force comes in. */
  readonly free: number;
  /** E I of the width that bends, N mm2. */
  readonly rigidity: number;
}

export interface FlexingSite {
  readonly tub: Tub;
  readonly shape: Shape;
}

/** What pulls at a panel: the clamp itself, or the next panel through the bend between them. */
export type Puller =
  | { readonly kind: 'clamp'; readonly point: Vec3; readonly seamAlong: Vec3; readonly pitch: number }
  | { readonly kind: 'bend'; readonly bend: Bend; readonly point: Vec3 };

/** Cosine of the angle below which two lines count as running the same way: a panel that narrows still bends as a strip. */
const LIKE_DIRECTION = Math.cos(Math.PI / 6);

/** The panel `face` beyond `bend`, pulled at. A panel that the point does not stand off the bend is stiff: 0 free. */
export const flexingPanel = (
  { tub, shape }: FlexingSite,
  bend: Bend,
  face: FaceIndex,
  puller: Puller,
): FlexingPanel => {
  const { frame, corners, panel } = shape.faces[face];
  const line = unit(subtract(bend.end, bend.start));
  const along = face === bend.faces[0] ? line : scale(line, -1);
  const inward = cross(frame.normal, along);
  const off = (point: Vec3): number => dot(subtract(point, bend.start), inward);
  const across = corners.map((corner) => dot(corner, along));
  const width = Math.max(...across) - Math.min(...across);
  const free = Math.max(0, Math.min(freeLength(puller, along, off), Math.max(...corners.map(off))));
  const sheet = tub.sheets[tub.panels[panel].sheet];
  const { thickness } = sheet;
  const stiffeners = stiffenersOf(shape, bend, face, along, free);
  const inertia = stiffeners.length > 0 ? stiffenedInertia(width, thickness, stiffeners) : undefined;
  const bent = puller.kind === 'clamp' ? clampedWidth(sheet, width, free, along, puller) : width;
  const rigidity = propertiesOf(sheet).youngsModulusMPa.value * (inertia ?? (bent * thickness ** 3) / 12);
  return { face, root: bend.start, along, inward, free, rigidity };
};

/** To the clamp; or to a bend that runs the same way; a bend that runs up the panel brings the force in up to the clamp's height. */
const freeLength = (puller: Puller, along: Vec3, off: (point: Vec3) => number): number => {
  if (puller.kind === 'clamp') return off(puller.point);
  const { start, end } = puller.bend;
  const ends = [off(start), off(end)];
  return isSameWay(along, subtract(end, start)) ? Math.max(...ends) : Math.min(off(puller.point), Math.max(...ends));
};

const isSameWay = (a: Vec3, b: Vec3): boolean => Math.abs(dot(unit(a), unit(b))) > LIKE_DIRECTION;

/** Clamps that stand side by side along the bend share the width; one that pulls at a corner has the corner alone. */
const clampedWidth = (
  metal: Tub['sheets'][number],
  width: number,
  free: number,
  along: Vec3,
  { seamAlong, pitch }: Puller & { kind: 'clamp' },
): number => {
  if (!isSameWay(along, seamAlong)) return pulledWidth({ metal, width, free, pulledAt: 'corner' });
  return Math.min(pitch, pulledWidth({ metal, width, free, pulledAt: 'middle' }));
};

/** A panel turned up along the flexing one, which bends only on edge: its height square to the panel, and its sheet area. */
interface Stiffener {
  readonly height: number;
  readonly area: number;
}

const stiffenersOf = (shape: Shape, root: Bend, face: FaceIndex, along: Vec3, free: number): readonly Stiffener[] => {
  const found: Stiffener[] = [];
  const bends = new Set(shape.faces[face].stretches.flatMap((list) => list.flatMap(({ bend }) => bend ?? [])));
  for (const index of bends) {
    const bend = shape.bends[index];
    const line = subtract(bend.end, bend.start);
    // Along less than half of what bends it leaves a place that gives.
    if (bend === root || isSameWay(along, line) || bend.length < free / 2) continue;
    const other = shape.faces[bend.faces[bend.faces[0] === face ? 1 : 0]];
    const away = cross(other.frame.normal, unit(line));
    const wide = Math.max(...other.corners.map((corner) => Math.abs(dot(subtract(corner, bend.start), away))));
    found.push({ height: wide * Math.sin(bend.angle), area: wide * bend.thickness });
  }
  return found;
};

/** Second moment of area of flat and stiffeners about their common middle. Source: parallel axes, any handbook of strength of materials. */
const stiffenedInertia = (width: number, thickness: number, stiffeners: readonly Stiffener[]): number => {
  const flat = width * thickness;
  const area = stiffeners.reduce((sum, each) => sum + each.area, flat);
  const middle = stiffeners.reduce((sum, each) => sum + (each.area * each.height) / 2, 0) / area;
  return stiffeners.reduce(
    (sum, { height, area: own }) => sum + (own * height ** 2) / 12 + own * (height / 2 - middle) ** 2,
    (width * thickness ** 3) / 12 + flat * middle ** 2,
  );
};

/**
 * How far a force of 1 N along the unit `direction` at `point` moves that point along itself as the panel bends, mm/N.
 * Castigliano: the integral of a^2 / (E I), a the arm of the force about each line along the bend; of one flat pulled square to
 * itself L^3 / (3 E I).
 */
export const complianceOf = (panel: FlexingPanel, point: Vec3, direction: Vec3): number => {
  const { root, along, inward, free, rigidity } = panel;
  const armAt = (off: number): number => dot(cross(subtract(point, addScaled(root, inward, off)), direction), along);
  const [near, far] = [armAt(0), armAt(free)];
  return (free * (near ** 2 + near * far + far ** 2)) / (3 * rigidity);
};
