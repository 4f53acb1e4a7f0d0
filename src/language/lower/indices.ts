import type { OutletIndex, PanelIndex } from '../../analysis/model/tub.js';
import { isOutlet, type Outlet, type Ref } from '../generated/ast.js';
import { panelNodeOf, reportWrongKind, targetOf } from './references.js';
import type { PanelNode } from './values.js';
import type { Lowering } from './lowering.js';

/** Where each statement came to stand in the model's lists. */
export interface Indices {
  readonly panelOf: (node: PanelNode) => PanelIndex | undefined;
  /** The panel a reference means; a thing of another kind is reported. */
  readonly panelAt: (ref: Ref | undefined) => PanelIndex | undefined;
  readonly panelName: (panel: PanelIndex) => string;
  readonly outletOf: (node: Outlet) => OutletIndex | undefined;
  readonly outletAt: (ref: Ref) => OutletIndex | undefined;
}

export const createIndices = (
  lowering: Lowering,
  panels: ReadonlyMap<PanelNode, PanelIndex>,
  names: readonly string[],
  outlets: ReadonlyMap<Outlet, OutletIndex>,
): Indices => {
  const panelOf = (node: PanelNode): PanelIndex | undefined => panels.get(node);
  return {
    panelOf,
    panelAt: (ref) => {
      const node = panelNodeOf(lowering, ref);
      return node && panelOf(node);
    },
    panelName: (panel) => names[panel],
    outletOf: (node) => outlets.get(node),
    outletAt: (ref) => {
      const target = targetOf(ref);
      if (!target) return undefined;
      return isOutlet(target) ? outlets.get(target) : reportWrongKind(lowering, ref, 'an outlet');
    },
  };
};
