import { NOISE } from '../../geometry/tolerance.js';
import type { OutletIndex, Tub, Week } from '../../model/tub.js';
import { evaporationOf, evaporationRates, type Evaporation } from './evaporation.js';
import { fillingSpeed, strainerFilling } from '../outlet/strainer-filling.js';
import { balanceWith } from '../outlet/tank-share.js';
import { tankLevel } from '../outlet/tank.js';
import type { OutletState } from '../outlet/outlets.js';
import { pumpStates } from '../pump/pumps.js';
import type { Water } from '../water.js';
import {
  changeOf,
  onTheWay,
  plainly,
  type WeekEvents,
  type Now,
  type OutletAtHour,
  type TankAtHour,
  type WeekHour,
} from './week-hour.js';

export interface WeekCourse {
  readonly week: Week;
  readonly hours: readonly WeekHour[];
  readonly events: WeekEvents;
  /** Where the text states the air; undefined: it states a rate, or nothing. */
  readonly evaporation: Evaporation | undefined;
  /** What no rate is stated for. */
  readonly notCounted: readonly string[];
}

/** Steps of a week; each works out all outlets anew. */
const STEPS = 96;

/** Into so many parts a step is cut at most. */
const FINEST = 16;

/** Of all that runs in: by more an outlet's part must not change in a step. */
const MUCH = 0.05;

const HOUR = 3600;

/** Share from which a strainer counts as full: what is left lets nothing through that matters. */
const FULL = 0.99;

/**
 * A week of work, step by step: solids shut the strainers as fast as the water that brings them runs through, levels and shares follow
 * by the laws of the outlets, the tank gives what stands in the tub, splashes, evaporates and runs off beside it. All strainers are
 * clean and all tanks filled to their working volume at the start, and again as often as is stated. What settles before a
 * strainer does not reach it. Events are found to a thousandth of a step. Undefined without a week.
 *
 * Accuracy: second order in the step, a ninety-sixth of the week's hours (rates go on as they changed over the step before, the
 * two-step rule of Adams and Bashforth), a step halved down to a sixteenth where a rate changes by more than a twentieth of all that
 * runs; first order after a service; exact while all of the water takes one way. Cost: O(STEPS x n log n).
 */
export const weekOf = (tub: Tub, water: Water): WeekCourse | undefined => {
  const { week } = tub;
  if (!week) return undefined;
  const model = modelOf(tub, water, week);
  const total = week.hoursPerDay * week.days;
  const step = total / STEPS;
  const found: Found = { ...NOTHING_YET };
  const start = startOf(model);
  let at: Progress = { state: start, now: lookAt(model, start, 0), unserved: undefined };
  const hours: WeekHour[] = [at.now];
  note(model, found, at.now);
  for (let i = 1; i <= STEPS; i++) {
    at = advance(model, found, at, i === STEPS ? total : i * step, step / FINEST);
    if (at.unserved) hours.push(at.unserved);
    hours.push(plainly(at.now));
  }
  return { week, hours, events: found, evaporation: model.evaporation, notCounted: notCountedIn(tub, week) };
};

interface Progress {
  readonly state: WeekState;
  readonly now: Now;
  /** How it stood before it was cleaned or topped up then. */
  readonly unserved: WeekHour | undefined;
}

/** Goes on to an hour, in halves of no less than `least` h where much changes on the way. */
const advance = (model: WeekModel, found: Found, from: Progress, hour: number, least: number): Progress => {
  const { state, now } = from;
  const end = after(model, state, now, hour, 'before service');
  const look = lookAt(model, end, hour);
  const span = hour - now.hour;
  if (span / 2 >= least * (1 - NOISE) && changeOf(now, look) > MUCH * model.runs) {
    const middle = advance(model, found, from, now.hour + span / 2, least);
    const last = advance(model, found, middle, hour, least);
    return { ...last, unserved: last.unserved ?? middle.unserved };
  }
  between(model, found, { from: state, was: now, hour });
  if (!isServed(model.week, now.hour, hour))
    return { state: end, now: { ...look, before: plainly(now) }, unserved: undefined };
  const served = after(model, state, now, hour);
  return { state: served, now: lookAt(model, served, hour), unserved: look };
};

/** Between two hours: shares of strainers shut, and what is lost of each tank, mm3. */
interface WeekState {
  readonly blocked: ReadonlyMap<OutletIndex, number>;
  readonly lost: readonly number[];
}

