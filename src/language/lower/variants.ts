import type { AstNode } from 'langium';
import type { Tub } from '../../analysis/model/tub.js';
import { limits } from '../../analysis/model/limits.js';
import { isLet, type Expression, type Let, type Variant, type VariantValue } from '../generated/ast.js';
import { evaluate, valueOf } from './values/evaluate.js';
import type { Lowering } from './lowering.js';
import { acceptOf } from './water/liquid.js';
import { tellOwnOnly } from './text/nearest-file.js';
import { LENGTH, NUMBER, samePowers } from './values/units.js';
import { describe, type NumberValue, type Value } from './values/values.js';

/** What the variants of a text have wrong: whose values they change, and with what. */
export const reportVariants = (lowering: Lowering, variants: readonly Variant[]): void => {
  const own = variants.filter(({ $container }) => $container === lowering.files[0]);
  for (const variant of variants.filter((each) => isNamed(each) && !own.includes(each)))
    tellOwnOnly(lowering, variant, 'name', `Variant \`${variant.name}\``);
  reportTooMany(lowering, own);
  const first = new Map<string, Variant>();
  for (const variant of own) {
    const before = isNamed(variant) ? first.get(variant.name) : undefined;
    if (variant.name?.trim() === '')
      lowering.reports.add(
        'text/duplicate-name',
        lowering.idOf(variant, 'name'),
        'This variant has no name, so its files would take those of the tub; every variant needs a name of its own',
      );
    else if (before)
      tellTwice(
        lowering,
        'text/duplicate-name',
        [variant, before],
        `Variant \`${variant.name}\` is stated twice; every variant needs a name of its own`,
      );
    else first.set(variant.name, variant);
    reportValues(lowering, variant);
  }
};

/** A name that could not be read is told as what the text has wrong, not here. */
const isNamed = ({ name }: Variant): boolean => (name as string | undefined) !== undefined;

const reportTooMany = (lowering: Lowering, variants: readonly Variant[]): void => {
  const { atMost, name } = limits.variants;
  if (variants.length <= atMost) return;
  lowering.reports.add(
    'value/out-of-range',
    lowering.idOf(variants[atMost], 'name'),
    `With this the tub has ${variants.length} variants; it needs at most ${atMost}, the limit of ${name}`,
    { values: { has_count: variants.length, needs_count: atMost } },
  );
};

const tellTwice = (
  lowering: Lowering,
  code: 'text/duplicate-name' | 'text/stated-twice',
  [second, first]: readonly [AstNode, AstNode],
  message: string,
): void =>
  lowering.reports.add(code, lowering.idOf(second), message, {
    related: [{ at: lowering.idOf(first), message: 'First stated here' }],
  });

const reportValues = (lowering: Lowering, variant: Variant): void => {
  const stated = new Map<Let, VariantValue>();
  for (const value of variant.values ?? []) {
    const target = value.of?.ref;
    if (!target) continue;
    const name = `\`${target.name}\``;
    const before = stated.get(target);
    if (!isLet(target))
      lowering.reports.add(
        'text/wrong-kind',
        lowering.idOf(value, 'of'),
        `${name} is a point; a variant changes a value of \`let\``,
      );
    else if (target.$container !== variant.$container)
      lowering.reports.add(
        'use/not-own',
        lowering.idOf(value, 'of'),
        `${name} is stated in another file; a variant changes values of its own file, so state ${name} here`,
        { about: [target.name] },
      );
    else if (before)
      tellTwice(
        lowering,
        'text/stated-twice',
        [value, before],
        `${name} is stated twice in this variant; it needs to be stated once`,
      );
    else reportKind(lowering, value, target);
    stated.set(target, value);
  }
};

/** Another value of the same kind: a length for a length. */
const reportKind = (lowering: Lowering, { value }: VariantValue, target: Let): void => {
  const [has, needs] = [evaluate(lowering, value), valueOf(lowering, target)];
  if (!has || !needs || isOfKind(has, needs)) return;
  lowering.reports.add(
    'unit/wrong',
    lowering.idOf(value),
    `This is ${describe(has)}; \`${target.name}\` is ${describe(needs)}, and stays so in every variant`,
    { about: [target.name] },
  );
};

const isOfKind = (a: Value, b: Value): boolean => {
  if (a.kind === 'point' || b.kind === 'point') return a.kind === b.kind;
  return samePowers(a.powers, b.powers) || isBareLength(a, b) || isBareLength(b, a);
};

const isBareLength = (bare: NumberValue, length: NumberValue): boolean =>
  bare.bare !== undefined && samePowers(bare.powers, NUMBER) && samePowers(length.powers, LENGTH);

/** The values that a variant states instead of those of its file. */
export const valuesOfVariant = (variant: Variant): ReadonlyMap<Let, Expression> => {
  const values = new Map<Let, Expression>();
  for (const { of, value } of variant.values ?? []) {
    const target = of?.ref;
    if (isLet(target) && target.$container === variant.$container && value && !values.has(target))
      values.set(target, value);
  }
  return values;
};

/** Under a name of its own, with what is accepted in it alone. */
export const ofVariant = (lowering: Lowering, tub: Tub, { name, accepts = [] }: Variant): Tub => ({
  ...tub,
  name: `${tub.name}, ${name}`,
  accepts: [...tub.accepts, ...accepts.flatMap((node) => acceptOf(lowering, node) ?? [])],
});
