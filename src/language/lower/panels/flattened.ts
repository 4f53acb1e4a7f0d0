import { areOnLine, bestPlane, wayOnto, type Plane } from '../../../analysis/geometry/fitting/best-plane.js';
import { add, lengthOf, type Vec3 } from '../../../analysis/geometry/vec.js';
import { isPanel, isPoint, type Corner, type Let, type Panel, type Point } from '../../generated/ast.js';
import { evaluateTriple, valueOf } from '../values/evaluate.js';
import type { Lowering } from '../lowering.js';
import { statementsOf } from '../text/statements.js';

/** A corner as its panel has it, and by how much it was moved onto the best planes, mm. */
export interface PlacedCorner {
  readonly at: Vec3;
  readonly moved: number;
}

/** Where a panel has a corner; undefined where the text gives no place, which is reported. */
export const placeOfCorner = (lowering: Lowering, panel: Panel, corner: Corner): PlacedCorner | undefined => {
  const target = corner.point?.ref;
  if (target) return placeOfPoint(lowering, target, corner);
  const measured = measuredPlace(lowering, corner);
  return measured && movedOnto(measured, panel.flattened ? (planeOf(lowering, panel) ?? []) : []);
};

/**
 * Where the corner of that name lies: as stated, but on the best plane of every panel that is `flattened` and has it. So
 * panels that share a measured corner go on sharing it.
 */
export const placeOfPoint = (
  lowering: Lowering,
  target: Let | Point,
  user: Corner | undefined,
): PlacedCorner | undefined => {
  const value = valueOf(lowering, target);
  if (!value || value.kind !== 'point') {
    if (value && user) reportNoPoint(lowering, user);
    return undefined;
  }
  const planes = flattenedPanels(lowering).get(target) ?? [];
  return movedOnto(
    value.value,
    planes.flatMap((panel) => planeOf(lowering, panel) ?? []),
  );
};

const movedOnto = (measured: Vec3, planes: readonly Plane[]): PlacedCorner => {
  const way = wayOnto(measured, planes);
  return { at: add(measured, way), moved: lengthOf(way) };
};

const measuredPlace = (lowering: Lowering, corner: Corner): Vec3 | undefined => {
  const target = corner.point?.ref;
  if (!corner.point)
    return corner.x && corner.y && corner.z && evaluateTriple(lowering, { x: corner.x, y: corner.y, z: corner.z });
  const value = target && valueOf(lowering, target);
  return value?.kind === 'point' ? value.value : undefined;
};

const planeOf = (lowering: Lowering, panel: Panel): readonly Plane[] | undefined =>
  lowering.keep(planes, panel, () => {
    const places = (panel.corners ?? []).map((corner) => measuredPlace(lowering, corner));
    const corners = places.filter((place) => place !== undefined);
    return corners.length < 3 || areOnLine(corners) ? [] : [bestPlane(corners)];
  });

const planes = Symbol('best planes');
const users = Symbol('flattened panels by corner');

/** The flattened panels that each named point is a corner of. */
const flattenedPanels = (lowering: Lowering): ReadonlyMap<Let | Point, readonly Panel[]> =>
  lowering.keep(users, lowering.files[0], () => {
    const found = new Map<Let | Point, Panel[]>();
    for (const panel of lowering.files.flatMap((file) => [...statementsOf(file)])) {
      if (!isPanel(panel) || !panel.flattened) continue;
      for (const corner of panel.corners ?? []) {
        const target = corner.point?.ref;
        if (!target || !(isPoint(target) || target.$type === 'Let')) continue;
        const list = found.get(target) ?? [];
        if (!list.includes(panel)) list.push(panel);
        found.set(target, list);
      }
    }
    return found;
  });

const reportNoPoint = (lowering: Lowering, corner: Corner): void =>
  lowering.reports.add(
    'unit/wrong',
    lowering.idOf(corner),
    `\`${corner.point!.$refText}\` is no point; a corner needs one`,
  );
