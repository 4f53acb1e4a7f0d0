import type { CurvePoint, Pump } from '../../model/tub.js';
import { BEND, EXIT, pipeLoss, RUBBER_HOSE, type Pipe } from '../pipe/pipe-flow.js';

/** Where the curve of a pump meets what its hose and lift ask for. */
export interface OperatingPoint {
  readonly rateMm3S: number;
  /** mm. */
  readonly head: number;
  /** Even at the last flow of the curve it lifts more than is asked for: it runs off the end of what its maker prints. */
  readonly isBeyond: boolean;
}

export interface HoseInput {
  /** Height of the hose's end over the liquid in the tank, mm. */
  readonly lift: number;
  readonly viscosityCst: number;
  /** Loss of each bend on the velocity head. */
  readonly bend?: number;
  /** By which a hose takes more than a smooth pipe of its nominal bore. */
  readonly excess?: number;
}

/** The hose as a pipe: entry belongs to the pump's own curve. */
export const hosePipe = ({ hose }: Pick<Pump, 'hose'>, bend: number = BEND): Pipe => ({
  bore: hose.bore,
  length: hose.length,
  roughness: RUBBER_HOSE,
  fittings: hose.bends * bend + EXIT,
});

/** Head that the hose and its lift ask for at a flow, mm; `excess` is of the hose, not of its bends. */
export const askedHead = (
  pump: Pick<Pump, 'hose'>,
  rateMm3S: number,
  { lift, viscosityCst, bend, excess = 1 }: HoseInput,
): number => {
  const pipe = hosePipe(pump, bend);
  const friction = pipeLoss({ ...pipe, fittings: 0 }, rateMm3S, viscosityCst);
  return lift + pipeLoss(pipe, rateMm3S, viscosityCst) + (excess - 1) * friction;
};

/** Head of a curve at a flow between its ends, straight between its points, mm. */
export const curveHead = (curve: readonly CurvePoint[], rateMm3S: number): number => {
  const next = Math.max(
    1,
    curve.findIndex((point) => point.rateMm3S >= rateMm3S),
  );
  const [from, to] = [curve[next - 1], curve[next]];
  const share = (rateMm3S - from.rateMm3S) / (to.rateMm3S - from.rateMm3S);
  return from.head + (to.head - from.head) * share;
};

/**
 * The flow at which the curve's head is the one asked for; the friction factor is worked out anew at every flow. The curve falls and
 * what is asked for grows, so there is one. Undefined: it does not lift the first flow of its curve.
 */
export const operatingPoint = (pump: Pick<Pump, 'hose' | 'curve'>, input: HoseInput): OperatingPoint | undefined => {
  const { curve } = pump;
  const over = (rate: number): number => curveHead(curve, rate) - askedHead(pump, rate, input);
  let [low, high] = [curve[0].rateMm3S, curve[curve.length - 1].rateMm3S];
  if (over(low) <= 0) return undefined;
  if (over(high) >= 0) return { rateMm3S: high, head: curveHead(curve, high), isBeyond: true };
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (over(middle) > 0) low = middle;
    else high = middle;
  }
  return { rateMm3S: low, head: curveHead(curve, low), isBeyond: false };
};

/** Halvings of the curve's length: to the last digits of a double. */
const HALVINGS = 60;
