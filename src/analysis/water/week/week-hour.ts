import type { OutletIndex } from '../../model/tub.js';

/** How the tub stands after some hours of work. Levels in mm, volumes in mm3. */
export interface WeekHour {
  /** Of work, from the first day on. */
  readonly hour: number;
  readonly outlets: readonly OutletAtHour[];
  readonly tanks: readonly TankAtHour[];
}

export interface OutletAtHour {
  readonly outlet: OutletIndex;
  /** Share of its strainer; undefined without one. */
  readonly blocked: number | undefined;
  /** Infinity: no level is enough. */
  readonly level: number;
  readonly rateMm3S: number;
  /** What of it comes down on the tub again. */
  readonly againMm3S: number;
}

export interface TankAtHour {
  readonly tank: number;
  readonly volume: number;
  readonly level: number | undefined;
}

/** An hour, and the one a step before it from which on nothing was cleaned or topped up. */
export type Now = WeekHour & { readonly before?: WeekHour };

/** Mean rates of the outlets until a later hour. */
export const onTheWay = ({ hour: from, outlets, before }: Now, hour: number): WeekHour['outlets'] => {
  if (!before) return outlets;
  const ahead = (hour - from) / (from - before.hour) / 2;
  return outlets.map((own) => {
    const was = before.outlets.find(({ outlet }) => outlet === own.outlet) ?? own;
    const on = (now: number, then: number): number => Math.max(0, now + (now - then) * ahead);
    return {
      ...own,
      rateMm3S: on(own.rateMm3S, was.rateMm3S),
      againMm3S: on(own.againMm3S, was.againMm3S),
    };
  });
};
