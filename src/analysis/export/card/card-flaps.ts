/** Flaps that a mock-up of card is glued by: along each seam, on the part that has fewer panels. */
import { Clipper, FillRule, type PathD } from 'clipper2-ts';
import { toPlane } from '../../geometry/frame.js';
import { addScaled, distance, lerp, type Vec2, type Vec3 } from '../../geometry/vec.js';
import type { Part } from '../../fold/flat-pattern.js';
import type { Stages } from '../../stages/stages.js';
import type { CardFlap, CardPanel } from './card-pattern.js';
import type { PlacedFace } from './place-faces.js';

/** Of its fold, at each end, so that two flaps do not meet in a corner. */
const TAPER = 1;
/** mm. Shorter edges are taped. */
const SHORTEST = 6;
/** mm2. Card that may lie double: as much as a cut is wide along an edge. */
const MOST_DOUBLE = 1;
const PRECISION = 4;

interface Sheet {
  readonly stages: Stages;
  readonly part: Part;
  readonly placed: readonly PlacedFace[];
  readonly panels: readonly CardPanel[];
}

/** A flap that would lie over a panel or another flap is made half as deep, then left out. */
export const cardFlaps = ({ stages, part, placed, panels }: Sheet, depth: number): CardFlap[] => {
  const { faces } = stages.shape();
  const parts = stages.parts();
  const { seams, paths } = stages.joints();
  const taken: PathD[] = panels.map(({ outline }) => pathOf(outline));
  return seams.flatMap(({ seam, runs }) =>
    runs.flatMap(({ run }): CardFlap[] =>
      run.sides.flatMap((side, k): CardFlap[] => {
        const home = placed.find(({ face }) => face === side.face);
        if (!home) return [];
        const at = (point: Vec3): Vec2 => home.place(toPlane(faces[side.face].frame, point));
        const label = at(addScaled(lerp(run.start, run.end, 0.5), side.inward, LABEL_IN));
        const other = paths.partOf(run.sides[1 - k].face);
        const bears = side.stretch !== undefined && bearsFlap(parts, part.index, other, k);
        const outline = bears ? flapAt(at, run, side.inward, depth, taken) : [];
        return [{ seam, outline, label }];
      }),
    ),
  );
};

/** mm. */
const LABEL_IN = 6;

/** The part with fewer panels; of two alike the later; within one part the first side. */
const bearsFlap = (parts: readonly Part[], own: number, other: number | undefined, side: number): boolean => {
  if (other === undefined) return true;
  if (other === own) return side === 0;
  const [mine, theirs] = [parts[own].faces.length, parts[other].faces.length];
  return mine === theirs ? own > other : mine < theirs;
};

const flapAt = (
  at: (point: Vec3) => Vec2,
  { start, end }: { readonly start: Vec3; readonly end: Vec3 },
  inward: Vec3,
  depth: number,
  taken: PathD[],
): readonly Vec2[] => {
  const length = distance(start, end);
  if (length < SHORTEST) return [];
  for (const deep of [depth, depth / 2]) {
    const in_ = Math.min(TAPER * deep, length / 3) / length;
    const out = (share: number): Vec2 => at(addScaled(lerp(start, end, share), inward, -deep));
    const outline = [at(start), at(end), out(1 - in_), out(in_)];
    const path = pathOf(outline);
    const shared = Clipper.intersectD([path], taken, FillRule.NonZero, PRECISION);
    if (Math.abs(Clipper.areaPathsD(shared)) > MOST_DOUBLE) continue;
    taken.push(path);
    return outline;
  }
  return [];
};

/** Counter-clockwise. */
const pathOf = (ring: readonly Vec2[]): PathD => {
  const path = ring.map(([x, y]) => ({ x, y }));
  return Clipper.areaD(path) < 0 ? path.reverse() : path;
};
