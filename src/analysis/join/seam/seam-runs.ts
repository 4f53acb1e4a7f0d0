/** The straight lengths of each seam, with both panels as they stand to each other. */
import { addScaled, angleBetween, cross, distance, dot, scale, subtract, type Vec3 } from '../../geometry/vec.js';
import { runOnAtFace, runOnAtSeam } from '../../fold/trim/seam-edge.js';
import { skinNormal } from '../../shape/feet.js';
import { keepBy } from '../../cache/memo.js';
import type { Seam, SheetSide, Tub } from '../../model/tub.js';
import type { Face, FaceIndex, Foot, Shape, Stretch } from '../../shape/shape.js';

/** One panel's side of a run. */
export interface RunSide {
  readonly face: FaceIndex;
  /** Undefined for a panel on whose face the other stands. */
  readonly stretch: Stretch | undefined;
  readonly thickness: number;
  /** In the panel's plane, square to the seam, into the panel. */
  readonly inward: Vec3;
  /** To the wet side; of a panel that the other stands on, out of the skin on which it does. */
  readonly normal: Vec3;
  /** How far the sheet runs on past its wet edge: over the other's thickness, or the lap; negative: cut back over a ridge. */
  readonly runOn: number;
}

export interface SeamRun {
  /** Index into `Tub.seams`. */
  readonly seam: number;
  /** In the order of the seam's members. `start` to `end` is counter-clockwise in the first one's panel. */
  readonly sides: readonly [RunSide, RunSide];
  readonly start: Vec3;
  readonly end: Vec3;
  readonly along: Vec3;
  readonly length: number;
  /** mm. How far the two edges stand apart at most, where they came out otherwise than drawn. */
  readonly apart: number;
  /** Angle between the wet faces through the liquid, 0..2 pi: below pi the panels rise from each other. */
  readonly corner: number;
  /** The side on whose face the other's edge stands; undefined where two edges meet. */
  readonly footing: 0 | 1 | undefined;
  /** Of that side's sheet, on which it stands. */
  readonly skin: SheetSide | undefined;
}

/**
 * Runs of all seams, by seam and then in order of the first member's faces; a seam without a shared edge has none.
 * Cost: O(n) in stretches.
 */
export const seamRunsOf = (tub: Tub, shape: Shape): readonly (readonly SeamRun[])[] => {
  const runs: SeamRun[][] = tub.seams.map(() => []);
  const members = tub.seams.map((seam) => seam.members.map((member) => new Set(member.panels)));
  for (const face of shape.faces) {
    for (const stretches of face.stretches) {
      for (const stretch of stretches) {
        for (const seam of stretch.seams) {
          const [first, second] = members[seam];
          const foot = stretch.feet?.find(({ face: under }) => (first.has(face.panel) ? second : first).has(under));
          if (foot) {
            const inputs = [tub.seams[seam], seam, face, shape.faces[foot.face], foot.skin, ...tub.sheets];
            const standing = first.has(face.panel) ? 0 : 1;
            runs[seam].push(
              runFor(stretch, inputs, () => footRun(tub, shape, { seam, face, stretch, foot, standing })),
            );
            continue;
          }
          if (!first.has(face.panel)) continue;
          const mate = stretch.mates.find((m) => second.has(m.face));
          if (!mate) continue;
          const bothWays = second.has(face.panel) && first.has(mate.face);
          if (bothWays && mate.face < face.panel) continue;
          const other = shape.faces[mate.face];
          const otherStretch = other.stretches[mate.edge][mate.stretch];
          const site: RunSite = {
            seam,
            joined: tub.seams[seam],
            faces: [face, other],
            stretches: [stretch, otherStretch],
            thicknesses: [thicknessOf(tub, face), thicknessOf(tub, other)],
          };
          const inputs = [tub.seams[seam], seam, face, other, otherStretch, ...site.thicknesses];
          runs[seam].push(runFor(stretch, inputs, () => runOf(site)));
        }
      }
    }
  }
  return runs;
};

interface RunSite {
  readonly seam: number;
  readonly joined: Seam;
  readonly faces: readonly [Face, Face];
  readonly stretches: readonly [Stretch, Stretch];
  readonly thicknesses: readonly [number, number];
}

/** The run along a stretch stays the same object while seam, faces and sheets are the same. */
const runFor = keepBy<Stretch, SeamRun>();

