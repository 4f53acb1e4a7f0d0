import type { Aim as AimModel, Aspect as AspectModel, Wish as WishModel } from '../../analysis/model/tub.js';
import { limits } from '../../analysis/model/limits.js';
import { isLet, type Aim, type Aspect, type Bound, type Wish } from '../generated/ast.js';
import { asDimension, listed, NOT_NEGATIVE, POSITIVE, type Range } from './values/coerce.js';
import { evaluate, valueOf } from './values/evaluate.js';
import { twoBodies } from './around/clears.js';
import type { FreeValue } from './free.js';
import type { Indices } from './indices.js';
import type { Lowering } from './lowering.js';
import { dimensionOf, LENGTH, NUMBER, samePowers } from './values/units.js';
import { describe } from './values/values.js';

/** What the tub is to become; wishes that cannot be read are reported and left out. */
export const aimOf = (
  lowering: Lowering,
  node: Aim | undefined,
  indices: Indices,
  free: readonly FreeValue[],
): AimModel | undefined => {
  if (!node) return undefined;
  if (!(node.$container.statements ?? []).some((each) => isLet(each) && each.free))
    lowering.reports.add(
      'aim/nothing-free',
      lowering.idOf(node, 'word'),
      'Nothing is free in this text, so nothing can be worked out; a value is free as in `let rim = 250 mm free 120 mm to 300 mm`',
    );
  const wishes = listed(lowering, node.wishes, 'A wish').flatMap((wish) => wishOf(lowering, wish, indices, free) ?? []);
  return { at: lowering.idOf(node), wishes: wishes.filter((wish, i) => isFirst(lowering, wish, wishes.slice(0, i))) };
};

/** Told where the same is wished again: one of a goal's kind decides all that the next could. */
const isFirst = (lowering: Lowering, wish: WishModel, before: readonly WishModel[]): boolean => {
  const same = before.find((each) => subjectOf(each) === subjectOf(wish));
  if (!same) return true;
  const message =
    wish.text === same.text
      ? `\`${wish.text}\` is wished twice; it needs to stand once`
      : `\`${wish.text}\` comes after \`${same.text}\`, which decides all that it could; one of the two needs to go`;
  const related = [{ at: same.at, message: 'First stated here' }];
  lowering.reports.add('text/stated-twice', wish.at, message, { related });
  return false;
};

/** What cannot be wished twice: goals of one thing, everything else in the same words. */
const subjectOf = (wish: WishModel): string => (wish.kind === 'goal' ? JSON.stringify(wish.of) : wish.text);

const wishOf = (
  lowering: Lowering,
  node: Wish,
  indices: Indices,
  free: readonly FreeValue[],
): WishModel | undefined => {
  const wish = { at: lowering.idOf(node), text: (node.$cstNode?.text ?? '').replace(/\s+/g, ' ') };
  switch (node.$type) {
    case 'Goal': {
      if (node.fewest) return { ...wish, kind: 'goal', way: 'least', of: { kind: node.fewest } };
      const of = aspectOf(lowering, node.of, indices, free);
      if (!of || !node.of || !isFree(lowering, node.of, free)) return undefined;
      return { ...wish, kind: 'goal', way: node.way ?? 'least', of };
    }
    case 'Bound': {
      const of = aspectOf(lowering, node.of, indices, free);
      const limit = of && limitOf(lowering, node, of);
      return of && limit !== undefined ? { ...wish, kind: 'bound', way: node.way, of, limit } : undefined;
    }
    case 'FitsStock':
      return { ...wish, kind: 'stock' };
    case 'OneMachine':
      return { ...wish, kind: 'machine' };
    case 'NoFindings':
      return { ...wish, kind: 'findings', none: node.severity };
    default:
      return undefined;
  }
};

const aspectOf = (
  lowering: Lowering,
  node: Aspect | undefined,
  indices: Indices,
  free: readonly FreeValue[],
): AspectModel | undefined => {
  if (node?.kind === undefined) return undefined;
  if (node.kind === 'let') return valueAspect(lowering, node, free);
  if (node.kind === 'clear') return clearAspect(lowering, node, indices);
  if (node.kind !== 'slope') return { kind: node.kind };
  const panel = indices.panelAt(node.panel);
  return panel === undefined ? undefined : { kind: 'slope', panel };
};

