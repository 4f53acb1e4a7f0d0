/** A strip that is cut, folded at other angles than it was drawn, by arithmetic of its own: straight metal between arcs. */
import type { Vec2 } from '../../../src/analysis/geometry/vec.js';

/** A back, three floors of unlike falls and a front that leans out, mm along and up. */
export const BASIN_PROFILE = [
  [0, 200],
  [0, 120],
  [150, 112],
  [210, 60],
  [330, 52],
  [360, 200],
] as const;

export interface CutStrip {
  /** Sharp corners on the wet face as drawn, wet to the left of travel. */
  readonly points: readonly Vec2[];
  readonly thickness: number;
  readonly radius: number;
  readonly kFactor: number;
}

export interface Read {
  /** Of each bend, rad, positive to the left. */
  readonly turns: readonly number[];
  /** By leg: taped to the outer or the inner corner of the metal at both ends. */
  readonly taped?: ReadonlyMap<number, { readonly length: number; readonly over: 'outside' | 'inside' }>;
}

export interface FoldedLeg {
  /** Ends of the straight wet face, and of the same drawn on to the sharp corners. */
  readonly straight: readonly [Vec2, Vec2];
  readonly sharp: readonly [Vec2, Vec2];
  readonly heading: number;
}

const ARC_STEPS = 24;

const headingOf = (a: Vec2, b: Vec2): number => Math.atan2(b[1] - a[1], b[0] - a[0]);

/** The turns as drawn. */
export const drawnTurns = ({ points }: CutStrip): number[] =>
  points.slice(2).map((c, i) => {
    const turn = headingOf(points[i + 1], c) - headingOf(points[i], points[i + 1]);
    return Math.atan2(Math.sin(turn), Math.cos(turn));
  });

/** Between bend lines, or from an edge to the first: what the flat has of each leg. */
const lineGaps = (strip: CutStrip): number[] => {
  const turns = drawnTurns(strip);
  return strip.points.slice(1).map((b, leg) => {
    const a = strip.points[leg];
    const sharp = Math.hypot(b[0] - a[0], b[1] - a[1]);
    return [turns[leg - 1], turns[leg]].reduce(
      (gap, turn) => (turn === undefined ? gap : gap - wetReach(strip, turn) + halfArc(strip, turn)),
      sharp,
    );
  });
};

const halfArc = ({ radius, kFactor, thickness }: CutStrip, turn: number): number =>
  (Math.abs(turn) * (radius + kFactor * thickness)) / 2;

/** From the sharp corner on the wet face to where the arc begins; a left turn has the wet face inside. */
const wetReach = ({ radius, thickness }: CutStrip, turn: number): number =>
  (turn > 0 ? radius : radius + thickness) * Math.tan(Math.abs(turn) / 2);

const straightLengths = (strip: CutStrip, { turns, taped }: Read): number[] =>
  lineGaps(strip).map((gap, leg) => {
    const ends = [turns[leg - 1], turns[leg]].filter((turn) => turn !== undefined);
    const read = taped?.get(leg);
    if (!read) return ends.reduce((left, turn) => left - halfArc(strip, turn), gap);
    const radius = read.over === 'outside' ? strip.radius + strip.thickness : strip.radius;
    return ends.reduce((left, turn) => left - radius * Math.tan(Math.abs(turn) / 2), read.length);
  });

/** From the origin along `heading`. */
export const foldLegs = (strip: CutStrip, read: Read, heading = 0): FoldedLeg[] => {
  let [at, way]: [Vec2, number] = [[0, 0], heading];
  const move = (from: Vec2, by: number, along: number): Vec2 => [
    from[0] + Math.cos(along) * by,
    from[1] + Math.sin(along) * by,
  ];
  return straightLengths(strip, read).map((length, leg) => {
    const end = move(at, length, way);
    const reach = (turn: number | undefined): number => (turn === undefined ? 0 : wetReach(strip, turn));
    const [before, after] = [read.turns[leg - 1], read.turns[leg]];
    const folded: FoldedLeg = {
      straight: [at, end],
      sharp: [move(at, -reach(before), way), move(end, reach(after), way)],
      heading: way,
    };
    if (after !== undefined) {
      const corner = move(end, reach(after), way);
      way += after;
      at = move(corner, reach(after), way);
    }
    return folded;
  });
};

/** The wet face, arcs in steps, and the dry face beside it. */
export const wetAndDry = (strip: CutStrip, read: Read, legs: readonly FoldedLeg[]): { wet: Vec2; dry: Vec2 }[] => {
  const out: { wet: Vec2; dry: Vec2 }[] = [];
  const put = (wet: Vec2, heading: number): void => {
    const right: Vec2 = [Math.sin(heading), -Math.cos(heading)];
    out.push({ wet, dry: [wet[0] + right[0] * strip.thickness, wet[1] + right[1] * strip.thickness] });
  };
  legs.forEach(({ straight, heading }, leg) => {
    for (const end of straight) put(end, heading);
    const turn = read.turns[leg];
    if (turn === undefined) return;
    const radius = turn > 0 ? strip.radius : strip.radius + strip.thickness;
    const side = Math.sign(turn);
    const centre: Vec2 = [
      straight[1][0] - side * radius * Math.sin(heading),
      straight[1][1] + side * radius * Math.cos(heading),
    ];
    for (let step = 1; step < ARC_STEPS; step++) {
      const now = heading + (turn * step) / ARC_STEPS;
      put([centre[0] + side * radius * Math.sin(now), centre[1] - side * radius * Math.cos(now)], now);
    }
  });
  return out;
};

/** A motion of the plane: turned about the origin, then moved. */
export interface PlaneMotion {
  readonly turn: number;
  readonly by: Vec2;
}

export const placedBy = ({ turn, by }: PlaneMotion, [x, y]: Vec2): Vec2 => [
  Math.cos(turn) * x - Math.sin(turn) * y + by[0],
  Math.sin(turn) * x + Math.cos(turn) * y + by[1],
];

/** Brings one line to lie on another: direction and middle. */
export const ontoLine = (from: readonly [Vec2, Vec2], to: readonly [Vec2, Vec2]): PlaneMotion => {
  const turn = headingOf(...to) - headingOf(...from);
  const middle = ([a, b]: readonly [Vec2, Vec2]): Vec2 => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const turned = placedBy({ turn, by: [0, 0] }, middle(from));
  const target = middle(to);
  return { turn, by: [target[0] - turned[0], target[1] - turned[1]] };
};
