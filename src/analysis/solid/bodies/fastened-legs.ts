/** Clips and tabs as they lie on the panels that they hold: legs and bends. */
import { keepBy, memo } from '../../cache/memo.js';
import { addScaled, cross, scale, type Vec3 } from '../../geometry/vec.js';
import { contactOf, type TabContact } from '../../join/tabs/contact.js';
import { innerCornerBeyond, isSetDown, needsClipBend, tabBendOf, type PlacedRow } from '../../join/tabs/tab-rows.js';
import type { RunJoint } from '../../join/seam-joint.js';
import { pointOnRun, type SeamRun } from '../../join/seam/seam-runs.js';
import { setbackOf } from '../../material/bend-allowance.js';
import type { Sheet, Tub } from '../../model/tub.js';
import type { FaceIndex } from '../../shape/shape.js';
import { boundsOf, lazyBody, stepsOfTurn, wedgesBetween, type Body, type Prism } from './prisms.js';

/** All legs of one row on one panel, from the first to the last of them and one by one; with their bends on one of the panels. */
export interface Legs {
  /** Index into `Tub.seams`. */
  readonly seam: number;
  readonly row: PlacedRow;
  /** The panels that the seam joins there. */
  readonly faces: readonly [FaceIndex, FaceIndex];
  /** As if there were no room between them. */
  readonly band: Body;
  readonly each: () => readonly Body[];
}

/** A row without room for any has none; the bends are with the legs on the first side. Cost: linear in the legs. */
export const legsOf = (tub: Tub, { row }: RunJoint): readonly Legs[] => {
  if (!row || row.centres.length === 0) return [];
  const sheet = tub.sheets[tub.panels[row.run.sides[row.carrier].face].sheet];
  return legsFor(row, [sheet], () =>
    contactsOf(tub, row).map((contact, i) => legsOnSide({ row, sheet, contact, isBentHere: i === 0 })),
  );
};

/** Besides its row a leg depends on the sheet that carries it. */
const legsFor = keepBy<PlacedRow, readonly Legs[]>();

const contactsOf = (tub: Tub, row: PlacedRow): readonly TabContact[] =>
  ([0, 1] as const).flatMap((side) => contactOf(tub, row, side) ?? []).filter(({ from, to }) => to > from);

/** What lies on one panel, and whether the bends are counted there. */
interface Lying {
  readonly row: PlacedRow;
  /** Of the clips or tabs. */
  readonly sheet: Sheet;
  readonly contact: TabContact;
  readonly isBentHere: boolean;
}

const legsOnSide = (lying: Lying): Legs => {
  const { run, centres, tabs } = lying.row;
  const half = tabs.wide / 2;
  return {
    seam: run.seam,
    row: lying.row,
    faces: [run.sides[0].face, run.sides[1].face],
    band: legBody(lying, [centres[0] - half, centres[centres.length - 1] + half]),
    each: memo(() => centres.map((centre) => legBody(lying, [centre - half, centre + half]))),
  };
};

const legBody = (lying: Lying, along: readonly [number, number]): Body => {
  const { row, sheet, contact, isBentHere } = lying;
  const { run } = row;
  const { side, from, to } = contact;
  const { inward, normal, thickness } = run.sides[side];
  const own = sheet.thickness;
  // On the dry face; what stands on a face lies on the skin on which it does.
  const [low, high] = run.footing === side ? [0, own] : [-thickness - own, -thickness];
  const corners = [low, high].flatMap((over) =>
    along.flatMap((at) => [from, to].map((across) => placeBeside(run, side, [at, across, over]))),
  );
  const prismOf = (): Prism => ({
    corners,
    edges: [run.along, inward, normal],
    normals: [normal, inward, cross(normal, inward)],
  });
  const bend = isBentHere ? legBendOf(lying, along) : undefined;
  const rings = memo(() => (bend ? ringsOf(bend) : []));
  // All of a round lies within its outside about the axis.
  const around = bend
    ? bend.axes.flatMap(([x, y, z]): Vec3[] => [
        [x - bend.outer, y - bend.outer, z - bend.outer],
        [x + bend.outer, y + bend.outer, z + bend.outer],
      ])
    : [];
  return lazyBody(
    { face: undefined, thickness: own, faces: [normal], ...boundsOf([...corners, ...around]) },
    () => [...corners, ...rings().flat()],
    () => [prismOf(), ...wedgesBetween(rings(), run.along)],
  );
};

/** mm along the run, into the panel, and over its wet face. */
const placeBeside = (run: SeamRun, side: 0 | 1, [at, across, over]: Vec3): Vec3 =>
  addScaled(addScaled(pointOnRun(run, at), run.sides[side].inward, across), run.sides[side].normal, over);

/** From the leg on one side to that on the other, or to the panel that carries the tab. */
interface LegBend {
  /** On the axis, at both ends. */
  readonly axes: readonly Vec3[];
  readonly angle: number;
  readonly radius: number;
  readonly outer: number;
  /** From the axis to where the turn begins and ends. */
  readonly arms: readonly [Vec3, Vec3];
}

/** Undefined: flat. */
const legBendOf = ({ row, sheet, contact }: Lying, along: readonly [number, number]): LegBend | undefined => {
  const { run, tabs, carrier } = row;
  const { angle, wet } = tabBendOf(row);
  if (run.footing === undefined && (isSetDown(row) || !needsClipBend(run))) return undefined;
  const { side } = contact;
  const { normal, thickness } = run.sides[side];
  const { radius } = sheet;
  const outer = radius + sheet.thickness;
  const setback = setbackOf({ angle, radius, thickness: sheet.thickness, wet });
  // Where the axis lies over the panel's wet face, and on which side of it the bend begins.
  const [across, over, sense] =
    run.footing === side
      ? [-setback, outer, -1]
      : [
          setback - innerCornerBeyond(run, side, carrier, tabs),
          wet === 'inside' ? radius - thickness : -thickness - outer,
          wet === 'inside' ? -1 : 1,
        ];
  const first = scale(normal, sense);
  const last = scale(run.sides[1 - side].normal, run.footing === side ? 1 : sense);
  const axes = along.map((at) => placeBeside(run, side, [at, across, over]));
  return { axes, angle, radius, outer, arms: [first, last] };
};

/** Corners at each place of the turn, as a wedge has them. */
const ringsOf = ({ axes, angle, radius, outer, arms: [first, last] }: LegBend): readonly (readonly Vec3[])[] => {
  const count = stepsOfTurn(angle, outer);
  return Array.from({ length: count + 1 }, (_, i) => {
    const [before, after] = [1 - i / count, i / count].map((share) => Math.sin(share * angle) / Math.sin(angle));
    const arm = addScaled(scale(first, before), last, after);
    return [radius, outer].flatMap((reach) => axes.map((axis) => addScaled(axis, arm, reach)));
  });
};
