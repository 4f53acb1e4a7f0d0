/**
 * Folds a part from its written drawing alone: outline, holes, pen lines and the words below the part. Shares no code with the
 * analysis: the outline is parted along the bend zones by a polygon kernel, and each piece is turned about the axis of its bend.
 */
import ManifoldModule, { type CrossSection, type ManifoldToplevel } from 'manifold-3d';
import { readDxf, type DxfEntity, type DxfVertex } from './dxf-reader.js';

type P2 = readonly [number, number];
export type P3 = readonly [number, number, number];

/** A flat piece between bends, as it stands once folded; the root lies where it is drawn, the side up that the drawing names. */
export interface FoldedPiece {
  /** Names in the bends that end at it. */
  readonly bends: readonly string[];
  readonly rings: readonly (readonly P2[])[];
  /** Out of the dry side. */
  readonly normal: P3;
  readonly dry: (point: P2) => P3;
  readonly wet: (point: P2) => P3;
}

export interface FoldedBend {
  readonly name: string;
  readonly pieces: readonly [number, number];
  readonly angle: number;
  readonly radius: number;
  readonly allowance: number;
  readonly isUp: boolean;
  readonly line: readonly [P2, P2];
}

export interface FoldedDrawing {
  readonly thickness: number;
  readonly outline: readonly P2[];
  readonly holes: readonly { readonly center: P2; readonly radius: number }[];
  readonly pieces: readonly FoldedPiece[];
  readonly bends: readonly FoldedBend[];
  readonly pieceAt: (point: P2) => number;
}

let kernel: Promise<ManifoldToplevel> | undefined;
const polygonKernel = (): Promise<ManifoldToplevel> =>
  (kernel ??= ManifoldModule().then((module) => {
    module.setup();
    return module;
  }));

const BEND = /^Bend (.+): (up|down) ([\d.]+) deg, inside radius ([\d.]+) mm, K [\d.]+, allowance ([\d.]+) mm$/;

export const foldDrawing = async (text: string): Promise<FoldedDrawing> => {
  const { CrossSection: Section } = await polygonKernel();
  const { entities } = readDxf(text);
  const of = <T extends DxfEntity['type']>(type: T, layer: string): Extract<DxfEntity, { type: T }>[] =>
    entities.filter((e): e is Extract<DxfEntity, { type: T }> => e.type === type && e.layer === layer);
  const words = of('TEXT', 'READ_TEXT').map((entity) => entity.text);
  const thickness = Number(words.join('\n').match(/^Sheet .*?: \S+ ([\d.]+) mm/m)?.[1]);
  const [, sideUp] = words.join('\n').match(/scale 1:1, (dry|wet) side up$/m) ?? [];
  if (!sideUp) throw new Error('the drawing does not say which side is up');
  const isWetUp = sideUp === 'wet';
  if (!(thickness > 0)) throw new Error('the drawing does not say how thick the sheet is');
  const outlines = of('LWPOLYLINE', 'CUT_OUTER');
  if (outlines.length !== 1) throw new Error(`${outlines.length} outlines`);
  const outline = straightened(outlines[0].vertices);
  const holes = of('CIRCLE', 'CUT_INNER');
  const told = words.filter((line) => BEND.test(line));
  const lines = of('LINE', 'PEN_BEND');
  if (told.length !== lines.length) throw new Error(`${lines.length} bend lines, ${told.length} bends in words`);

  const zones = told.map((line, i) => {
    const [, name, way, degrees, radius, allowance] = line.match(BEND)!;
    const { from, to } = lines[i];
    return {
      name,
      isUp: way === 'up',
      angle: (Number(degrees) * Math.PI) / 180,
      radius: Number(radius),
      allowance: Number(allowance),
      line: [from, to] as const,
      ...axesOf(from, to),
    };
  });
  let rest: CrossSection = new Section([outline.map(([x, y]): [number, number] => [x, y])], 'Positive');
  for (const zone of zones) {
    const { along, left, line, allowance } = zone;
    const [half, spare] = [allowance / 2, allowance];
    const corner = (at: P2, on: number, aside: number): [number, number] => [
      at[0] + along[0] * on + left[0] * aside,
      at[1] + along[1] * on + left[1] * aside,
    ];
    const cut = [
      corner(line[0], -spare, -half),
      corner(line[1], spare, -half),
      corner(line[1], spare, half),
      corner(line[0], -spare, half),
    ];
    rest = rest.subtract(new Section([cut], 'Positive'));
  }
  const flats = rest.decompose().map((piece) => piece.toPolygons() as P2[][]);
  const inPiece = (point: P2): number => flats.findIndex((rings) => isIn(point, rings));
  const beside = zones.map(({ line, left, allowance }) => {
    const middle = [(line[0][0] + line[1][0]) / 2, (line[0][1] + line[1][1]) / 2];
    const off = allowance / 2 + 0.02;
    return [1, -1].map((side) => inPiece([middle[0] + side * off * left[0], middle[1] + side * off * left[1]]));
  });
  beside.forEach(([a, b], i) => {
    if (a < 0 || b < 0 || a === b) throw new Error(`bend ${zones[i].name} does not lie between two pieces`);
  });

  const motions: (Motion | undefined)[] = flats.map(() => undefined);
  const root = flats.reduce((most, rings, i) => (areaOf(rings) > areaOf(flats[most]) ? i : most), 0);
  motions[root] = identity;
  for (const queue = [root]; queue.length > 0;) {
    const at = queue.pop()!;
    beside.forEach(([a, b], i) => {
      const other = a === at ? b : b === at ? a : -1;
      if (other < 0 || motions[other]) return;
      const zone = zones[i];
      const sense = a === at ? -1 : 1;
      const away: P2 = [zone.left[0] * sense, zone.left[1] * sense];
      motions[other] = after(motions[at]!, bendMotion(zone, away, thickness));
      queue.push(other);
    });
  }
  const pieces = flats.map((rings, i): FoldedPiece => {
    const motion = motions[i];
    if (!motion) throw new Error('a piece that no bend joins to the rest');
    const shown = ([x, y]: P2): P3 => motion([x, y, 0]);
    const hidden = ([x, y]: P2): P3 => motion([x, y, -thickness]);
    const [dry, wet, out] = isWetUp ? [hidden, shown, -1] : [shown, hidden, 1];
    const [o, n] = [motion([0, 0, 0]), motion([0, 0, 1])];
    const bends = zones.filter((_, k) => beside[k].includes(i)).map(({ name }) => name);
    return { bends, rings, normal: [0, 1, 2].map((k) => out * (n[k] - o[k])) as unknown as P3, dry, wet };
  });
  const bends = zones.map(({ name, angle, radius, allowance, isUp, line }, i): FoldedBend => ({
    name,
    angle,
    radius,
    allowance,
    isUp,
    line,
    pieces: [beside[i][0], beside[i][1]],
  }));
  return { thickness, outline, holes, pieces, bends, pieceAt: inPiece };
};

