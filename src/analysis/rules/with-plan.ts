/** Findings of a tub that came out otherwise: what was planned beside what was made, and which of them hang on a reading. */
import { deepEqual } from '../cache/deep-equal.js';
import { compareHit } from '../cache/comparing.js';
import { NOISE } from '../geometry/tolerance.js';
import { LruCache } from '../cache/lru-cache.js';
import { inOneGo } from '../cache/memo-steps.js';
import { readOtherwise } from '../built/read-otherwise.js';
import { unitOf, type Finding, type Related } from '../model/finding.js';
import type { Tub } from '../model/tub.js';
import { named, plain } from '../model/wording.js';
import type { Effort } from '../making/plan/verdict.js';
import { createStages, type Stages } from '../stages/stages.js';

/** What the findings were found by. */
export interface Checking {
  readonly effort: Effort;
  /** Which checks were chosen, and with what effort: the same words, the same findings of a tub. */
  readonly key: string;
  /** Runs them on a tub, nothing accepted; of all only those with a code that is listed. */
  readonly check: (stages: Stages, codes?: ReadonlySet<string>) => Generator<void, readonly Finding[]>;
}

/**
 * Where nothing came out otherwise, the findings as they are. In full each number that the readings changed is also looked at
 * with every reading off by what it is worth: one that is no farther from its limit says so.
 * Cost: in full as many runs of the checks concerned as there are readings, twice as many for those that make a finding go.
 */
export function* withPlan(
  stages: Stages,
  found: readonly Finding[],
  checking: Checking,
): Generator<void, readonly Finding[]> {
  const planned = stages.planned();
  if (!planned) return found;
  const before = yield* plannedFindings(planned, checking);
  const drawn = byPlace(before);
  const made = byPlace(found);
  const gone = before.filter((finding) => !sameAs(finding, made));
  const told = found.map((finding) => besidePlan(finding, drawn, gone));
  if (checking.effort !== 'full') return told;
  const changed = found.filter((finding) => isChanged(finding, drawn));
  return yield* withWorth(stages, planned, { found, told, changed }, checking);
}

/** Open tubs, each with all checks and those that are told early. */
const KEPT = 16;
const kept = new LruCache<{ readonly tub: Tub; readonly found: readonly Finding[] }>(KEPT);

/** A reading that is typed changes nothing of what was planned. */
function* plannedFindings(planned: Stages, { key, check }: Checking): Generator<void, readonly Finding[]> {
  const { tub } = planned;
  const name = `${tub.name} ${key}`;
  const before = kept.get(name);
  if (before && deepEqual(before.tub, tub)) {
    compareHit(before.found, () => inOneGo(check(planned)));
    return before.found;
  }
  const found = yield* check(planned);
  kept.set(name, { tub, found });
  return found;
}

type ByPlace = ReadonlyMap<string, readonly Finding[]>;

/** Codes that tell one fault by two names: what is level at all, and what falls too little. */
const ONE_FAULT: Readonly<Record<string, readonly string[]>> = {
  'drain/dead-level': ['drain/too-flat'],
  'drain/too-flat': ['drain/dead-level'],
};
const withSame = (code: string): readonly string[] => [code, ...(ONE_FAULT[code] ?? [])];

/** What is about the whole tub names it, and the planned one has a name of its own. */
const keyOf = ({ code, at, about }: Finding): string =>
  [code, at, ...about.map((name) => name.replace(/, (?:as planned|read otherwise)$/, ''))].join(' ');

const byPlace = (findings: readonly Finding[]): ByPlace => {
  const all = new Map<string, Finding[]>();
  for (const finding of findings) all.set(keyOf(finding), [...(all.get(keyOf(finding)) ?? []), finding]);
  return all;
};

/** What was read speaks of the plan by itself. */
const isOfReadings = ({ code }: Finding): boolean => /^(made|taped|internal)\//.test(code);

const sameAs = (finding: Finding, all: ByPlace): Finding | undefined => {
  const alike = withSame(finding.code).flatMap((code) => all.get(keyOf({ ...finding, code })) ?? []);
  return alike.find(({ message }) => message === finding.message) ?? alike[0];
};