interface WeekModel {
  readonly tub: Tub;
  readonly water: Water;
  readonly week: Week;
  readonly evaporation: Evaporation | undefined;
  /** The water with its strainers shut by these shares; as long as none fills it is the same for hours. */
  readonly working: Water['workingWith'];
  /** All that runs in, mm3/s. */
  readonly runs: number;
  /** Share of each strainer that is shut in a second, with the water that it gets at the start. */
  readonly speeds: ReadonlyMap<OutletIndex, { readonly perSecond: number; readonly rateMm3S: number }>;
  readonly pumps: readonly {
    readonly inflow: number;
    readonly tank: number;
    readonly inlet: number;
    readonly needed: number;
  }[];
}

const modelOf = (tub: Tub, water: Water, week: Week): WeekModel => {
  const rates = new Map(water.outlets().map(({ outlet, rateMm3S }) => [outlet, rateMm3S]));
  return {
    tub,
    water,
    week,
    evaporation: evaporationOf(tub, water),
    runs: tub.inflows.reduce((sum, { rateMm3S }) => sum + rateMm3S, 0),
    working: keptByShares((blocked) => water.workingWith(blocked)),
    speeds: new Map(
      strainerFilling(tub, water).map((filling) => [
        filling.outlet,
        { perSecond: fillingSpeed(filling), rateMm3S: rates.get(filling.outlet) ?? 0 },
      ]),
    ),
    pumps: pumpStates(tub, water).map(({ inflow, pump, needed }) => ({
      inflow,
      tank: pump.tank,
      inlet: pump.inlet[2],
      needed,
    })),
  };
};

const keptByShares = <T>(compute: (blocked: WeekState['blocked']) => T): ((blocked: WeekState['blocked']) => T) => {
  const known = new Map<string, T>();
  return (blocked) => {
    const key = [...blocked].join(' ');
    const value = known.get(key) ?? compute(blocked);
    known.set(key, value);
    return value;
  };
};

const startOf = ({ tub }: WeekModel): WeekState => ({
  blocked: new Map(tub.outlets.flatMap(({ strainer }, outlet) => (strainer ? [[outlet, 0] as const] : []))),
  lost: tub.tanks.map(() => 0),
});

const lookAt = ({ tub, water, working }: WeekModel, { blocked, lost }: WeekState, hour: number): WeekHour => {
  const { outlets, holdUp } = working(blocked);
  return {
    hour,
    outlets: outlets.map((state) => ({
      outlet: state.outlet,
      blocked: blocked.get(state.outlet),
      level: levelOver(water, outlets, state),
      rateMm3S: state.rateMm3S,
      againMm3S: state.againMm3S,
    })),
    tanks: tub.tanks.map((tank, i): TankAtHour => {
      const volume = Math.max(0, balanceWith(tub, water, tank, holdUp).leftWhileRunning - lost[i]);
      return { tank: i, volume, level: tankLevel(tank, volume) };
    }),
  };
};

/** Of an outlet that takes nothing that of the water in its basin, where that stands over it, else its lip. */
const levelOver = (
  water: Water,
  states: readonly OutletState[],
  { outlet, rateMm3S, waterLevel, lip }: OutletState,
): number => {
  if (rateMm3S > 0) return waterLevel;
  const beside = water.basins().find(({ outlets }) => outlets.includes(outlet))?.outlets ?? [];
  const levels = states.filter((other) => other.rateMm3S > 0 && beside.includes(other.outlet));
  return Math.max(lip, ...levels.map((other) => other.waterLevel));
};

/** Hours of work at which something is done: at the start of a day after so many. */
const isServed = ({ hoursPerDay, cleanedEvery, toppedUpEvery }: Week, from: number, to: number): boolean =>
  [cleanedEvery, toppedUpEvery].some((every) => every !== undefined && passes(every * hoursPerDay, from, to));

const passes = (every: number, from: number, to: number): boolean =>
  Math.floor(to / every + NOISE) > Math.floor(from / every + NOISE);

