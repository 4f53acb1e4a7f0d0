import { SOLVED } from '../../geometry/tolerance.js';
import { GRAVITY, manningFlow } from '../flow/depth.js';
import { leastThat } from '../../geometry/numeric/least-that.js';

/** A round pipe or hose. */
export interface Pipe {
  readonly bore: number;
  readonly length: number;
  /** Mean height of what stands out of its wall, mm. */
  readonly roughness: number;
  /** Sum of the loss coefficients of entry, bends and exit, on the velocity head. */
  readonly fittings: number;
}

/** mm. Drawn tubing and plastic; smooth rubber. Source: Munson, Young, Okiishi, Fundamentals of Fluid Mechanics, table 8.1; a glossary for rubber. */
export const SMOOTH_PIPE = 0.0015;
export const RUBBER_HOSE = 0.01;

/** Loss coefficients. Source: Munson, Young, Okiishi, table 8.2 and figures 8.22, 8.25; a sharp entry also 0.57 (Rennels). */
export const SHARP_ENTRY = 0.5;
export const EXIT = 1;
/** A bend of 90 deg with a flange 0.3, of a long radius 0.2, threaded 1.5: a hose that hangs in a bow is nearer to the first. */
export const BEND = 0.3;
export const THREADED_BEND = 1.5;

/** s/m^(1/3). Plastic pipe; common practice, no source. */
const PIPE_N = 0.01;

/** Reynolds numbers between which a flow is neither laminar nor turbulent for certain; the factor is taken as straight between. */
const LAMINAR_TO = 2300;
const TURBULENT_FROM = 4000;

/**
 * Darcy's friction factor. Laminar 64 / Re (Hagen, Poiseuille), turbulent by C. F. Colebrook 1939,
 * 1/sqrt f = -2 log10(e/(3.7 D) + 2.51/(Re sqrt f)), iterated until it stays.
 */
export const frictionFactor = (reynolds: number, roughnessShare: number): number => {
  if (reynolds <= LAMINAR_TO) return 64 / reynolds;
  if (reynolds >= TURBULENT_FROM) return colebrook(reynolds, roughnessShare);
  const share = (reynolds - LAMINAR_TO) / (TURBULENT_FROM - LAMINAR_TO);
  return (1 - share) * (64 / LAMINAR_TO) + share * colebrook(TURBULENT_FROM, roughnessShare);
};

const colebrook = (reynolds: number, roughnessShare: number): number => {
  let root = 8;
  for (let i = 0; i < 50; i++) {
    const next = -2 * Math.log10(roughnessShare / 3.7 + (2.51 * root) / reynolds);
    if (Math.abs(next - root) <= SOLVED * root) return 1 / next ** 2;
    root = next;
  }
  return 1 / root ** 2;
};

const areaOf = (bore: number): number => (Math.PI / 4) * bore ** 2;

/** mm/s in a full pipe. */
export const speedIn = ({ bore }: Pick<Pipe, 'bore'>, rateMm3S: number): number => rateMm3S / areaOf(bore);

/** Head that a full pipe takes up at a flow, its exit's velocity head included, mm. Source: H. Darcy, J. Weisbach, any textbook. */
export const pipeLoss = (
  { bore, length, roughness, fittings }: Pipe,
  rateMm3S: number,
  viscosityCst: number,
): number => {
  if (rateMm3S <= 0) return 0;
  const speed = speedIn({ bore }, rateMm3S);
  const friction = frictionFactor((speed * bore) / viscosityCst, roughness / bore);
  return ((friction * length) / bore + fittings) * (speed ** 2 / (2 * GRAVITY));
};

/** mm3/s that a head drives through a full pipe; 0 without one. */
export const fullFlow = (pipe: Pipe, head: number, viscosityCst: number): number => {
  if (head <= 0) return 0;
  const most = areaOf(pipe.bore) * Math.sqrt(2 * GRAVITY * head);
  return leastThat(most / 1e3, (rate) => pipeLoss(pipe, rate, viscosityCst) >= head);
};

/** A pipe that falls evenly and has air in it. */
export interface Falling {
  readonly bore: number;
  /** Sine of its fall. */
  readonly fall: number;
}

/** mm3/s in a pipe filled to `depth`, an open channel. Source: Manning on the wetted part of a circle. */
export const partFullFlow = ({ bore, fall }: Falling, depth: number): number => {
  if (fall <= 0 || depth <= 0) return 0;
  const angle = 2 * Math.acos(1 - (2 * Math.min(depth, bore)) / bore);
  const area = ((angle - Math.sin(angle)) * bore ** 2) / 8;
  const wetted = (angle * bore) / 2;
  return manningFlow(area / 1e6, wetted / 1e3, fall, PIPE_N) * 1e9;
};

/** Depth of the most that a circle carries with air over it, as a share of the bore (Manning: 0.938). */
const MOST_DEPTH = 0.938;

export const mostPartFull = (pipe: Falling): number => partFullFlow(pipe, MOST_DEPTH * pipe.bore);

/** Depth at which it carries a flow, mm; undefined: it runs full. */
export const partFullDepth = (pipe: Falling, rateMm3S: number): number | undefined => {
  if (rateMm3S > mostPartFull(pipe)) return undefined;
  return Math.min(
    MOST_DEPTH * pipe.bore,
    leastThat(pipe.bore / 64, (depth) => partFullFlow(pipe, Math.min(depth, MOST_DEPTH * pipe.bore)) >= rateMm3S),
  );
};