const clearAspect = (lowering: Lowering, { things }: Aspect, indices: Indices): AspectModel | undefined => {
  const bodies = twoBodies(lowering, things, indices);
  return bodies && { kind: 'clear', bodies };
};

const valueAspect = (lowering: Lowering, node: Aspect, free: readonly FreeValue[]): AspectModel | undefined => {
  const target = node.value?.ref;
  const value = target && valueOf(lowering, target);
  if (!value) return undefined;
  const dimension = value.kind === 'number' ? dimensionOf(value.powers) : undefined;
  if (value.kind === 'number' && dimension) {
    // A number of things, or of a gauge, is no length, whatever bare lengths are in the file.
    const isCount = free.some((each) => each.node === target && each.unit === '');
    const length = isCount ? undefined : value.bare?.factor;
    const shown =
      length === undefined
        ? { dimension, value: value.value }
        : { dimension: 'length' as const, value: value.value * length };
    return { kind: 'value', name: target.name, ...shown };
  }
  const message = `\`${target.name}\` is ${describe(value)}; a wish needs a number`;
  lowering.reports.add('text/wrong-kind', lowering.idOf(node, 'value'), message, { about: [target.name] });
  return undefined;
};

const isFree = (lowering: Lowering, node: Aspect, free: readonly FreeValue[]): boolean => {
  const target = node.kind === 'let' ? node.value?.ref : undefined;
  // What is wrong with a value that is meant to be free is told there.
  if (!target || (isLet(target) && target.free) || free.some((each) => each.node === target)) return true;
  const message = `\`${target.name}\` is not free, so it can become no ${lessOrMore(node)}; a value is free as in \`let ${target.name} = … free … to …\``;
  lowering.reports.add('aim/not-free', lowering.idOf(node, 'value'), message, { about: [target.name] });
  return false;
};

const lessOrMore = ({ $container }: Aspect): string =>
  $container.$type === 'Goal' && $container.way === 'least' ? 'less' : 'more';

const SLOPE: Range = { atLeast: 0, below: 90 };

/** The limit of a wish, in mm, rad, kg, mm2, mm3 or a count. */
const limitOf = (lowering: Lowering, { limit }: Bound, of: AspectModel): number | undefined => {
  switch (of.kind) {
    case 'capacity':
      return asDimension(lowering, limit, 'volume', 'Wished capacity', POSITIVE);
    case 'mass':
      return asDimension(lowering, limit, 'mass', 'Wished mass', POSITIVE);
    case 'bow':
      return asDimension(lowering, limit, 'length', 'Wished bow', POSITIVE);
    case 'bends':
      return asDimension(lowering, limit, 'number', 'Wished number of bends', NOT_NEGATIVE);
    case 'slope':
      return asDimension(lowering, limit, 'angle', 'Wished slope', SLOPE);
    case 'sheet':
      return areaOf(lowering, limit);
    case 'clear':
      return asDimension(lowering, limit, 'length', 'Wished clearance', NOT_NEGATIVE);
    case 'value':
      return of.dimension === 'point' ? undefined : asDimension(lowering, limit, of.dimension, `Wished \`${of.name}\``);
  }
};

/** `0.8 m * 1.2 m`: areas have no unit of their own. */
const areaOf = (lowering: Lowering, limit: Bound['limit']): number | undefined => {
  const value = evaluate(lowering, limit);
  if (!value || !limit) return undefined;
  const most = limits.length.atMost ** 2;
  if (value.kind === 'number' && samePowers(value.powers, [2, 0, 0, 0, 0, 0]) && value.value > 0 && value.value <= most)
    return value.value;
  const isBare = value.kind === 'number' && (samePowers(value.powers, NUMBER) || samePowers(value.powers, LENGTH));
  const has = isBare ? describe(value) : 'too large, nothing, or no area';
  const message = `Wished sheet is ${has}; it needs an area such as \`0.8 m * 1.2 m\``;
  lowering.reports.add('unit/wrong', lowering.idOf(limit), message);
  return undefined;
};
