import { leanTub } from '../../analysis/model/around/lean-tub.js';
import { leaned } from '../../analysis/geometry/lean.js';
import type { Vec3 } from '../../analysis/geometry/vec.js';
import type { Finding } from '../../analysis/model/finding.js';
import type { DrainPath, Parameter, Stand, Tub } from '../../analysis/model/tub.js';
import {
  isAccept,
  isAim,
  isClear,
  isExistingFile,
  isGroup,
  isInflow,
  isLet,
  isLevel,
  isLiquid,
  isMirror,
  isPath,
  isMade,
  isMarks,
  isPin,
  isPoint,
  isRepeat,
  isSheet,
  isShop,
  isStand,
  isStrip,
  isTank,
  isTaped,
  isTubName,
  isUnits,
  isVariant,
  isWeek,
  isZone,
  type Aim,
  type Expression,
  type Let,
  type Outlet,
  type Statement,
  type Variant,
} from '../generated/ast.js';
import { aimOf } from './aim.js';
import { clearOf } from './around/clears.js';
import { freeValuesOf, type FreeValue } from './free.js';
import { jointsOf } from './joins/all-joints.js';
import { createIndices, type Indices } from './indices.js';
import { valueOf } from './values/evaluate.js';
import { solvers } from './solvers.js';
import { groupModelOf, seated } from './around/groups.js';
import { standOf } from './around/stands.js';
import { tellMakings } from './makings.js';
import { asCut, madePartsOf } from './around/made.js';
import { marksOf } from './shop/marks.js';
import { pinOf } from './shop/pins.js';
import { inflowsIn, tanksIn } from './water/all-flows.js';
import { acceptOf, liquidOf, pathOf, weekOf, zoneOf } from './water/liquid.js';
import { AS_WRITTEN, Lowering, type Numbers, type StandIns, type Things } from './lowering.js';
import { panelsOf, Sheets } from './panels/panels.js';
import { ofNearestFile, tellHiddenSheets, tellHiddenValues, tellOwnOnly, tellTakenOver } from './text/nearest-file.js';
import { shopOf } from './shop/shops.js';
import { tapedOf } from './around/taped.js';
import { thingOf } from './around/things.js';
import { nearest, one } from './text/once.js';
import type { SourceTable, TubDocument } from './text/sources.js';
import { dimensionOf } from './values/units.js';
import { asAngle } from './values/coerce.js';
import { ofVariant, reportVariants, valuesOfVariant } from './variants.js';
import { openingsIn } from './water/all-openings.js';
import { evaluatedStatementsOf } from './text/statements.js';

/** What is taken instead of what the text states, and the table of places that is shared with the text itself. */
export interface AsIf {
  readonly numbers?: Numbers;
  readonly variant?: Variant;
  readonly sources?: SourceTable;
  /** What the files of existing things hold. */
  readonly things?: Things;
}

export interface Lowered {
  readonly tub: Tub;
  readonly sources: SourceTable;
  /** What the text itself has wrong: units, names of the wrong kind, cycles, values out of range. */
  readonly findings: readonly Finding[];
  /** Values of the main file that may be worked out. */
  readonly free: readonly FreeValue[];
  readonly standIns: StandIns;
}

/**
 * The tub that linked documents state, main file first. Never throws for what a text has wrong: what cannot be
 * evaluated is left out and reported, what stands beside it is kept. With `numbers`, the tub that the text would state with
 * those in it; with `variant`, that of one of its variants. O(n log n) in statements.
 */
export const lower = (
  documents: readonly TubDocument[],
  { numbers = AS_WRITTEN, variant, sources, things }: AsIf = {},
): Lowered => {
  const instead = variant ? valuesOfVariant(variant) : new Map<Let, Expression>();
  const lowering = new Lowering(documents, numbers, solvers, instead, {
    ...(sources && { sources }),
    ...(things && { things }),
  });
  const statements = lowering.files.flatMap((file) => [...evaluatedStatementsOf(file)]);
  const free = freeValuesOf(lowering, statements.filter(isLet));
  tellMakings(
    lowering,
    statements.filter((node) => isMirror(node) || isRepeat(node)),
  );
  if (!variant) reportVariants(lowering, statements.filter(isVariant));
  const stands = standOf(lowering, nearest(lowering, statements.filter(isStand), 'stands'));
  const built = modelOf(lowering, statements, free, stands);
  const stated = stands ? leanTub(built, stands) : built;
  const tub = variant ? ofVariant(lowering, stated, variant) : stated;
  const standIns = { sheets: lowering.sheetsWithStandIns, lacksOutlet: lowering.lacksOutlet };
  return { tub, sources: lowering.sources, findings: lowering.reports.findings, free, standIns };
};

