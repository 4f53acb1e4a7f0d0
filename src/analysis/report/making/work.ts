/** What the work amounts to; how long it takes and what it costs as far as the shop states rates. Nothing is assumed. */
import { lengthOfContour } from '../../geometry/contour.js';
import type { Rates } from '../../model/tub.js';
import { flatsToCut } from '../../stages/flats-to-cut.js';
import type { Stages } from '../../stages/stages.js';
import { fastenersSetIn, reportHardware } from '../joining/hardware.js';
import { reportLength, reportMass, reportRatio } from '../numbers.js';
import type { Column } from '../table.js';

export interface WorkReport {
  readonly rows: readonly WorkRow[];
  /** Of the rows whose rates are stated; null: none is. */
  readonly time_s: number | null;
  /** In the shop's money, for that time and the sheet, as far as prices are stated; null: none is. */
  readonly cost_money: number | null;
  /** Works that are done and whose rate is not stated: neither time nor cost holds them. */
  readonly not_reckoned: readonly string[];
}

export interface WorkRow {
  readonly work: string;
  readonly amount_count: number | null;
  readonly amount_mm: number | null;
  readonly amount_kg: number | null;
  readonly time_s: number | null;
  readonly cost_money: number | null;
}

/** In the order of making. Sheet counts by the mass of the pieces: what the nest takes stands with the nest. */
export const reportWork = (stages: Stages): WorkReport => {
  const rates = stages.tub.shop?.rates;
  const rows = amountsOf(stages).map((amount) => rowOf(amount, rates));
  const reckoned = (key: 'time_s' | 'cost_money'): number | null => {
    const told = rows.flatMap((row) => row[key] ?? []);
    return told.length === 0 ? null : reportRatio(told.reduce((sum, value) => sum + value, 0));
  };
  return {
    rows,
    time_s: reckoned('time_s'),
    cost_money: reckoned('cost_money'),
    not_reckoned: rows.filter(({ time_s, amount_kg }) => time_s === null && amount_kg === null).map(({ work }) => work),
  };
};

type Amount =
  | { readonly work: string; readonly count: number; readonly seconds: (rates: Rates) => number | undefined }
  | { readonly work: string; readonly length: number; readonly speed: (rates: Rates) => number | undefined }
  | { readonly work: string; readonly mass: number };

const amountsOf = (stages: Stages): Amount[] => {
  const flats = flatsToCut(stages);
  const over = (value: (flat: (typeof flats)[number]) => number): number =>
    flats.reduce((sum, flat) => sum + flat.quantity * value(flat), 0);
  const cuts = over(({ outline, holes }) =>
    [outline, ...holes.map(({ contour }) => contour)].reduce((sum, contour) => sum + lengthOfContour(contour), 0),
  );
  const spots = stages.joints().seams.flatMap(({ runs }) => runs.flatMap((run) => run.spots)).length;
  const bead = (kind: string): number => reportHardware(stages).find((row) => row.kind === kind)?.length_mm ?? 0;
  const { empty, removable, support, fasteners } = stages.mass();
  const mass = empty.mass + removable.mass + support.mass - fasteners.mass;
  const all: Amount[] = [
    { work: 'sheet in the pieces', mass },
    { work: 'cut', length: cuts, speed: ({ cut }) => cut },
    { work: 'pierce', count: over(({ holes }) => 1 + holes.length), seconds: ({ pierce }) => pierce },
    { work: 'strokes', count: strokesIn(stages), seconds: ({ stroke }) => stroke },
    { work: 'spots', count: spots, seconds: ({ spot }) => spot },
    { work: 'fasteners', count: fastenersSetIn(stages), seconds: ({ fastener }) => fastener },
    { work: 'weld', length: bead('weld filler'), speed: ({ weld }) => weld },
    { work: 'solder', length: bead('solder'), speed: ({ solder }) => solder },
    { work: 'sealant', length: bead('sealant'), speed: ({ sealant }) => sealant },
  ];
  return all.filter(
    (amount) => ('mass' in amount ? amount.mass : 'count' in amount ? amount.count : amount.length) > 0,
  );
};

/** Of the bend plans; a part without one, and loose pieces, count a stroke a bend. */
const strokesIn = (stages: Stages): number => {
  const plans = stages.plans();
  const parts = stages.flats().map((flat, i) => {
    const plan = plans[i];
    return plan?.outcome === 'planned' ? plan.steps.length : (flat?.bends.length ?? 0);
  });
  const loose = stages.loosePieces().map(({ quantity, bends }) => quantity * bends.length);
  return [...parts, ...loose].reduce((sum, count) => sum + count, 0);
};

const HOUR_S = 3600;

const rowOf = (amount: Amount, rates: Rates | undefined): WorkRow => {
  const nothing = { work: amount.work, amount_count: null, amount_mm: null, amount_kg: null };
  const money = (value: number | undefined): number | null => (value === undefined ? null : reportRatio(value));
  if ('mass' in amount)
    return {
      ...nothing,
      amount_kg: reportMass(amount.mass),
      time_s: null,
      cost_money: money(rates?.metal === undefined ? undefined : amount.mass * rates.metal),
    };
  const seconds = secondsOf(amount, rates);
  const cost = seconds === undefined || rates?.work === undefined ? undefined : (seconds / HOUR_S) * rates.work;
  const size = 'count' in amount ? { amount_count: amount.count } : { amount_mm: reportLength(amount.length) };
  return { ...nothing, ...size, time_s: seconds === undefined ? null : reportRatio(seconds), cost_money: money(cost) };
};

const secondsOf = (
  amount: Exclude<Amount, { readonly mass: number }>,
  rates: Rates | undefined,
): number | undefined => {
  if (!rates) return undefined;
  if ('count' in amount) {
    const each = amount.seconds(rates);
    return each === undefined ? undefined : each * amount.count;
  }
  const speed = amount.speed(rates);
  return speed === undefined ? undefined : amount.length / speed;
};

export const WORK_COLUMNS: readonly Column<WorkRow>[] = [
  { key: 'work', head: 'Work', value: (row) => row.work },
  { key: 'amount_count', head: 'Count', value: (row) => row.amount_count },
  { key: 'amount_mm', head: 'Length', value: (row) => row.amount_mm, places: 0 },
  { key: 'amount_kg', head: 'Mass', value: (row) => row.amount_kg, places: 2 },
];
