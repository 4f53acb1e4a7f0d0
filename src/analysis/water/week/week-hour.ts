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

/** The first hour of work at which something goes wrong; undefined: not within the week. */
export interface WeekEvents {
  /** Water stands at the rim, or no level is enough. */
  readonly overRim: WeekEvent | undefined;
  /** An overflow gets water. */
  readonly overflows: WeekEvent | undefined;
  /** An inlet of a pump is covered less than it needs; `index`: of its inflow. */
  readonly starves: WeekEvent | undefined;
  readonly empties: WeekEvent | undefined;
  readonly full: WeekEvent | undefined;
  /** The margin that is to be kept below the rim is used up. */
  readonly margin: WeekEvent | undefined;
}

export interface WeekEvent {
  readonly hour: number;
  /** Of the outlet, tank or inflow. */
  readonly index: number;
}

/** An hour, and the one a step before it from which on nothing was cleaned or topped up. */
export type Now = WeekHour & { readonly before?: WeekHour };

/** The hour by itself. */
export const plainly = ({ hour, outlets, tanks }: Now): WeekHour => ({ hour, outlets, tanks });

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

/** By how much what an outlet takes changes at most from one hour to another, mm3/s. */
export const changeOf = ({ outlets: from }: WeekHour, { outlets: to }: WeekHour): number =>
  Math.max(0, ...from.map(({ rateMm3S }, i) => Math.abs((to[i]?.rateMm3S ?? 0) - rateMm3S)));
