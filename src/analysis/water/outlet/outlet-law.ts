import type { Outlet } from '../../model/tub.js';
import { outletCapacity, outletHead } from './outlet-head.js';
import { crestBand, crestFlow, crestHead, veeBand, veeFlow, veeHead } from './weir.js';

/** What an outlet by itself takes, without a strainer. Heads in mm over the lowest place of its edge, flows in mm3/s. */
export interface OutletLaw {
  readonly kind: 'round' | 'notch' | 'vee' | 'spout';
  /** Never falls with the head. */
  readonly takes: (head: number) => number;
  readonly headOf: (rateMm3S: number) => number;
  /** Between which heads that of a flow lies; undefined where no source says how far it may be off. */
  readonly bandOf: ((rateMm3S: number) => readonly [number, number]) | undefined;
}

/** `steepness`: sine of the inclination of its panel; a vee in a wall that leans opens faster with the height of the water. */
export const lawOf = (
  { diameter, weir, spout }: Pick<Outlet, 'diameter' | 'weir' | 'spout'>,
  steepness: number,
): OutletLaw => {
  if (spout) return spoutLaw(spout.length);
  if (!weir) return roundLaw(diameter, steepness);
  if (weir.kind === 'notch') {
    const { width } = weir;
    return {
      kind: 'notch',
      takes: (head) => crestFlow(width, head),
      headOf: (rate) => crestHead(width, rate),
      bandOf: (rate) => crestBand(width, rate),
    };
  }
  const spread = (2 * Math.tan(weir.angle / 2)) / steepness;
  return {
    kind: 'vee',
    takes: (head) => veeFlow(spread, head),
    headOf: (rate) => veeHead(spread, rate),
    bandOf: (rate) => veeBand(spread, rate),
  };
};

/** An edge that water at rest runs over without a jet below it that draws it on: 1/sqrt 3, the critical depth of an ideal broad crest. */
const CRITICAL = 1 / Math.sqrt(3);

const spoutLaw = (length: number): OutletLaw => ({
  kind: 'spout',
  takes: (head) => crestFlow(length, head, CRITICAL),
  headOf: (rate) => crestHead(length, rate, CRITICAL),
  bandOf: undefined,
});

const roundLaw = (diameter: number, steepness: number): OutletLaw => {
  const round = { diameter, steepness };
  return {
    kind: 'round',
    takes: (head) => outletCapacity(round, head),
    headOf: (rate) => outletHead(round, rate),
    bandOf: undefined,
  };
};
