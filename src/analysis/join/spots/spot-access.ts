/** Can the arms of a spot welder reach a spot: past what sheet, from which side. */
import { ROUND_OFF } from '../../geometry/tolerance.js';
import { boxesOfPolygons, indexBoxes } from '../../geometry/box-index.js';
import { cross, dot, subtract, type Vec3 } from '../../geometry/vec.js';
import type { SpotWelder } from '../../model/tub.js';
import type { Face, FaceIndex, Shape } from '../../shape/shape.js';
import { obstaclesIn, turnedBy, type Obstacle, type Region } from './spot-obstacles.js';

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

/** Tried around a spot. */
const DIRECTIONS = 24;

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
 * where the arms run, nothing beside the electrodes, and what lies between the arms must end within the throat. 24 directions and
 * straight and cranked electrodes are tried; how the opening is shared between both sides is solved. The first way that reaches is
 * taken, else the one that lacks least. Panels count as sharp polygons.
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
      const turned = turnedBy((2 * Math.PI * i) / DIRECTIONS, polygons);
      const beside = obstaclesIn(AT_ELECTRODE, turned);
      for (const crank of CRANKS) {
        const way = wayIn(obstaclesIn(aheadOf(radius, crank), turned), beside, welder);
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

const wayIn = (ahead: readonly Obstacle[], beside: readonly Obstacle[], welder: SpotWelder): Access => {
  let best: Access | undefined;
  const below = roomAbove(ahead.map(upsideDown), beside.map(upsideDown));
  for (const upper of roomAbove(ahead, beside)) {
    for (const lower of below) {
      const way = accessOf(ahead, upper, lower, welder);
      if (!best || isBetter(way, best, welder)) best = way;
    }
  }
  return best!;
};

/** Heights over the panel at which an arm may run. */
interface Heights {
  readonly from: number;
  readonly to: number;
}

const upsideDown = ({ along, low, high }: Obstacle): Obstacle => ({ along, low: -high, high: -low });

/** Where the upper arm may run: past all that stands ahead, and not above what stands beside the electrode. Never none. */
const roomAbove = (ahead: readonly Obstacle[], beside: readonly Obstacle[]): readonly Heights[] => {
  const top = Math.min(Infinity, ...beside.filter(({ high }) => high > FOOT).map(({ low }) => Math.max(FOOT, low)));
  const blocked = ahead
    .filter(({ high }) => high > 0)
    .map(({ low, high }): Heights => ({ from: low - ARM, to: high }))
    .sort((a, b) => a.from - b.from);
  const free: Heights[] = [];
  let from = 0;
  for (const each of blocked) {
    if (each.from >= from) free.push({ from, to: each.from });
    from = Math.max(from, each.to);
  }
  free.push({ from, to: Infinity });
  const within = free.filter((room) => room.from <= top).map((room) => ({ ...room, to: Math.min(room.to, top) }));
  // Beside the electrode stands something lower than all room: the least that would do is told.
  return within.length > 0 ? within : [{ from: free[0].from, to: free[0].from - 1 }];
};

/** What the arms need that run in those heights above and below the panel; what stands beyond both is not in the way. */
const accessOf = (ahead: readonly Obstacle[], upper: Heights, lower: Heights, welder: SpotWelder): Access => {
  const passed = ahead.filter(({ low, high }) => low - ARM < upper.to && -high - ARM < lower.to);
  const throat = Math.max(0, ...passed.map(({ along }) => along));
  const opening = upper.from + lower.from;
  const isRoom = upper.to >= upper.from && lower.to >= lower.from;
  const fits = isRoom && opening <= welder.opening && welder.opening <= upper.to + lower.to;
  return { throat, opening, reaches: fits && throat <= welder.throat };
};

/** Ahead, within the width of an arm that runs `crank` to the left, and within the radius. */
const aheadOf = (radius: number, crank: number): Region => ({
  x: [0, radius],
  y: [crank - ARM_HALF_WIDTH, crank + ARM_HALF_WIDTH],
});

const AT_ELECTRODE: Region = {
  x: [-ELECTRODE_HALF_WIDTH, ELECTRODE_HALF_WIDTH],
  y: [-ELECTRODE_HALF_WIDTH, ELECTRODE_HALF_WIDTH],
};

/** One that reaches before one that does not; of these, what lacks less. */
export const isBetter = (a: Access, b: Access, welder: SpotWelder): boolean =>
  a.reaches === b.reaches ? lack(a, welder) < lack(b, welder) : a.reaches;

/** By how much a way falls short, mm; then the shorter throat. */
const lack = ({ throat, opening, reaches }: Access, welder: SpotWelder): number => {
  const lacks = Math.max(0, throat - welder.throat) + Math.max(0, opening - welder.opening);
  return (reaches || lacks > 0 ? lacks : NO_WAY) + throat * ROUND_OFF;
};

/** mm. Beyond any lack: neither a longer throat nor a wider opening helps. */
const NO_WAY = 1e6;