/** As it is built; what is worked out from heights here goes by how it `stands`. */
const modelOf = (
  lowering: Lowering,
  statements: readonly Statement[],
  free: readonly FreeValue[],
  stands: Stand | undefined,
): Tub => {
  const parameters = parametersOf(lowering, statements);
  const sheets = new Sheets(lowering, statements.filter(isSheet));
  const groupNodes = statements.filter((node) => isGroup(node) || isExistingFile(node));
  const groups = groupNodes.map((node) => groupModelOf(lowering, node));
  const groupIndices = new Map(groupNodes.map((node, i) => [node, i]));
  const things = groupNodes.flatMap((node, i) => (isExistingFile(node) ? (thingOf(lowering, node, i) ?? []) : []));
  const { panels, strips, panelIndices } = panelsOf(lowering, statements.filter(isStrip), sheets, groupIndices);
  const outletIndices = new Map<Outlet, number>();
  const indices = createIndices(lowering, panelIndices, { panels, groups }, outletIndices, groupIndices);
  const { openings, outlets } = openingsIn(lowering, statements, indices, outletIndices);
  const title = one(lowering, statements.filter(isTubName), 'tub');
  const level = nearest(lowering, statements.filter(isLevel), 'level');
  const liquid = nearest(lowering, statements.filter(isLiquid), 'liquid');
  const shop = ofNearestFile(lowering, statements.filter(isShop), 'shop');
  tellTakenOver(lowering, shop[0], 'shop');
  tellHidden(lowering, statements);
  const within = asAngle(lowering, level?.within, 'Level of the stand', { atLeast: 0, below: 45 });
  const { tanks, tankIndices } = tanksIn(lowering, statements.filter(isTank), indices);
  const liquidModel = liquid && liquidOf(lowering, liquid);
  const pumpContext = {
    tanks,
    tankIndices,
    liquid: liquidModel,
    corners: (panel: number) => panels[panel].corners,
    standing: (place: Vec3) => (stands ? leaned(place, stands) : place),
  };
  const joints = jointsOf(lowering, statements, indices);
  return {
    name: title?.name ?? fileName(lowering),
    at: lowering.sources.startOf(0, title),
    parameters,
    ...joints,
    sheets: sheets.models,
    strips,
    ...seated(lowering, groups, groupNodes, indices),
    ...(things.length > 0 ? { things } : undefined),
    outlets,
    openings,
    level: level && within !== undefined ? { at: lowering.idOf(level), within } : undefined,
    liquid: liquidModel,
    inflows: inflowsIn(lowering, statements.filter(isInflow), indices, pumpContext),
    paths: statements.filter(isPath).map((node): DrainPath => pathOf(lowering, node, indices)),
    tanks,
    ...weekIn(lowering, statements),
    ...zonesAndMarks(lowering, statements, indices),
    ...measuredIn(lowering, statements, indices, { panels, strips, bends: joints.bends }),
    accepts: statements.filter(isAccept).flatMap((node) => acceptOf(lowering, node) ?? []),
    shop: shopOf(lowering, shop),
    aim: aimOf(lowering, ownAim(lowering, statements.filter(isAim)), indices, free),
  };
};

const weekIn = (lowering: Lowering, statements: readonly Statement[]): Pick<Tub, 'week'> => {
  const week = one(lowering, statements.filter(isWeek), 'week');
  return week ? { week: weekOf(lowering, week) } : {};
};

const zonesAndMarks = (
  lowering: Lowering,
  statements: readonly Statement[],
  indices: Indices,
): Pick<Tub, 'dryZones' | 'keepouts' | 'clears' | 'pins' | 'marks'> => {
  const zones = statements.filter(isZone).map((node) => ({ kind: node.kind, zone: zoneOf(lowering, node) }));
  const marks = marksOf(lowering, statements.filter(isMarks), indices);
  const clears = statements.filter(isClear).flatMap((node) => clearOf(lowering, node, indices) ?? []);
  const pins = statements.filter(isPin).flatMap((node) => pinOf(lowering, node, indices) ?? []);
  return {
    dryZones: zones.flatMap(({ kind, zone }) => (kind === 'dry' && zone ? [zone] : [])),
    keepouts: zones.flatMap(({ kind, zone }) => (kind === 'keepout' && zone ? [zone] : [])),
    ...(clears.length > 0 ? { clears } : undefined),
    ...(pins.length > 0 ? { pins } : undefined),
    ...(marks.length > 0 ? { marks } : undefined),
  };
};

const tapedIn = (lowering: Lowering, statements: readonly Statement[]): Pick<Tub, 'taped'> => {
  const taped = statements.some(isTaped) ? tapedOf(lowering) : [];
  return taped.length > 0 ? { taped } : {};
};

const measuredIn = (
  lowering: Lowering,
  statements: readonly Statement[],
  indices: Indices,
  stated: Pick<Tub, 'panels' | 'strips' | 'bends'>,
): Pick<Tub, 'made' | 'taped' | 'panels'> => {
  const made = madePartsOf(lowering, statements.filter(isMade), indices, stated);
  return { ...tapedIn(lowering, statements), ...(made.length > 0 ? { made } : {}), panels: asCut(stated, made) };
};

const tellHidden = (lowering: Lowering, statements: readonly Statement[]): void => {
  tellHiddenSheets(lowering, statements.filter(isSheet));
  tellHiddenValues(lowering, [...statements.filter(isLet), ...statements.filter(isPoint)]);
  one(lowering, statements.filter(isUnits), 'units');
};
/** Of the main file: what another file wishes is its own matter. */
const ownAim = (lowering: Lowering, aims: readonly Aim[]): Aim | undefined => {
  for (const aim of aims.filter(({ $container }) => $container !== lowering.files[0]))
    tellOwnOnly(lowering, aim, 'word', 'The `aim`');
  return one(
    lowering,
    aims.filter(({ $container }) => $container === lowering.files[0]),
    'aim',
  );
};

/** `basin` for `…/basin.tub`: the name of a tub that gives itself none. */
const fileName = (lowering: Lowering): string =>
  lowering.documents[0].uri.path.replace(/^.*\//, '').replace(/\.tub$/, '');

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
