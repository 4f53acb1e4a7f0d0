import { AstUtils, type AstNode } from 'langium';
import {
  isExistingFile,
  isFlange,
  isGroup,
  isLeg,
  isPanel,
  isSide,
  isStrip,
  type Group,
  type Ref,
  type Strip,
  type Thing,
} from '../generated/ast.js';
import { makingOf } from '../made-groups.js';
import type { Lowering } from './lowering.js';
import { placedNode } from './panels/placed-nodes.js';
import type { PanelNode } from './values/values.js';

export const isPanelNode = (node: Thing | Strip | undefined): node is PanelNode =>
  isPanel(node) || isLeg(node) || isSide(node) || isFlange(node);

/** As one refers to it from anywhere: `apron`, `floor.chute`. */
export const nameOf = (
  node: { readonly name?: string } & (Thing | { readonly $type: string; readonly $container?: AstNode }),
): string => {
  const own = node.name ?? '?';
  const { $container: container } = node;
  if (isLeg(node)) return `${node.$container ? nameOf(node.$container) : '?'}.${own}`;
  return isGroup(container) || isExistingFile(container) ? `${container.name ?? '?'}.${own}` : own;
};

/** The group that a statement stands in. */
export const groupOf = (node: AstNode): Group | undefined => AstUtils.getContainerOfType(node, isGroup);

/** What a reference points to, before its edge: the leg in `floor.chute.end`. */
export const targetOf = (ref: Ref | undefined): Thing | undefined => {
  const whole = ref?.target?.ref;
  const stated = ref?.leg2 ? ref.leg2.ref : ref?.leg ? ref.leg.ref : whole;
  if (!stated || stated === whole || !isExistingFile(whole)) return stated;
  return isPanelNode(stated) ? placedNode(whole, nameOf(stated)) : whole;
};

/** The reference as written: `floor.chute.end`; of a made group as it would be. */
export const textOf = (ref: Ref): string =>
  (makingOf(ref) ? madeText(ref) : undefined) ?? ref.$cstNode?.text ?? ref.target?.$refText ?? '?';

const madeText = (ref: Ref): string | undefined => {
  const target = targetOf(ref);
  const corners = ref.from && ref.to ? `[${ref.from.$refText} ${ref.to.$refText}]` : '';
  return target && `${nameOf(target)}${ref.edge ? `.${ref.edge}` : ''}${corners}`;
};

const kindOf: Readonly<Record<Thing['$type'], string>> = {
  Group: 'a group',
  ExistingFile: 'a thing of another file',
  Panel: 'a panel',
  Leg: 'a leg',
  Side: 'a side',
  Flange: 'a flange',
  Strip: 'a strip',
  Outlet: 'an outlet',
  Hole: 'a hole',
  Cutout: 'a cutout',
  Slot: 'a slot',
  Inflow: 'an inflow',
  Tank: 'a tank',
  Zone: 'a zone',
  PressBrake: 'a press brake',
  FoldingBrake: 'a folding brake',
  Cutter: 'a cutter',
  SpotWelder: 'a spot welder',
};

/** Reports that the reference is of another kind than its place needs. */
export const reportWrongKind = (lowering: Lowering, ref: Ref, needs: string): undefined => {
  const target = targetOf(ref);
  if (target)
    lowering.reports.add(
      'text/wrong-kind',
      lowering.idOf(ref),
      `\`${textOf(ref)}\` is ${kindOf[target.$type]}; it needs to be ${needs}`,
    );
  return undefined;
};

/** The panel, leg, side or flange that is meant, whatever edge of it is named. */
export const panelNodeOf = (lowering: Lowering, ref: Ref | undefined): PanelNode | undefined => {
  const target = targetOf(ref);
  if (!ref || !target) return undefined;
  return isPanelNode(target) ? target : reportWrongKind(lowering, ref, 'a panel');
};

/** `floor.left`: one open end of a strip. */
export const stripEndOf = (
  lowering: Lowering,
  ref: Ref | undefined,
): { readonly strip: Strip; readonly end: 'left' | 'right' } | undefined => {
  const target = targetOf(ref);
  if (!ref || !target) return undefined;
  if (isStrip(target) && (ref.edge === 'left' || ref.edge === 'right')) return { strip: target, end: ref.edge };
  lowering.reports.add(
    'side/not-an-end',
    lowering.idOf(ref),
    `\`${textOf(ref)}\` is not an open end; a side closes the \`left\` or \`right\` of a strip`,
  );
  return undefined;
};