/** `gone`: what was found as planned and is not as made. A pool over a fold is told of one panel then and of the other now. */
const besidePlan = (finding: Finding, drawn: ByPlace, gone: readonly Finding[]): Finding => {
  if (isOfReadings(finding) || finding.message.includes('as planned')) return finding;
  const before = sameAs(finding, drawn);
  if (!before) {
    const other = gone.find(({ code, severity }) => code === finding.code && severity === finding.severity);
    const told = other ? `is told of ${other.about.map(named).join(', ')}` : 'is not so';
    return { ...finding, message: `${finding.message}; as planned it ${told}` };
  }
  if (!finding.measure || !before.measure) return finding;
  const unit = unitOf(finding)?.text ?? '';
  const [is, was] = [plain(finding.measure.has, 2), plain(before.measure.has, 2, finding.measure.has)];
  if (is === plain(before.measure.has, 2)) return finding;
  return { ...finding, message: `${finding.message}; planned ${was}${unit === '' ? '' : ` ${unit}`}` };
};

/** Does what was read decide it, or its number? */
const isChanged = (finding: Finding, drawn: ByPlace): boolean => {
  if (isOfReadings(finding) || !finding.measure) return false;
  const before = sameAs(finding, drawn)?.measure?.has;
  return before === undefined || Math.abs(before - finding.measure.has) > NOISE;
};

interface Found {
  readonly found: readonly Finding[];
  /** The same, beside the plan. */
  readonly told: readonly Finding[];
  /** Those whose number hangs on the readings. */
  readonly changed: readonly Finding[];
}

interface Worth {
  readonly variance: number;
  /** Of the reading that counts most. */
  readonly most: number;
  readonly at: Related['at'];
  /** With that reading off by what it is worth the fault is gone, though its number is far from the limit: nothing to reckon with. */
  readonly isGone: boolean;
}

/**
 * How much a number moves with each reading, and so what it is worth. Source: GUM 5.1.2, influences by one-sided differences; to
 * the other side where the finding is gone on the one.
 */
function* withWorth(
  stages: Stages,
  planned: Stages,
  { found, told, changed }: Found,
  { check }: Checking,
): Generator<void, readonly Finding[]> {
  if (changed.length === 0) return told;
  const codes = new Set(changed.flatMap(({ code }) => withSame(code)));
  const worth = new Map<Finding, Worth>();
  for (const { more, less, at } of readOtherwise({ ...planned.tub, name: stages.tub.name, made: stages.tub.made })) {
    const above = byPlace(yield* check(createStages(more), codes));
    const isOneGone = changed.some((finding) => !sameAs(finding, above));
    const below = isOneGone ? byPlace(yield* check(createStages(less), codes)) : above;
    for (const finding of changed) worth.set(finding, withReading(worth.get(finding), finding, { above, below, at }));
  }
  return told.map((finding, i) => {
    const own = worth.get(found[i]);
    return own ? tellHanging(finding, own) : finding;
  });
}

const withReading = (
  before: Worth | undefined,
  finding: Finding,
  { above, below, at }: { readonly above: ByPlace; readonly below: ByPlace; readonly at: Related['at'] },
): Worth => {
  const isGone = !sameAs(finding, above);
  const other = sameAs(finding, above) ?? sameAs(finding, below);
  const [measure, off] = [finding.measure, offOf(finding)];
  const moved = measure && other?.measure ? Math.abs(measure.has - other.measure.has) : 0;
  const has = before ?? { variance: 0, most: -1, at, isGone: false };
  const variance = has.variance + moved ** 2;
  // Gone though a move like that to the other side would not have taken it there: it jumps.
  if (isGone && COVERAGE * moved < off) return { variance, most: Infinity, at, isGone: true };
  return moved > has.most ? { ...has, variance, most: moved, at } : { ...has, variance };
};

/** From its limit. */
const offOf = ({ measure }: Finding): number => (measure ? Math.abs(measure.has - measure.needs) : Infinity);

/** Of a normal curve 95 % lie within. */
const COVERAGE = 2;

const tellHanging = (finding: Finding, { variance, at, isGone }: Worth): Finding => {
  const off = offOf(finding);
  const worth = COVERAGE * Math.sqrt(variance);
  if (off > worth && !isGone) return finding;
  const unit = unitOf(finding)?.text ?? '';
  const told = (value: number): string => `${plain(value, 2)}${unit === '' ? '' : ` ${unit}`}`;
  const why = isGone
    ? 'with a reading off by what it is worth it is not so'
    : `${told(off)} from its limit, worth ±${told(worth)}`;
  return {
    ...finding,
    message: `${finding.message}; it hangs on what was read: ${why}`,
    related: [
      ...finding.related,
      { at, message: 'This reading counts most: read it again before anything is changed' },
    ],
    values: { ...finding.values, hangs_on_reading: true },
  };
};