const thicknessOf = (tub: Tub, face: Face): number => tub.sheets[tub.panels[face.panel].sheet].thickness;

const runOf = ({ seam, joined, faces, stretches, thicknesses }: RunSite): SeamRun => {
  const [[face, other], [stretch, otherStretch], [own, theirs]] = [faces, stretches, thicknesses];
  const length = distance(stretch.start, stretch.end);
  const along = scale(subtract(stretch.end, stretch.start), 1 / length);
  const inward = cross(face.frame.normal, along);
  // The mate runs the other way, so that its metal lies to the left of the reversed line.
  const otherInward = cross(along, other.frame.normal);
  const angle = angleBetween(inward, otherInward);
  const rises = dot(otherInward, face.frame.normal) >= 0;
  const corner = rises ? angle : 2 * Math.PI - angle;
  const first: RunSide = {
    face: face.panel,
    stretch,
    thickness: own,
    inward,
    normal: face.frame.normal,
    runOn: runOnAtSeam(joined, { own, other: theirs, member: 0, corner }),
  };
  const second: RunSide = {
    face: other.panel,
    stretch: otherStretch,
    thickness: theirs,
    inward: otherInward,
    normal: other.frame.normal,
    runOn: runOnAtSeam(joined, { own: theirs, other: own, member: 1, corner }),
  };
  const { start, end } = stretch;
  const apart = Math.max(distance(start, otherStretch.end), distance(end, otherStretch.start));
  return {
    seam,
    sides: [first, second],
    start,
    end,
    along,
    length,
    apart,
    corner,
    footing: undefined,
    skin: undefined,
  };
};

interface FootSite {
  readonly seam: number;
  readonly face: Face;
  readonly stretch: Stretch;
  readonly foot: Foot;
  /** Which member of the seam stands. */
  readonly standing: 0 | 1;
}

const footRun = (tub: Tub, shape: Shape, { seam, face, stretch, foot, standing }: FootSite): SeamRun => {
  const under = shape.faces[foot.face];
  const length = distance(stretch.start, stretch.end);
  const own = scale(subtract(stretch.end, stretch.start), 1 / length);
  const inward = cross(face.frame.normal, own);
  const normal = skinNormal(shape, foot);
  const beside = cross(own, normal);
  const angle = angleBetween(inward, beside);
  const corner = dot(beside, face.frame.normal) >= 0 ? angle : 2 * Math.PI - angle;
  const thickness = thicknessOf(tub, face);
  const upright: RunSide = {
    face: face.panel,
    stretch,
    thickness,
    inward,
    normal: face.frame.normal,
    runOn: runOnAtFace(thickness, corner),
  };
  const ground: RunSide = {
    face: foot.face,
    stretch: undefined,
    thickness: thicknessOf(tub, under),
    inward: beside,
    normal,
    runOn: 0,
  };
  const [start, end] = standing === 0 ? [stretch.start, stretch.end] : [stretch.end, stretch.start];
  return {
    seam,
    sides: standing === 0 ? [upright, ground] : [ground, upright],
    start,
    end,
    along: standing === 0 ? own : scale(own, -1),
    length,
    apart: 0,
    corner,
    footing: standing === 0 ? 1 : 0,
    skin: foot.skin,
  };
};

/** Point of a run `at` mm from its start. */
export const pointOnRun = (run: SeamRun, at: number): Vec3 => addScaled(run.start, run.along, at);

/**
 * How far the line in which both dry faces meet lies outside a panel's wet edge, along that panel, mm; negative when it lies
 * within (the panels turn away from each other). From the two planes: (T_other + T_own cos c) / sin c. Zero for panels in line.
 */
export const dryCornerBeyond = (run: SeamRun, side: 0 | 1): number => {
  const sine = Math.sin(run.corner);
  if (Math.abs(sine) < FLAT_SINE) return 0;
  const [own, other] = [run.sides[side].thickness, run.sides[1 - side].thickness];
  return (other + own * Math.cos(run.corner)) / sine;
};

/** Sine of the angle below which two panels count as one plane: 1 deg. */
const FLAT_SINE = Math.sin(Math.PI / 180);

/** How far the two panels deviate from one plane, 0..pi: what a clip or tab across the seam is bent by. */
export const deviationOf = (run: SeamRun): number => Math.abs(Math.PI - run.corner);
