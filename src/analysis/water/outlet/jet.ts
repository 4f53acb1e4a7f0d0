import { filmDepth, GRAVITY } from '../flow/depth.js';

/** What comes to an edge, and the face that it comes down on. */
export interface JetInput {
  /** Flow for each mm of the edge that is wet, mm2/s. */
  readonly perWidth: number;
  /** Inclination of the face, rad. */
  readonly inclination: number;
  readonly viscosityCst: number;
  /** Manning's. */
  readonly n: number;
  /** mm. From where it comes down to there: no water is faster than by falling so far. */
  readonly fall: number;
}

/** Water as it leaves an edge. */
export interface Jet {
  /** At the edge, mm, and between which depths that lies by the two sources. */
  readonly depth: number;
  readonly depthBand: readonly [number, number];
  /** mm/s. */
  readonly speed: number;
  /** How far it points down, rad. */
  readonly down: number;
}

/** Depth at the edge over the critical one. Source: H. Rouse 1936, 0.715 (from memory); momentum without pressure at the edge 2/3. */
const BRINK = 0.715;
const BRINK_BY_MOMENTUM = 2 / 3;

/**
 * Water that comes down a face to its edge. Where it runs faster than its waves, its even depth y by the film's or Manning's law is
 * drawn down to y 2 F2 / (1 + 2 F2), by momentum without pressure at the edge; else to 0.715 of the critical depth
 * (q2/g)^(1/3). The flow that belongs to a depth differs by 11 % between the two sources. On a face so short that the water has not
 * reached its even depth it is no faster than sqrt(2 g fall), nor slower than its waves; what friction takes till then is left out.
 */
export const jetOf = ({ perWidth, inclination, viscosityCst, n, fall }: JetInput): Jet => {
  const even = filmDepth({ perWidth, steepness: Math.sin(inclination), viscosityCst, n });
  const down = inclination;
  const froude2 = even > 0 ? perWidth ** 2 / (GRAVITY * Math.max(0, Math.cos(inclination)) * even ** 3) : 0;
  if (froude2 > 1) {
    const drawn = Number.isFinite(froude2) ? (even * 2 * froude2) / (1 + 2 * froude2) : even;
    const slowest = perWidth / criticalDepth(perWidth);
    const depth = Math.max(drawn, perWidth / Math.max(slowest, Math.sqrt(2 * GRAVITY * Math.max(0, fall))));
    return { depth, depthBand: [depth, Math.max(depth, even)], speed: perWidth / depth, down };
  }
  const critical = criticalDepth(perWidth);
  const depth = BRINK * critical;
  return { depth, depthBand: [BRINK_BY_MOMENTUM * critical, depth], speed: perWidth / depth, down };
};

/** mm, of a flow for each mm of width, mm2/s: (q2/g)^(1/3). */
export const criticalDepth = (perWidth: number): number => Math.cbrt(perWidth ** 2 / GRAVITY);

/** How far out in plan a jet comes down `fall` mm below the edge, mm; it falls freely, air left out. */
export const throwOf = ({ speed, down }: Pick<Jet, 'speed' | 'down'>, fall: number): number => {
  if (fall <= 0) return 0;
  const sinking = speed * Math.sin(down);
  const time = (Math.sqrt(sinking ** 2 + 2 * GRAVITY * fall) - sinking) / GRAVITY;
  return speed * Math.cos(down) * time;
};
