/**
 * How each side of the sheet moves against each tool during a stroke, in the plane across the bend line. The bend keeps
 * its radius and takes up the zone from the middle as it closes; the middle line keeps its length. Lengths mm, rad.
 */

/** A turn (cosine, sine) and a shift, all as functions of the stroke parameter. */
export interface Motion {
  /** Writes cos, sin, x shift, y shift at that parameter. */
  readonly at: (parameter: number, out: Float64Array) => void;
  /** Upper bound of the second derivative of any point's position within `reach` of the side's origin, up to `to`. */
  readonly acceleration: (reach: number, to: number) => number;
  readonly end: number;
  /** Angle of the bend per unit of the parameter. */
  readonly angle: 1 | 2;
  /** Upper bound of how far the side's origin ever is from the tool's: distances from the origin change by no more. */
  readonly drift: number;
}

export interface StrokeGeometry {
  readonly thickness: number;
  readonly radius: number;
  readonly kFactor: number;
  readonly allowance: number;
  /** Angle under load, rad. */
  readonly bendTo: number;
}

/** A leg on a press brake seen from the punch, whose tip is the origin. The parameter is half the bend's angle. */
export const legAgainstPunch = (stroke: StrokeGeometry): Motion =>
  legOnPress(
    stroke,
    () => stroke.radius,
    () => 0,
    2 * stroke.radius + stroke.thickness,
  );

/** A leg on a press brake seen from the die: it slides over shoulders half an opening from the line. */
export const legAgainstDie = (stroke: StrokeGeometry, opening: number): Motion => {
  const outer = stroke.radius + stroke.thickness;
  const half = opening / 2;
  const center = (phi: number): number => (outer - half * Math.sin(phi)) / Math.cos(phi);
  const centerAcceleration = (phi: number): number => {
    const sec = 1 / Math.cos(phi);
    const tan = Math.tan(phi);
    return outer * (sec * tan * tan + sec ** 3) + 2 * half * sec * sec * tan;
  };
  // The centre sinks from R + T to below the shoulders by the depth of the groove at most.
  const depth = half * Math.tan(stroke.bendTo / 2) + outer / Math.cos(stroke.bendTo / 2);
  return legOnPress(stroke, center, centerAcceleration, depth + outer);
};

const legOnPress = (
  { thickness, radius, kFactor, bendTo }: StrokeGeometry,
  center: (phi: number) => number,
  centerAcceleration: (phi: number) => number,
  centerDrift: number,
): Motion => {
  const outer = radius + thickness;
  const neutral = radius + kFactor * thickness;
  return {
    end: bendTo / 2,
    angle: 2,
    drift: centerDrift + outer + (bendTo / 2) * neutral,
    at: (phi, out) => {
      const [c, s] = [Math.cos(phi), Math.sin(phi)];
      out[0] = c;
      out[1] = s;
      out[2] = outer * s - phi * neutral * c;
      out[3] = center(phi) - outer * c - phi * neutral * s;
    },
    acceleration: (reach, to) => reach + (to + 2) * neutral + outer + centerAcceleration(to),
  };
};

/** The turning leg of a folding brake seen from the clamp and the bed. The parameter is the bend's angle. */
export const leafLegAgainstClamp = ({ thickness, radius, kFactor, allowance, bendTo }: StrokeGeometry): Motion => {
  const outer = radius + thickness;
  const neutral = radius + kFactor * thickness;
  return {
    end: bendTo,
    angle: 1,
    drift: 2 * outer + allowance / 2 + bendTo * neutral,
    at: (theta, out) => {
      const [c, s] = [Math.cos(theta), Math.sin(theta)];
      const slide = allowance / 2 - theta * neutral;
      out[0] = c;
      out[1] = s;
      out[2] = outer * s + slide * c;
      out[3] = outer - outer * c + slide * s;
    },
    acceleration: (reach, to) => reach + allowance / 2 + (to + 2) * neutral + outer,
  };
};

/** The turning leg seen from the leaf that carries it: it only slides along. */
export const leafLegAgainstLeaf = ({ thickness, radius, kFactor, allowance, bendTo }: StrokeGeometry): Motion => ({
  end: bendTo,
  angle: 1,
  drift: allowance / 2 + bendTo * (radius + kFactor * thickness),
  at: (theta, out) => {
    out[0] = 1;
    out[1] = 0;
    out[2] = allowance / 2 - theta * (radius + kFactor * thickness);
    out[3] = 0;
  },
  acceleration: () => 0,
});

/** The clamped side seen from clamp and bed, with the tools mirrored: it lies still. */
export const clampedAgainstClamp = ({ allowance }: StrokeGeometry): Motion => ({
  end: 0,
  angle: 1,
  drift: allowance / 2,
  at: (_, out) => {
    out[0] = 1;
    out[1] = 0;
    out[2] = -allowance / 2;
    out[3] = 0;
  },
  acceleration: () => 0,
});

/** The clamped side seen from the leaf, with the leaf mirrored: it turns about the bend's axis. */
export const clampedAgainstLeaf = ({ thickness, radius, allowance, bendTo }: StrokeGeometry): Motion => {
  const outer = radius + thickness;
  return {
    end: bendTo,
    angle: 1,
    drift: allowance / 2 + 2 * outer,
    at: (theta, out) => {
      const [c, s] = [Math.cos(theta), Math.sin(theta)];
      out[0] = c;
      out[1] = s;
      out[2] = (-c * allowance) / 2 + s * outer;
      out[3] = (-s * allowance) / 2 - c * outer + outer;
    },
    acceleration: (reach) => reach + allowance / 2 + outer,
  };
};

/** The sheet lying flat under a tool that is raised by so much. */
export const raisedBy = (lift: number): Motion => ({
  end: 0,
  angle: 1,
  drift: Math.abs(lift),
  at: (_, out) => {
    out[0] = 1;
    out[1] = 0;
    out[2] = 0;
    out[3] = -lift;
  },
  acceleration: () => 0,
});
