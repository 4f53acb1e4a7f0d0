/** Can the arms of a spot welder reach a spot: past what sheet, from which side. */
import { boxesOfPolygons, indexBoxes } from '../../geometry/box-index.js';
import { cross, dot, subtract, type Vec3 } from '../../geometry/vec.js';
import type { SpotWelder } from '../../model/tub.js';
import type { Face, FaceIndex, Shape } from '../../shape/shape.js';
import { clipPolygon } from '../../geometry/clip-polygon.js';

/** mm. Half the width of an arm, and how far a cranked electrode sets the arm off to one side. Common practice, no source. */
const ARM_HALF_WIDTH = 10;
const CRANKS = [0, ARM_HALF_WIDTH, -ARM_HALF_WIDTH];

/** mm. Sheet farther away than this behind the throat is not in the machine's way. Common practice, no source. */
const BEHIND_THROAT = 300;

/** mm. Half the width of an electrode: slim ones of 12 mm. Common practice, no source. */
const ELECTRODE_HALF_WIDTH = 6;

/** mm. Height of an arm. Common practice, no source. */
const ARM = 40;

/** mm. Sheet this near to the panel is the panel, its clip or its tab. */
const FOOT = 2;

/** Directions tried around a spot, and ways to share the opening between the two sides of the panel. */
const DIRECTIONS = 24;
const SPLITS = 8;

export interface Access {
  /** Throat that reaches the spot this way, mm. */
  readonly throat: number;
  /** Opening between the arms that the sheet on this way asks for, mm. */
  readonly opening: number;
  readonly reaches: boolean;
}

export interface SpotSite {
  readonly point: Vec3;
  /** Of the panel, to the wet side. */
  readonly normal: Vec3;
  /** In the panel, towards the nearest edge: the first direction tried. */
  readonly outward: Vec3;
  /** Sheet that is there already. */
  readonly counts: (face: FaceIndex) => boolean;
}

/**
 * Looks for a way in for two arms that straddle the panel, an opening apart: along a direction in its plane nothing may stand
 * where the arms run, nothing beside the electrodes, and what lies between the arms must end within the throat. 24 directions,
 * straight and cranked electrodes, and 9 ways to share the opening between both sides are tried; the first that reaches is taken,
 * else the one that lacks least. Panels count as sharp polygons.
 * Cost: O(log n) and the panels within reach, times the directions.
 */
export const accessFinder = (shape: Shape, welder: SpotWelder): ((site: SpotSite) => Access) => {
  const faces = shape.faces.filter((face) => face.usable);
  const nearby = indexOf(faces);
  const radius = welder.throat + BEHIND_THROAT;
  return (site) => {
    const across = cross(site.normal, site.outward);
    const around = nearby(site.point, radius).filter((face) => site.counts(face.panel));
    const polygons = around.map((face) =>
      face.corners.map((corner): Vec3 => {
        const from = subtract(corner, site.point);
        return [dot(from, site.outward), dot(from, across), dot(from, site.normal)];
      }),
    );
    let best: Access | undefined;
    for (let i = 0; i < DIRECTIONS; i++) {
      for (const crank of CRANKS) {
        const way = wayIn(polygons, { angle: (2 * Math.PI * i) / DIRECTIONS, crank, radius }, welder);
        if (way.reaches) return way;
        if (!best || isBetter(way, best, welder)) best = way;
      }
    }
    return best!;
  };
};

const indexOf = (faces: readonly Face[]): ((point: Vec3, radius: number) => readonly Face[]) => {
  const search = indexBoxes(boxesOfPolygons(faces.map(({ corners }) => corners)));
  return ([x, y], radius) => search(x - radius, y - radius, x + radius, y + radius).map((i) => faces[i]);
};

/** What stands ahead within an arm's width: how far it goes, and between which heights over the panel. */
interface Obstacle {
  readonly along: number;
  readonly low: number;
  readonly high: number;
}

interface Way {
  readonly angle: number;
  readonly crank: number;
  readonly radius: number;
}

