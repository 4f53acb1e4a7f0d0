/** Everything that leaves as a solid, as it is when the tub stands there: parts with their edges bevelled as the seam plan says. */
import type { Manifold } from 'manifold-3d';
import type { FoldedPart } from '../../../src/analysis/fold/flat-pattern.js';
import type { SeamRun } from '../../../src/analysis/join/seam/seam-runs.js';
import type { EdgeFit } from '../../../src/analysis/join/tabs/edge-fit.js';
import { addScaled, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { Stages } from '../../../src/analysis/stages/stages.js';
import { meshBodies } from './mesh-bodies.js';

/** Of the smaller of two bodies: what they may have in common. */
const SHARE = 1e-6;

/** mm. Of the rounds of parts and clips, and of rivets and screws, of which there are many. */
const FINENESS = 0.002;
const FASTENER_FINENESS = 0.02;

/** mm. Chords of rounds that lie on one another cross by less on average, and numbers of single precision by much less. */
const CHORDS = FINENESS;
const FASTENER_CHORDS = FASTENER_FINENESS / 2;

/** mm. Beyond the faces of what is cut off. */
const SPARE = 0.01;

interface Built {
  readonly name: string;
  /** Index of a part. */
  readonly part: number | undefined;
  readonly solid: Manifold;
  readonly chords: number;
}

export const assembledBodies = async () => {
  const { bodyOf, hull, union } = await meshBodies();

  /** Off the edge of a part: the corner between its dry face and its end, and what stands back. */
  const cutOff = (run: SeamRun, { side, edge, along, across, back }: EdgeFit): Manifold => {
    const { inward, normal, runOn } = run.sides[side];
    const { thickness } = edge;
    const out = -runOn - SPARE;
    const below = -thickness - SPARE;
    const rise = (across / (along - back)) * (out - (-runOn + back));
    const slope: readonly (readonly [number, number])[] = [
      [-runOn + along, -thickness],
      [-runOn + along, below],
      [out, below],
      [out, -thickness + across - rise],
    ];
    const behind: readonly (readonly [number, number])[] = [[out, below], [-runOn + back, below], [-runOn + back, SPARE], [out, SPARE]]; // prettier-ignore
    const made = (back > 0 ? [slope, behind] : [slope]).map((section) =>
      hull(
        [run.start, run.end].flatMap((end) =>
          section.map(([s, h]): Vec3 => addScaled(addScaled(end, inward, s), normal, h)),
        ),
      ),
    );
    return made.length === 1 ? made[0] : made[0].add(made[1]);
  };

  const partsOf = (stages: Stages, isBevelled: boolean): Built[] => {
    const cuts = stages
      .joints()
      .seams.flatMap(({ runs }) =>
        runs.flatMap(({ run, fits }) => fits.map((fit) => ({ face: run.sides[fit.side].face, cut: cutOff(run, fit) }))),
      );
    return stages.folded().flatMap((folded, part): Built[] => {
      if (!folded) return [];
      const { name, faces } = stages.parts()[part];
      const own = isBevelled ? cuts.filter(({ face }) => faces.includes(face)) : [];
      return [
        {
          name,
          part,
          solid: own.reduce((left, { cut }) => left.subtract(cut), bodyOf(folded, FINENESS)),
          chords: CHORDS,
        },
      ];
    });
  };

  const small = (body: FoldedPart, fineness: number, chords: number): Built => ({
    name: body.name,
    part: undefined,
    solid: bodyOf(body, fineness),
    chords,
  });

  const bodiesOf = (stages: Stages, isBevelled: boolean): Built[] => [
    ...partsOf(stages, isBevelled),
    ...stages.fitted().map(({ body }) => small(body, FINENESS, CHORDS)),
    ...stages.fasteners().map((body) => small(body, FASTENER_FINENESS, FASTENER_CHORDS)),
  ];

  /** mm3 that tabs of one piece which are set in take of the part that they press on. */
  const setIn = (stages: Stages, one: Built, other: Built): number => {
    const pair = [one, other].map(({ part }) => (part === undefined ? [] : stages.parts()[part].faces));
    const rows = stages.joints().seams.flatMap(({ runs }) => runs.flatMap(({ row }) => row ?? []));
    return rows
      .filter(
        ({ tabs, run }) => tabs.on !== 'loose' && run.sides.every(({ face }) => pair.some((f) => f.includes(face))),
      )
      .reduce((sum, { tabs: { wide, deep, inset }, centres }) => sum + centres.length * wide * deep * inset, 0);
  };

  /** Pairs that take the same room, in words; none where all is as it should be. */
  const sharedBy = (stages: Stages, { isBevelled } = { isBevelled: true }): readonly string[] => {
    const built = bodiesOf(stages, isBevelled).map((each) => ({
      ...each,
      box: each.solid.boundingBox(),
      volume: each.solid.volume(),
    }));
    type Measured = (typeof built)[number];
    const meet = (one: Measured, other: Measured): boolean =>
      [0, 1, 2].every((k) => one.box.min[k] < other.box.max[k] && other.box.min[k] < one.box.max[k]);
    /** Of what two have in common, mm3, the part that is more than they may have. */
    const tooMuch = (one: Manifold, other: Manifold, volume: number, chords: number): number => {
      const both = one.intersect(other);
      const over = both.volume() - SHARE * volume - (chords * both.surfaceArea()) / 2;
      both.delete();
      return over;
    };
    const found: string[] = [];
    built.forEach((one, i) => {
      const near = built.slice(i + 1).filter((other) => meet(one, other));
      const tiny = near.filter(({ part }) => part === undefined);
      // Most clips and screws are where they should be: all at once is many times faster than one by one.
      if (one.part !== undefined && tiny.length > 1) {
        const all = union(tiny.map(({ solid }) => solid));
        if (tooMuch(one.solid, all, Math.min(...tiny.map(({ volume }) => volume)), CHORDS) <= 0)
          near.splice(0, near.length, ...near.filter(({ part }) => part !== undefined));
        all.delete();
      }
      for (const other of near) {
        const volume = Math.min(one.volume, other.volume);
        const chords = Math.max(one.chords, other.chords);
        const over = tooMuch(one.solid, other.solid, volume, chords) - setIn(stages, one, other);
        if (over > 0) found.push(`${one.name} and ${other.name}: ${over} mm3`);
      }
    });
    for (const { solid } of built) solid.delete();
    return found;
  };

  return { sharedBy };
};
