import type { AstNode } from 'langium';
import type { Vec3 } from '../../../analysis/geometry/vec.js';
import { distance } from '../../../analysis/geometry/vec.js';
import { HAND_ROUNDED } from '../../../analysis/model/tolerance.js';
import { isStrip, type EdgeWord, type Ref, type Strip } from '../../generated/ast.js';
import { placeOfPoint } from './flattened.js';
import { makingOf } from '../../made-groups.js';
import type { Lowering } from '../lowering.js';
import { motionOf } from './motions.js';
import { nameOf, panelNodeOf, targetOf, textOf } from '../references.js';
import type { Face, PanelNode } from '../values/values.js';

export interface NamedEdge {
  readonly node: PanelNode;
  readonly face: Face;
  readonly edge: number;
  /** Written from its end to its start: `apron[D C]`. */
  readonly isReversed: boolean;
}

/** Does the reference name an edge, rather than a whole panel? */
export const namesEdge = (ref: Ref): boolean => ref.edge !== undefined || ref.from !== undefined;

/** The one edge that is meant; undefined when it is not there, which is reported. */
export const edgeOf = (lowering: Lowering, ref: Ref | undefined): NamedEdge | undefined => {
  const target = targetOf(ref);
  if (!ref || !target) return undefined;
  if (isStrip(target)) return stripEdge(lowering, ref, target);
  const node = panelNodeOf(lowering, ref);
  const face = node && lowering.solve.faceOf(lowering, node);
  if (!face) return undefined;
  if (ref.from && ref.to) return edgeBetween(lowering, ref, node, face);
  if (ref.edge) return namedEdge(lowering, ref, node, face, ref.edge);
  reportNoEdge(
    lowering,
    ref,
    `\`${textOf(ref)}\` names a whole panel; one edge of it is needed, ${edgeHint(face, node)}`,
  );
  return undefined;
};

/** `floor.start` and `floor.end` are edges of the first and the last leg. */
const stripEdge = (lowering: Lowering, ref: Ref, strip: Strip): NamedEdge | undefined => {
  const leg = ref.edge === 'start' ? strip.legs[0] : ref.edge === 'end' ? strip.legs[strip.legs.length - 1] : undefined;
  if (!leg) {
    reportNoEdge(
      lowering,
      ref,
      `\`${textOf(ref)}\` is not one edge; of strip \`${strip.name}\` these are: \`${strip.name}.start\` and \`${strip.name}.end\``,
    );
    return undefined;
  }
  const face = lowering.solve.faceOf(lowering, leg);
  return face && { node: leg, face, edge: face.edgeNames[ref.edge!]!, isReversed: false };
};

const namedEdge = (
  lowering: Lowering,
  ref: Ref,
  node: PanelNode,
  face: Face,
  word: EdgeWord,
): NamedEdge | undefined => {
  const edge = face.edgeNames[word];
  if (edge !== undefined) return { node, face, edge, isReversed: false };
  reportNoEdge(lowering, ref, `\`${nameOf(node)}\` has no edge \`${word}\`; name one ${edgeHint(face, node)}`);
  return undefined;
};

const edgeHint = (face: Face, node: PanelNode): string => {
  const words = Object.keys(face.edgeNames);
  const name = nameOf(node);
  const [a, b] = face.cornerNames;
  const corners = `\`${name}[${a ?? 'A'} ${b ?? 'B'}]\` by two neighbouring corners`;
  return words.length === 0 ? `such as ${corners}` : `such as \`${name}.${words[0]}\` or ${corners}`;
};

const edgeBetween = (lowering: Lowering, ref: Ref, node: PanelNode, face: Face): NamedEdge | undefined => {
  const [from, to] = [cornerPlace(lowering, ref, 'from'), cornerPlace(lowering, ref, 'to')];
  if (!from || !to) return undefined;
  const found =
    edgeAt(node, face, from, to) ??
    edgeAt(node, face, placedLike(lowering, node, from), placedLike(lowering, node, to));
  if (found) return found;
  reportNoEdge(
    lowering,
    ref,
    `\`${ref.from!.$refText}\` and \`${ref.to!.$refText}\` are not neighbouring corners of \`${nameOf(node)}\`; an edge needs two that are`,
  );
  return undefined;
};

/** Where a point comes to stand that is moved as the node was made of its original. */
const placedLike = (lowering: Lowering, node: AstNode, place: Vec3): Vec3 => {
  const making = makingOf(node);
  return making ? (motionOf(lowering, making)?.point(placedLike(lowering, making.original, place)) ?? place) : place;
};

const edgeAt = (node: PanelNode, face: Face, from: Vec3, to: Vec3): NamedEdge | undefined => {
  const count = face.corners.length;
  for (let edge = 0; edge < count; edge++) {
    const [start, end] = [face.corners[edge], face.corners[(edge + 1) % count]];
    if (isAt(start, from) && isAt(end, to)) return { node, face, edge, isReversed: false };
    if (isAt(start, to) && isAt(end, from)) return { node, face, edge, isReversed: true };
  }
  return undefined;
};

const isAt = (corner: Vec3, place: Vec3): boolean => distance(corner, place) <= HAND_ROUNDED;

const cornerPlace = (lowering: Lowering, ref: Ref, property: 'from' | 'to'): Vec3 | undefined => {
  const target = ref[property]?.ref;
  const value = target && lowering.solve.valueOf(lowering, target);
  if (target && (!value || value.kind === 'point')) return value && placeOfPoint(lowering, target, undefined)?.at;
  if (!value) return undefined;
  lowering.reports.add(
    'unit/wrong',
    lowering.idOf(ref, property),
    `\`${ref[property]!.$refText}\` is no point; a corner needs one`,
  );
  return undefined;
};

const reportNoEdge = (lowering: Lowering, ref: Ref, message: string): void =>
  lowering.reports.add('text/no-such-edge', lowering.idOf(ref), message);
