import type {
  Panel as PanelModel,
  PanelKind,
  Sheet as SheetModel,
  Strip as StripModel,
} from '../../../analysis/model/tub.js';
import type { ExistingFile, Group, Panel, Sheet, Statement, Strip } from '../../generated/ast.js';
import { thingOfPlaced } from './placed-nodes.js';
import { placedSheet } from './placed-panels.js';
import { faceOf } from './faces.js';
import type { Lowering } from '../lowering.js';
import { edgeOf } from './edges.js';
import { groupOf, nameOf, stripEndOf } from '../references.js';
import { panelNodes } from './panel-nodes.js';
import type { PanelNode } from '../values/values.js';
import { sheetOf } from '../shop/sheets.js';
import { stripLegs } from './strips.js';

/** The sheets of the files; where a statement's sheet cannot be found (which is reported) the first one stands in. */
export class Sheets {
  readonly models: SheetModel[];
  private readonly indices: ReadonlyMap<Sheet, number>;

  constructor(
    private readonly lowering: Lowering,
    nodes: readonly Sheet[],
  ) {
    this.models = nodes.map((node) => sheetOf(lowering, node));
    this.indices = new Map(nodes.map((node, i) => [node, i]));
  }

  /** The sheet of a panel of another file. */
  ofThing(thing: ExistingFile, panel: Panel): number {
    const sheet = placedSheet(this.lowering, thing, panel);
    if (!sheet) return this.indexOf(undefined, thing);
    const name = `${thing.name}.${sheet.name}`;
    const known = this.models.findIndex((each) => each.name === name);
    return known >= 0 ? known : this.models.push({ ...sheet, name, at: this.lowering.idOf(thing) }) - 1;
  }

  indexOf(node: Sheet | undefined, user: Statement): number {
    const index = node && this.indices.get(node);
    if (index !== undefined) return index;
    if (this.models.length === 0) {
      this.models.push({
        name: 'unknown sheet',
        at: this.lowering.idOf(user),
        material: 'steel',
        thickness: 1,
        gauge: undefined,
        radius: 1,
        kFactor: undefined,
        coupon: undefined,
        grain: 'any',
      });
    }
    return 0;
  }
}

export interface Panels {
  readonly panels: readonly PanelModel[];
  readonly strips: readonly StripModel[];
  readonly panelIndices: ReadonlyMap<PanelNode, number>;
}

/** The panels and strips that the text places, in its order: a strip's legs where the strip stands. */
export const panelsOf = (
  lowering: Lowering,
  stripNodes: readonly Strip[],
  sheets: Sheets,
  groups: ReadonlyMap<Group | ExistingFile, number>,
): Panels => {
  const stripIndices = new Map(stripNodes.map((node, i) => [node, i]));
  const placed = [...panelNodes(lowering)].flatMap((node) => {
    const face = faceOf(lowering, node);
    return face ? [{ node, face }] : [];
  });
  const panelIndices = new Map(placed.map(({ node }, i) => [node, i]));
  const sheetOfPanel = memoSheet(lowering, sheets);
  const groupOfPanel = memoGroup(lowering);
  const panels = placed.map(({ node, face }): PanelModel => ({
    name: nameOf(node),
    at: lowering.idOf(node),
    sheet: sheetOfPanel(node),
    ...face,
    ...inGroup(groups.get(groupOfPanel(node)!)),
    kind: kindOf(lowering, node, panelIndices, stripIndices),
  }));
  const strips = stripNodes.map((node): StripModel => {
    const legs = stripLegs(lowering, node);
    return {
      name: nameOf(node),
      at: lowering.idOf(node),
      sheet: sheets.indexOf(node.sheet?.ref, node),
      panels: (node.legs ?? []).flatMap((leg) => panelIndices.get(leg) ?? []),
      heading: legs?.heading ?? [1, 0, 0],
      across: legs?.across ?? [0, 1, 0],
      width: legs?.width ?? 0,
    };
  });
  return { panels, strips, panelIndices };
};

const inGroup = (group: number | undefined): Pick<PanelModel, 'group'> => (group === undefined ? {} : { group });

/** The group of each panel, looked up once. A flange is of what its root is of, wherever its statement stands. */
const memoGroup = (lowering: Lowering): ((node: PanelNode) => Group | ExistingFile | undefined) => {
  const known = new Map<PanelNode, Group | ExistingFile | undefined>();
  const groupOfPanel = (node: PanelNode): Group | ExistingFile | undefined => {
    if (known.has(node)) return known.get(node);
    const root = node.$type === 'Flange' ? edgeOf(lowering, node.edge)?.node : undefined;
    const group = root ? groupOfPanel(root) : (thingOfPlaced(node) ?? groupOf(node));
    known.set(node, group);
    return group;
  };
  return groupOfPanel;
};

/** The sheet of each panel, looked up once. A flange is of its parent's sheet. */
const memoSheet = (lowering: Lowering, sheets: Sheets): ((node: PanelNode) => number) => {
  const known = new Map<PanelNode, number>();
  const look = (node: PanelNode): number => {
    const thing = thingOfPlaced(node);
    if (thing && node.$type === 'Panel') return sheets.ofThing(thing, node);
    if (node.$type === 'Leg') return sheets.indexOf(node.$container.sheet?.ref, node.$container);
    if (node.$type !== 'Flange') return sheets.indexOf(node.sheet?.ref, node);
    const root = edgeOf(lowering, node.edge);
    return root ? sheetOfNode(root.node) : sheets.indexOf(undefined, node);
  };
  const sheetOfNode = (node: PanelNode): number => {
    const index = known.get(node) ?? look(node);
    known.set(node, index);
    return index;
  };
  return sheetOfNode;
};

const kindOf = (
  lowering: Lowering,
  node: PanelNode,
  panels: ReadonlyMap<PanelNode, number>,
  strips: ReadonlyMap<Strip, number>,
): PanelKind => {
  switch (node.$type) {
    case 'Panel':
      return { kind: 'points' };
    case 'Leg':
      return { kind: 'leg', strip: strips.get(node.$container)!, leg: node.$containerIndex ?? 0 };
    case 'Side': {
      if (node.crossed) return { kind: 'points' };
      const closed = stripEndOf(lowering, node.end)!;
      return { kind: 'side', strip: strips.get(closed.strip)!, end: closed.end };
    }
    case 'Flange': {
      const root = edgeOf(lowering, node.edge)!;
      return {
        kind: 'flange',
        parent: { panel: panels.get(root.node)!, edge: root.edge, at: lowering.idOf(node.edge) },
        ...(node.angle ? {} : { set: node.set ?? 'plumb' }),
      };
    }
  }
};
