import type { Finding } from '../../analysis/finding.js';
import type {
  DrainPath,
  Opening,
  Outlet as OutletModel,
  Panel as PanelModel,
  PanelKind,
  Parameter,
  Rim,
  Seam,
  Sheet as SheetModel,
  SourceId,
  StatedBend,
  Strip as StripModel,
  Tub,
} from '../../analysis/model.js';
import {
  isAccept,
  isBend,
  isCutout,
  isFlange,
  isHole,
  isInflow,
  isLet,
  isLevel,
  isLiquid,
  isOutlet,
  isPath,
  isPoint,
  isRim,
  isSeam,
  isSheet,
  isShop,
  isSlot,
  isStrip,
  isTank,
  isTubName,
  isUnits,
  isZone,
  type Outlet,
  type Sheet,
  type Statement,
  type Strip,
} from '../generated/ast.js';
import { faceOf, middleOf, panelNodes } from './faces.js';
import { createIndices, type Indices } from './indices.js';
import { valueOf } from './evaluate.js';
import { flangeBend, rimOf, seamOf, statedBend, stripBends } from './joints.js';
import { acceptOf, inflowOf, liquidOf, pathOf, tankOf, zoneOf } from './liquid.js';
import { Lowering } from './lowering.js';
import { OpeningNames, openingsOf, outletOf } from './openings.js';
import { edgeOf, nameOf, stripEndOf, type PanelNode } from './references.js';
import { sheetOf } from './sheets.js';
import { shopOf } from './shops.js';
import type { SourceTable, TubDocument } from './sources.js';
import { stripLegs } from './strips.js';
import { dimensionOf } from './units.js';
import { asAngle } from './wanted.js';

export interface Lowered {
  readonly tub: Tub;
  readonly sources: SourceTable;
  /** What the text itself has wrong: units, names of the wrong kind, cycles, values out of range. */
  readonly findings: readonly Finding[];
}

export interface LowerOptions {
  /** Numbers to take instead of the literals at those places, each in the literal's own unit. */
  readonly overrides?: ReadonlyMap<SourceId, number>;
}

/**
 * The tub that linked documents state, main file first. Never throws for what a text has wrong: what cannot be
 * evaluated is left out and reported, what stands beside it is kept. O(n log n) in statements.
 */
export const lower = (documents: readonly TubDocument[], options: LowerOptions = {}): Lowered => {
  const lowering = new Lowering(documents, options.overrides ?? new Map(), middleOf);
  const statements = lowering.files.flatMap((file) => file.statements ?? []);
  const tub = modelOf(lowering, statements);
  return { tub, sources: lowering.sources, findings: lowering.reports.findings };
};

const modelOf = (lowering: Lowering, statements: readonly Statement[]): Tub => {
  const parameters = parametersOf(lowering, statements);
  const sheets = new Sheets(lowering, statements.filter(isSheet));
  const { panels, strips, panelIndices } = panelsOf(lowering, statements.filter(isStrip), sheets);
  const openings: Opening[] = [];
  const outlets: OutletModel[] = [];
  const outletIndices = new Map<Outlet, number>();
  const indices = createIndices(
    lowering,
    panelIndices,
    panels.map((panel) => panel.name),
    outletIndices,
  );
  collectOpenings(lowering, statements, indices, openings, outlets, outletIndices);
  const title = one(lowering, statements.filter(isTubName), 'tub');
  const level = one(lowering, statements.filter(isLevel), 'level');
  const liquid = one(lowering, statements.filter(isLiquid), 'liquid');
  one(lowering, statements.filter(isUnits), 'units');
  const within = asAngle(lowering, level?.within, 'Level of the stand', { atLeast: 0, below: 45 });
  const inflowNames = new Set<string>();
  const zones = statements.filter(isZone).map((node) => ({ kind: node.kind, zone: zoneOf(lowering, node) }));
  return {
    name: title?.name ?? fileName(lowering),
    at: lowering.sources.startOf(0, title),
    parameters,
    ...jointsOf(lowering, statements, indices),
    sheets: sheets.models,
    panels,
    strips,
    outlets,
    openings,
    level: level && within !== undefined ? { at: lowering.idOf(level), within } : undefined,
    liquid: liquid && liquidOf(lowering, liquid),
    inflows: statements.filter(isInflow).flatMap((node) => inflowOf(lowering, node, indices, inflowNames) ?? []),
    paths: statements.filter(isPath).map((node): DrainPath => pathOf(lowering, node, indices)),
    tanks: statements.filter(isTank).flatMap((node) => tankOf(lowering, node, indices) ?? []),
    dryZones: zones.flatMap(({ kind, zone }) => (kind === 'dry' && zone ? [zone] : [])),
    keepouts: zones.flatMap(({ kind, zone }) => (kind === 'keepout' && zone ? [zone] : [])),
    accepts: statements.filter(isAccept).flatMap((node) => acceptOf(lowering, node) ?? []),
    shop: shopOf(lowering, statements.filter(isShop)),
  };
};

