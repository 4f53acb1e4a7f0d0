import { AstUtils, type LangiumDocuments } from 'langium';
import { ROUND_OFF } from '../../../../analysis/geometry/tolerance.js';
import { distance, dot, lengthOf, type Vec3 } from '../../../../analysis/geometry/vec.js';
import type { Panel, Tub } from '../../../../analysis/model/tub.js';
import { evaluate, evaluateVariant, findingsOfText, variantsIn, type Evaluated } from '../../../analyse.js';
import { isFraction, isLet, isNamed, isPoint, isQuantity, type Let } from '../../../generated/ast.js';
import { lower } from '../../../lower/to-model.js';
import type { TubDocument } from '../../../lower/text/sources.js';
import type { Row } from './row.js';

/** Names of the panels that become legs, old and new. */
export type NewNames = ReadonlyMap<string, string>;

/** Does a text with a strip in place of a row state the same tub, in every variant, with no more wrong in it? */
export const statesSameTub = (
  store: LangiumDocuments,
  before: TubDocument,
  after: TubDocument,
  names: NewNames,
): boolean => {
  const [old, fresh] = [evaluate(store, before), evaluate(store, after)];
  if (findingsOfText(store, fresh).length > findingsOfText(store, old).length) return false;
  if (faultsOf(after) > faultsOf(before) || !areAlike(old.tub, fresh.tub, names)) return false;
  if (!haveSameWetSides(old, fresh, names)) return false;
  const later = variantsIn(after);
  return variantsIn(before).every((variant) => {
    const same = later.find(({ name }) => name === variant.name);
    return (
      same && areAlike(evaluateVariant(store, before, variant).tub, evaluateVariant(store, after, same).tub, names)
    );
  });
};

/** The values that the corners of a row hang on and its strip does not. */
export const valuesLost = (
  store: LangiumDocuments,
  row: Row,
  before: TubDocument,
  after: TubDocument,
  names: NewNames,
): readonly Let[] => {
  const [old, fresh] = [evaluate(store, before), evaluate(store, after)];
  return [...valuesOf(row)].filter((value) => {
    const same = fresh.documents.includes(AstUtils.getDocument(value))
      ? value
      : after.parseResult.value.statements.find((each): each is Let => isLet(each) && each.name === value.name);
    return !same || !haveSameRow(moved(old, value), moved(fresh, same), names);
  });
};

const faultsOf = ({ parseResult, references }: TubDocument): number =>
  parseResult.parserErrors.length + parseResult.lexerErrors.length + references.filter(({ error }) => error).length;

const areAlike = (before: Tub, after: Tub, names: NewNames): boolean =>
  haveSameRow(before, after, names) &&
  bendsOf(before, names).join('\n') === bendsOf(after, new Map()).join('\n') &&
  COUNTED.every((key) => before[key]?.length === after[key]?.length);

const COUNTED = [
  'seams',
  'faceJoints',
  'rims',
  'outlets',
  'openings',
  'inflows',
  'paths',
  'pins',
  'made',
  'accepts',
] as const;

/** All panels where they were: of those that are legs now, in any order of corners. */
const haveSameRow = (before: Tub, after: Tub, names: NewNames): boolean => {
  const later = new Map(after.panels.map((panel) => [panel.name, panel]));
  return (
    before.panels.length === after.panels.length &&
    before.panels.every((panel) => {
      const renamed = names.get(panel.name);
      const same = later.get(renamed ?? panel.name);
      if (!same || same.sheet !== panel.sheet || same.corners.length !== panel.corners.length) return false;
      return panel.corners.every((corner, i) => isThere(corner, renamed ? same.corners : [same.corners[i]]));
    })
  );
};

const haveSameWetSides = (before: Evaluated, after: Evaluated, names: NewNames): boolean => {
  const later = new Map(after.stages.shape().faces.map((face) => [face.name, face.frame.normal]));
  return before.stages.shape().faces.every(({ name, frame }) => {
    const normal = later.get(names.get(name) ?? name);
    return normal !== undefined && (dot(normal, frame.normal) > 0 || lengthOf(frame.normal) === 0);
  });
};

const isThere = (corner: Vec3, places: Panel['corners']): boolean =>
  places.some((place) => distance(corner, place) <= ROUND_OFF);

const bendsOf = ({ bends, panels }: Tub, names: NewNames): readonly string[] =>
  bends
    .map((bend) => {
      const between = bend.panels.map((i) => names.get(panels[i].name) ?? panels[i].name).sort();
      return [...between, bend.radius, bend.kFactor].join(' ');
    })
    .sort();

/** Every value that the corners of a row are made from, however far back. */
const valuesOf = (row: Row): ReadonlySet<Let> => {
  const found = new Set<Let>();
  const seen = new Set<object>();
  const open: Parameters<typeof AstUtils.streamAst>[0][] = row.panels.flatMap(({ corners }) => corners);
  for (let node = open.pop(); node; node = open.pop()) {
    for (const each of AstUtils.streamAst(node)) {
      const target = isNamed(each)
        ? each.ref.ref
        : each.$type === 'Corner'
          ? (each as Row['panels'][number]['corners'][number]).point?.ref
          : undefined;
      if (!target || seen.has(target)) continue;
      seen.add(target);
      if (isLet(target)) found.add(target);
      if (isLet(target) || isPoint(target)) open.push(target);
    }
  }
  return found;
};

/** Share of itself, and how much where it is nothing, that a number is moved by to see what hangs on it. */
const MOVE = 1 / 256;

const moved = ({ documents, things }: Evaluated, value: Let): Tub => {
  const literals = AstUtils.streamAst(value).filter((each) => isQuantity(each) || isFraction(each));
  const numbers = new Map(
    literals.map((each) => [each, each.value === 0 ? MOVE : each.value * (1 + MOVE)] as const).toArray(),
  );
  return lower(documents, { numbers, things }).tub;
};