const wayIn = (polygons: readonly (readonly Vec3[])[], { angle, crank, radius }: Way, welder: SpotWelder): Access => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const turned = polygons.map((polygon) => polygon.map(([x, y, h]): Vec3 => [x * c + y * s, y * c - x * s, h]));
  const ahead = turned.flatMap((polygon) => obstacleOf(clipped(polygon, aheadOf(radius, crank))) ?? []);
  const beside = turned.flatMap((polygon) => obstacleOf(clipped(polygon, AT_ELECTRODE)) ?? []);
  const splits = Array.from({ length: SPLITS + 1 }, (_, i) => -(welder.opening * i) / SPLITS);
  const free = splits.filter((low) => isFree(ahead, beside, low, low + welder.opening));
  if (free.length === 0) {
    const near = [...ahead, ...beside].filter(
      ({ low, high }) => low < welder.opening + ARM && high > -welder.opening - ARM,
    );
    const opening = Math.max(0, ...near.map(({ high }) => high)) - Math.min(0, ...near.map(({ low }) => low));
    return { throat: Math.max(0, ...near.map(({ along }) => along)), opening, reaches: false };
  }
  const throats = free.map((low) => throatFor(ahead, low, low + welder.opening));
  const throat = Math.min(...throats);
  const low = free[throats.indexOf(throat)];
  const between = ahead.filter((o) => o.low >= low && o.high <= low + welder.opening);
  const opening = Math.max(0, ...between.map(({ high }) => high)) - Math.min(0, ...between.map((o) => o.low));
  return { throat, opening, reaches: throat <= welder.throat };
};

/** Arms at these heights: nothing stands where they run, and nothing beside the electrodes between them and the panel. */
const isFree = (ahead: readonly Obstacle[], beside: readonly Obstacle[], low: number, high: number): boolean =>
  !ahead.some((o) => meets(o, high, high + ARM) || meets(o, low - ARM, low)) &&
  !beside.some((o) => meets(o, FOOT, high) || meets(o, low, -FOOT));

const meets = (o: Obstacle, from: number, to: number): boolean => from < to && o.high > from && o.low < to;

/** Sheet beyond both arms is not in the way; what lies between them must end before the throat does. */
const throatFor = (ahead: readonly Obstacle[], low: number, high: number): number =>
  Math.max(0, ...ahead.filter((o) => meets(o, low - ARM, high + ARM)).map(({ along }) => along));

const obstacleOf = (corners: readonly Vec3[]): Obstacle | undefined => {
  if (corners.length === 0) return undefined;
  const heights = corners.map((corner) => corner[2]);
  return {
    along: Math.max(...corners.map((corner) => corner[0])),
    low: Math.min(...heights),
    high: Math.max(...heights),
  };
};

type HalfSpace = readonly [normal: Vec3, offset: number];

/** Ahead, within the width of an arm that runs `crank` to the left, and within the radius. */
const aheadOf = (radius: number, crank: number): readonly HalfSpace[] => [
  [[1, 0, 0], 0],
  [[-1, 0, 0], radius],
  [[0, 1, 0], ARM_HALF_WIDTH - crank],
  [[0, -1, 0], ARM_HALF_WIDTH + crank],
];

const AT_ELECTRODE: readonly HalfSpace[] = [
  [[1, 0, 0], ELECTRODE_HALF_WIDTH],
  [[-1, 0, 0], ELECTRODE_HALF_WIDTH],
  [[0, 1, 0], ELECTRODE_HALF_WIDTH],
  [[0, -1, 0], ELECTRODE_HALF_WIDTH],
];

const clipped = (polygon: readonly Vec3[], spaces: readonly HalfSpace[]): readonly Vec3[] =>
  spaces.reduce<readonly Vec3[]>((kept, [normal, offset]) => clipPolygon(kept, normal, offset), polygon);

/** One that reaches before one that does not; of these, what lacks less. */
export const isBetter = (a: Access, b: Access, welder: SpotWelder): boolean =>
  a.reaches === b.reaches ? lack(a, welder) < lack(b, welder) : a.reaches;

/** By how much a way falls short, mm; then the shorter throat. */
const lack = ({ throat, opening }: Access, welder: SpotWelder): number =>
  Math.max(0, throat - welder.throat) + Math.max(0, opening - welder.opening) + throat * 1e-6;