type Motion = (point: P3) => P3;

const identity: Motion = (point) => point;

const after =
  (outer: Motion, inner: Motion): Motion =>
  (point) =>
    outer(inner(point));

interface Zone {
  readonly line: readonly [P2, P2];
  readonly along: P2;
  readonly allowance: number;
  readonly angle: number;
  readonly radius: number;
  readonly isUp: boolean;
}

/** From where the child is drawn to where it stands beside its parent: drawn in by the zone, then turned about the axis. */
const bendMotion = ({ line, along, allowance, angle, radius, isUp }: Zone, away: P2, thickness: number): Motion => {
  const [start] = line;
  const foot: P2 = [start[0] - (away[0] * allowance) / 2, start[1] - (away[1] * allowance) / 2];
  // The axis lies on the inner side of the bend, over the parent's tangent line.
  const height = isUp ? radius : -thickness - radius;
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
  return ([x, y, z]) => {
    const [dx, dy] = [x - foot[0], y - foot[1]];
    const on = dx * along[0] + dy * along[1];
    const out = dx * away[0] + dy * away[1] - allowance;
    const up = z - height;
    // Turned from `out` towards the axis' side.
    const sense = isUp ? 1 : -1;
    const turnedOut = out * cosine - sense * up * sine;
    const turnedUp = sense * out * sine + up * cosine;
    return [
      foot[0] + along[0] * on + away[0] * turnedOut,
      foot[1] + along[1] * on + away[1] * turnedOut,
      height + turnedUp,
    ];
  };
};

const axesOf = (from: P2, to: P2): { readonly along: P2; readonly left: P2 } => {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const along: P2 = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  return { along, left: [-along[1], along[0]] };
};

/** Arcs as chords within 1e-4 mm. */
const straightened = (vertices: readonly DxfVertex[]): P2[] =>
  vertices.flatMap((a, i): P2[] => {
    const b = vertices[(i + 1) % vertices.length];
    if (a.bulge === 0) return [[a.x, a.y]];
    const sweep = 4 * Math.atan(a.bulge);
    const chord = Math.hypot(b.x - a.x, b.y - a.y);
    const radius = chord / 2 / Math.sin(Math.abs(sweep) / 2);
    const toCenter = (radius * Math.cos(sweep / 2) * Math.sign(a.bulge)) / chord;
    const [cx, cy] = [(a.x + b.x) / 2 - (b.y - a.y) * toCenter, (a.y + b.y) / 2 + (b.x - a.x) * toCenter];
    const steps = Math.max(2, Math.ceil(Math.abs(sweep) / Math.acos(Math.max(0, 1 - 1e-4 / radius)) / 2));
    const start = Math.atan2(a.y - cy, a.x - cx);
    return Array.from({ length: steps }, (_, k): P2 => {
      const angle = start + (sweep * k) / steps;
      return k === 0 ? [a.x, a.y] : [cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)];
    });
  });

const areaOf = (rings: readonly (readonly P2[])[]): number =>
  rings.reduce(
    (sum, ring) =>
      sum +
      ring.reduce((s, [x, y], i) => s + x * ring[(i + 1) % ring.length][1] - ring[(i + 1) % ring.length][0] * y, 0) / 2,
    0,
  );

const isIn = ([x, y]: P2, rings: readonly (readonly P2[])[]): boolean => {
  let isInside = false;
  for (const ring of rings) {
    ring.forEach(([ax, ay], i) => {
      const [bx, by] = ring[(i + 1) % ring.length];
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) isInside = !isInside;
    });
  }
  return isInside;
};
