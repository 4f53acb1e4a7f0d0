import { bodyOf, isWet, roleOf, toldGroup, type Role } from '../../analysis/model/around/roles.js';
import type { GroupIndex, OutletIndex, PanelIndex, Tub } from '../../analysis/model/tub.js';
import { isOutlet, type ExistingFile, type Group, type Outlet, type Ref } from '../generated/ast.js';
import { panelNodeOf, reportWrongKind, targetOf, textOf } from './references.js';
import type { PanelNode } from './values/values.js';
import type { Lowering } from './lowering.js';

/** Where each statement came to stand in the model's lists. */
export interface Indices {
  readonly panelOf: (node: PanelNode) => PanelIndex | undefined;
  /** The panel a reference means; a thing of another kind is reported. */
  readonly panelAt: (ref: Ref | undefined) => PanelIndex | undefined;
  /** The panel a reference means, where liquid is to run: one that stays dry is reported. */
  readonly wetPanelAt: (ref: Ref | undefined) => PanelIndex | undefined;
  /** The same of a panel whose edge the reference means. */
  readonly wetPanelOf: (node: PanelNode, ref: Ref) => PanelIndex | undefined;
  readonly panelName: (panel: PanelIndex) => string;
  readonly roleOf: (panel: PanelIndex) => Role;
  readonly bodyOf: (panel: PanelIndex) => number;
  /** -1: of the tub. */
  readonly bodyOfGroup: (group: Group | ExistingFile) => GroupIndex | -1 | undefined;
  readonly outletOf: (node: Outlet) => OutletIndex | undefined;
  readonly outletAt: (ref: Ref) => OutletIndex | undefined;
}

export const createIndices = (
  lowering: Lowering,
  panels: ReadonlyMap<PanelNode, PanelIndex>,
  { panels: models, groups }: Pick<Tub, 'panels' | 'groups'>,
  outlets: ReadonlyMap<Outlet, OutletIndex>,
  groupIndices: ReadonlyMap<Group | ExistingFile, GroupIndex>,
): Indices => {
  const panelOf = (node: PanelNode): PanelIndex | undefined => panels.get(node);
  const panelAt = (ref: Ref | undefined): PanelIndex | undefined => {
    const node = panelNodeOf(lowering, ref);
    return node && panelOf(node);
  };
  const tub = { panels: models, groups };
  const ifWet = (panel: PanelIndex | undefined, ref: Ref | undefined): PanelIndex | undefined => {
    if (panel === undefined || isWet(tub, panel)) return panel;
    const group = groups![models[panel].group!];
    lowering.reports.add(
      'group/not-wet',
      lowering.idOf(ref!),
      `\`${textOf(ref!)}\` is of ${toldGroup(group)}, which holds no liquid; it needs to be a panel of the tub`,
      { about: [models[panel].name] },
    );
    return undefined;
  };
  return {
    panelOf,
    panelAt,
    wetPanelAt: (ref) => ifWet(panelAt(ref), ref),
    wetPanelOf: (node, ref) => ifWet(panelOf(node), ref),
    panelName: (panel) => models[panel].name,
    roleOf: (panel) => roleOf(tub, panel),
    bodyOf: (panel) => bodyOf(tub, panel),
    bodyOfGroup: (group) => (group.role === 'part' ? -1 : groupIndices.get(group)),
    outletOf: (node) => outlets.get(node),
    outletAt: (ref) => {
      const target = targetOf(ref);
      if (!target) return undefined;
      return isOutlet(target) ? outlets.get(target) : reportWrongKind(lowering, ref, 'an outlet');
    },
  };
};