/** The state at a later hour, as all on the way changes as it did over the step before. */
const after = (
  { tub, week, speeds, evaporation }: WeekModel,
  { blocked, lost }: WeekState,
  now: Now,
  hour: number,
  served?: 'before service',
): WeekState => {
  const seconds = (hour - now.hour) * HOUR;
  const isDone = (every: number | undefined): boolean =>
    !served && every !== undefined && passes(every * week.hoursPerDay, now.hour, hour);
  const [cleaned, toppedUp] = [isDone(week.cleanedEvery), isDone(week.toppedUpEvery)];
  const outlets = onTheWay(now, hour);
  const rates = new Map(outlets.map(({ outlet, rateMm3S }) => [outlet, rateMm3S]));
  const shut = (outlet: OutletIndex, share: number): number => {
    const speed = speeds.get(outlet);
    if (cleaned || !speed || speed.rateMm3S <= 0) return cleaned ? 0 : share;
    return Math.min(1, share + speed.perSecond * seconds * ((rates.get(outlet) ?? 0) / speed.rateMm3S));
  };
  const nights = Math.floor(hour / week.hoursPerDay + NOISE) - Math.floor(now.hour / week.hoursPerDay + NOISE);
  const idle = nights * (24 - week.hoursPerDay) * HOUR;
  const beside = outlets.reduce(
    (sum, { outlet, rateMm3S, againMm3S }) =>
      sum + (tub.tanks.some(({ under }) => under.includes(outlet)) ? 0 : rateMm3S - againMm3S),
    0,
  );
  const stated = week.evaporatesMm3S ?? 0;
  const [running, resting] = evaporation ? evaporationRates(evaporation) : [stated, stated];
  const gone = ((week.splashMm3S ?? 0) + beside + running) * seconds + resting * idle;
  return {
    blocked: new Map([...blocked].map(([outlet, share]) => [outlet, shut(outlet, share)])),
    lost: lost.map((already) => (toppedUp ? 0 : already + gone / lost.length)),
  };
};

const KINDS = ['overRim', 'overflows', 'starves', 'empties', 'full', 'margin'] as const;

const NOTHING_YET = Object.fromEntries(KINDS.map((kind) => [kind, undefined])) as unknown as WeekEvents;

type Found = { -readonly [K in keyof WeekEvents]: WeekEvents[K] };

const note = (model: WeekModel, found: Found, now: WeekHour): void => {
  for (const kind of KINDS) {
    const index = found[kind] ? undefined : holds[kind](model, now);
    if (index !== undefined) found[kind] = { hour: now.hour, index };
  }
};

/** Looks within a step for the hour at which something that does not hold at its start begins to. */
const between = (
  model: WeekModel,
  found: Found,
  { from, was, hour }: { readonly from: WeekState; readonly was: Now; readonly hour: number },
): void => {
  const at = (when: number): WeekHour => lookAt(model, after(model, from, was, when, 'before service'), when);
  const end = at(hour);
  for (const kind of KINDS) {
    if (found[kind] || holds[kind](model, end) === undefined) continue;
    let [low, high] = [was.hour, hour];
    for (let i = 0; i < 10; i++) {
      const middle = (low + high) / 2;
      if (holds[kind](model, at(middle)) === undefined) low = middle;
      else high = middle;
    }
    const index = holds[kind](model, at(high));
    if (index !== undefined) found[kind] = { hour: high, index };
  }
};

/** What each event is about where it holds. */
const holds: Readonly<Record<keyof WeekEvents, (model: WeekModel, now: WeekHour) => number | undefined>> = {
  overRim: (model, { outlets }) => outlets.find((each) => reaches(each, rimOf(model, each.outlet)))?.outlet,
  overflows: ({ tub }, { outlets }) =>
    outlets.find(({ outlet, rateMm3S }) => tub.outlets[outlet].overflow && rateMm3S > 0)?.outlet,
  starves: ({ pumps }, { tanks }) =>
    pumps.find(({ tank, inlet, needed }) => {
      const { level } = tanks[tank];
      return level !== undefined && level - inlet < needed;
    })?.inflow,
  empties: (_, { tanks }) => tanks.find(({ volume }) => volume <= 0)?.tank,
  full: (_, { outlets }) => outlets.find(({ blocked }) => blocked !== undefined && blocked >= FULL)?.outlet,
  margin: (model, { outlets }) =>
    outlets.find((each) => reaches(each, rimOf(model, each.outlet) - model.week.margin))?.outlet,
};

const reaches = ({ level, rateMm3S }: OutletAtHour, rim: number): boolean =>
  rateMm3S > 0 && Number.isFinite(rim) && level >= rim;

const rimOf = ({ water }: WeekModel, outlet: OutletIndex): number =>
  water.outlets().find((each) => each.outlet === outlet)?.floodLevel ?? Infinity;

const notCountedIn = ({ inflows, tanks }: Tub, week: Week): readonly string[] => [
  ...(inflows.every(({ solids }) => !solids) ? ['solids'] : ['what clings to solids that are taken out']),
  ...(week.splashMm3S === undefined ? ['splash'] : []),
  ...(week.evaporatesMm3S === undefined && !week.air ? ['evaporation'] : []),
  ...(tanks.length === 0 ? ['tank'] : []),
];