/** `basin` for `…/basin.tub`: the name of a tub that gives itself none. */
const fileName = (lowering: Lowering): string =>
  lowering.documents[0].uri.path.replace(/^.*\//, '').replace(/\.tub$/, '');

/** The first of the statements that may stand once in a file; more in the same file are reported. */
const one = <T extends Statement>(lowering: Lowering, nodes: readonly T[], word: string): T | undefined => {
  const second = nodes.find((node, i) => i > 0 && node.$container === nodes[0].$container);
  if (second) {
    lowering.reports.add(
      'text/stated-twice',
      lowering.idOf(second),
      `\`${word}\` is stated again; a file needs it once`,
      {
        related: [{ at: lowering.idOf(nodes[0]), message: 'First stated here' }],
      },
    );
  }
  return nodes[0];
};

const parametersOf = (lowering: Lowering, statements: readonly Statement[]): readonly Parameter[] =>
  statements.flatMap((node): readonly Parameter[] => {
    if (isPoint(node)) valueOf(lowering, node);
    if (!isLet(node)) return [];
    const value = valueOf(lowering, node);
    if (!value) return [];
    const parameter = { name: node.name, at: lowering.idOf(node) };
    if (value.kind === 'point') return [{ ...parameter, dimension: 'point', value: value.value }];
    if (value.bare?.factor !== undefined)
      return [{ ...parameter, dimension: 'length', value: value.value * value.bare.factor }];
    const dimension = dimensionOf(value.powers);
    return dimension ? [{ ...parameter, dimension, value: value.value }] : [];
  });

/** The sheets of the files; where a statement's sheet cannot be found (which is reported) the first one stands in. */
class Sheets {
  readonly models: SheetModel[];
  private readonly indices: ReadonlyMap<Sheet, number>;

  constructor(
    private readonly lowering: Lowering,
    nodes: readonly Sheet[],
  ) {
    this.models = nodes.map((node) => sheetOf(lowering, node));
    this.indices = new Map(nodes.map((node, i) => [node, i]));
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

interface Panels {
  readonly panels: readonly PanelModel[];
  readonly strips: readonly StripModel[];
  readonly panelIndices: ReadonlyMap<PanelNode, number>;
}

const panelsOf = (lowering: Lowering, stripNodes: readonly Strip[], sheets: Sheets): Panels => {
  const stripIndices = new Map(stripNodes.map((node, i) => [node, i]));
  const placed = [...panelNodes(lowering)].flatMap((node) => {
    const face = faceOf(lowering, node);
    return face ? [{ node, face }] : [];
  });
  const panelIndices = new Map(placed.map(({ node }, i) => [node, i]));
  const sheetOfPanel = memoSheet(lowering, sheets);
  const panels = placed.map(({ node, face }): PanelModel => ({
    name: nameOf(node),
    at: lowering.idOf(node),
    sheet: sheetOfPanel(node),
    ...face,
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

/** A flange is of its parent's sheet. */
const memoSheet = (lowering: Lowering, sheets: Sheets): ((node: PanelNode) => number) => {
  const sheetOfNode = (node: PanelNode): number => {
    if (node.$type === 'Leg') return sheets.indexOf(node.$container.sheet?.ref, node.$container);
    if (node.$type !== 'Flange') return sheets.indexOf(node.sheet?.ref, node);
    const root = edgeOf(lowering, node.edge);
    return root ? sheetOfNode(root.node) : sheets.indexOf(undefined, node);
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
      return { kind: 'leg', strip: strips.get(node.$container)!, leg: node.$container.legs.indexOf(node) };
    case 'Side': {
      const closed = stripEndOf(lowering, node.end)!;
      return { kind: 'side', strip: strips.get(closed.strip)!, end: closed.end };
    }
    case 'Flange': {
      const root = edgeOf(lowering, node.edge)!;
      return {
        kind: 'flange',
        parent: { panel: panels.get(root.node)!, edge: root.edge, at: lowering.idOf(node.edge) },
      };
    }
  }
};

const collectOpenings = (
  lowering: Lowering,
  statements: readonly Statement[],
  indices: Indices,
  openings: Opening[],
  outlets: OutletModel[],
  outletIndices: Map<Outlet, number>,
): void => {
  const names = new OpeningNames();
  for (const node of statements) {
    if (!isOutlet(node) && !isHole(node) && !isCutout(node) && !isSlot(node)) continue;
    const made = openingsOf(lowering, node, indices, names);
    if (isOutlet(node) && made.length > 0) {
      const outlet = outletOf(lowering, node, made[0], openings.length);
      if (outlet) {
        outletIndices.set(node, outlets.length);
        outlets.push(outlet);
      }
    }
    openings.push(...made);
  }
};

const jointsOf = (
  lowering: Lowering,
  statements: readonly Statement[],
  indices: Indices,
): Pick<Tub, 'bends' | 'seams' | 'rims'> => {
  const bends: StatedBend[] = [];
  const seams: Seam[] = [];
  const rims: Rim[] = [];
  for (const node of statements) {
    if (isStrip(node)) bends.push(...stripBends(lowering, node, indices));
    if (isFlange(node)) add(bends, flangeBend(lowering, node, indices));
    if (isBend(node)) add(bends, statedBend(lowering, node, indices));
    if (isSeam(node)) add(seams, seamOf(lowering, node, indices));
    if (isRim(node)) add(rims, rimOf(lowering, node, indices));
  }
  return { bends, seams, rims };
};

const add = <T>(list: T[], item: T | undefined): void => {
  if (item !== undefined) list.push(item);
};
