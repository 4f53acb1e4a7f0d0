import type { LangiumDocuments } from 'langium';
import { lackingOfOneMachine } from '../../analysis/aim/one-machine.js';
import { measureAspect, missOf } from '../../analysis/aim/measure.js';
import { NOISE } from '../../analysis/geometry/tolerance.js';
import type { Finding } from '../../analysis/model/finding.js';
import type { Wish } from '../../analysis/model/tub.js';
import { inMm, named } from '../../analysis/model/wording.js';
import { resizedParts, type ResizedPart } from '../../analysis/solve/resized-parts.js';
import { unlaidOf } from '../../analysis/solve/wish-misses.js';
import type { Stages } from '../../analysis/stages/stages.js';
import { findingsOfAll, findingsOfText, variantsIn, type Analysis, type Evaluated } from '../analyse.js';
import { topicsOf } from '../diagnostics/topics.js';
import { against, isError, type FreeProblem } from './free-problem.js';
import type { FoundWish, MissingVariant } from './outcome.js';
import { toldOf } from './told.js';

/**
 * Every wish judged on the tub with those values, with every check in full, as the file would be checked with them in it.
 * In the order of the text; what is not stated but held all the same comes last.
 */
export function* foundWishes(
  store: LangiumDocuments,
  analysis: Analysis,
  { dear, evaluated }: FreeProblem,
  values: readonly number[],
): Generator<void, readonly FoundWish[]> {
  const tried = evaluated(values);
  const findings = yield* foundIn(store, tried);
  const known = topicsOf(analysis.findings.filter(isError));
  return yield* judgedIn(tried, dear, { known, then: analysis.stages, written: analysis.stages, findings });
}

const foundIn = (store: LangiumDocuments, tried: Evaluated): Generator<void, readonly Finding[]> =>
  findingsOfAll(tried, findingsOfText(store, tried), { effort: 'full' });

/** What the wishes are compared with: errors that were there before, the tub as it is written, and what is found now. */
interface Against {
  readonly known: ReadonlyMap<string, number>;
  readonly then: Stages;
  /** The same without a variant: what is cut is cut by that. */
  readonly written: Stages;
  readonly findings: readonly Finding[];
}

function* judgedIn(
  tried: Evaluated,
  dear: FreeProblem['dear'],
  { known, then, written, findings }: Against,
): Generator<void, readonly FoundWish[]> {
  const judged: FoundWish[] = [];
  for (const wish of tried.tub.aim?.wishes ?? []) {
    if (wish.kind === 'stock') judged.push(yield* stockWish(wish, tried.stages));
    else if (wish.kind === 'machine') judged.push(yield* machineWish(wish, tried.stages));
    else if (wish.kind !== 'findings') judged.push(measuredWish(wish, tried.stages, then));
  }
  const ofFindings = dear
    .filter(({ kind }) => kind !== 'stock' && kind !== 'machine')
    .map((wish): FoundWish =>
      wish.kind === 'made'
        ? madeWish(wish.text, resizedParts(written, tried.stages))
        : findingsWish(wish.text, against(wish, findings, known)),
    );
  return [...judged, ...ofFindings];
}

/** The variants in which some wish is missed with those values, every check in full. */
export function* missingVariants(
  store: LangiumDocuments,
  analysis: Analysis,
  free: FreeProblem,
  values: readonly number[],
): Generator<void, readonly MissingVariant[]> {
  const missing: MissingVariant[] = [];
  for (const variant of variantsIn(analysis.document)) {
    const tried = free.evaluated(values, variant);
    const before = free.evaluated(
      analysis.free.map(({ value }) => value),
      variant,
    );
    const known = topicsOf((yield* foundIn(store, before)).filter(isError));
    const findings = yield* foundIn(store, tried);
    const wishes = yield* judgedIn(tried, free.dear, {
      known,
      then: before.stages,
      written: analysis.stages,
      findings,
    });
    const missed = wishes.filter(({ isMet }) => !isMet).map(({ text }) => text);
    if (missed.length > 0) missing.push({ name: variant.name, missed });
  }
  return missing;
}

export const isAllMet = (wishes: readonly FoundWish[]): boolean => wishes.every(({ isMet }) => isMet);

function* stockWish({ text }: Wish, stages: Stages): Generator<void, FoundWish> {
  const { pieces } = yield* unlaidOf(stages);
  const found = pieces.map(({ flat, count, reason }) => `${count} of ${flat.name}: ${reason}`);
  return { ...unmeasured(text, 'stock'), isMet: found.length === 0, found };
}

function* machineWish({ text }: Wish, stages: Stages): Generator<void, FoundWish> {
  const lacking = yield* lackingOfOneMachine(stages, 'full');
  return { ...unmeasured(text, 'machine'), isMet: lacking.length === 0, found: lacking.map(({ message }) => message) };
}

const unmeasured = (
  text: string,
  kind: FoundWish['kind'],
): Pick<FoundWish, 'text' | 'kind' | 'has' | 'before' | 'needs'> => ({
  text,
  kind,
  has: undefined,
  before: undefined,
  needs: undefined,
});

const measuredWish = (wish: Extract<Wish, { kind: 'goal' | 'bound' }>, now: Stages, then: Stages): FoundWish => {
  const { text, of } = wish;
  const [has, before] = [now, then].map((stages) => measureAspect(stages, ofIn(stages, wish)));
  const isMet = has !== undefined && (wish.kind === 'goal' || missOf(wish, has) <= NOISE * Math.abs(wish.limit));
  return {
    text,
    kind: wish.kind === 'goal' ? 'goal' : 'limit',
    isMet,
    has: has === undefined ? undefined : toldOf(of, has),
    before: before === undefined ? undefined : toldOf(of, before),
    needs: wish.kind === 'bound' ? toldOf(of, wish.limit) : undefined,
    found: [],
  };
};

/** A value is what it is in that tub. */
const ofIn = ({ tub }: Stages, wish: Extract<Wish, { kind: 'goal' | 'bound' }>): typeof wish.of => {
  const same = tub.aim?.wishes.find(({ at }) => at === wish.at);
  return same && 'of' in same ? same.of : wish.of;
};

const findingsWish = (text: string, findings: readonly Finding[]): FoundWish => ({
  ...unmeasured(text, 'findings'),
  isMet: findings.length === 0,
  found: findings.map(({ code, message }) => `${code}: ${message}`),
});

const madeWish = (text: string, resized: readonly ResizedPart[]): FoundWish => ({
  ...unmeasured(text, 'findings'),
  isMet: resized.length === 0,
  found: resized.map(
    ({ name, by }) => `${named(name)} is cut, and would have to be cut anew: off by up to ${inMm(by)}`,
  ),
});
