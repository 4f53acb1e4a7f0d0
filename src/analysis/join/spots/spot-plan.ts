/** Spot welds of the whole tub: what the tables ask of each, and in which order the welder can get at them. */
import { scale } from '../../geometry/vec.js';
import type { SpotWelder, Tub } from '../../model/tub.js';
import type { FaceIndex, Shape } from '../../shape/shape.js';
import type { Spot } from '../tabs/contact.js';
import type { Joints } from '../joints.js';
import type { RunJoint, SeamJoint } from '../seam-joint.js';
import { accessFinder, isBetter, type Access, type SpotSite } from './spot-access.js';
import { spotLimits, type SpotLimits } from './spot-table.js';

/** The spots of one run. */
export interface SpotRow {
  readonly seam: number;
  readonly joint: RunJoint;
  readonly spots: readonly Spot[];
  /** Sheets through which a spot goes. */
  readonly stack: readonly number[];
  /** Undefined for a material without a table. */
  readonly limits: SpotLimits | undefined;
  /** Least distance between neighbours on one tab or lap; undefined for a single spot. */
  readonly pitch: number | undefined;
  /** Least distance of a spot to an edge. */
  readonly edge: number;
  /** Width over which the sheets lie on each other. */
  readonly overlap: number;
}

/** Rows of all seams that have spots, in order of seams and runs. */
export const spotRowsOf = (tub: Tub, joints: Joints): readonly SpotRow[] =>
  joints.seams.flatMap((seam) =>
    seam.runs.flatMap((joint) => (joint.spots.length > 0 ? [spotRow(tub, seam, joint)] : [])),
  );

const spotRow = (tub: Tub, { seam }: SeamJoint, joint: RunJoint): SpotRow => {
  const { run, row, spots } = joint;
  const count = tub.seams[seam].spots ?? 1;
  const [first, second] = run.sides;
  const carrier = run.sides[row?.carrier ?? 0];
  const material = tub.sheets[tub.panels[carrier.face].sheet].material;
  // A clip or tab has the thickness of its carrier; it lies on one panel at a time.
  const stack = row
    ? [carrier.thickness, Math.min(first.thickness, second.thickness)]
    : [first.thickness, second.thickness];
  const width = row ? row.tabs.wide / count : run.length / count;
  return {
    seam,
    joint,
    spots,
    stack,
    limits: spotLimits(material, stack),
    pitch: count > 1 ? width : undefined,
    edge: Math.min(...spots.map((spot) => spot.edge)),
    overlap: 2 * Math.min(...spots.map((spot) => spot.across)),
  };
};

/** How the spots of a run are got at with one welder. */
export interface SpotReach {
  readonly row: SpotRow;
  readonly reaches: boolean;
  /** Side that the clips are spotted to first, before the parts are brought together; undefined: no clips. */
  readonly firstSide: 0 | 1 | undefined;
  /** Of spots that are all reached the longest throat; else what all that are not reached need. */
  readonly worst: Access;
}

/**
 * Looks at every row's spots with a welder. Clips go onto one part while it is still alone, and onto the other once the parts
 * are together: the order in which all are reached, or which lacks least, is taken. Tabs and laps are spotted together.
 */
export const spotReachOf = (
  shape: Shape,
  joints: Joints,
  rows: readonly SpotRow[],
  welder: SpotWelder,
): readonly SpotReach[] => {
  const find = accessFinder(shape, welder);
  // What stands there already comes to it when all is spotted.
  const isThere = (face: FaceIndex): boolean => joints.paths.partOf(face) !== undefined;
  return rows.map((row): SpotReach => {
    const isLoose = row.joint.row?.tabs.on === 'loose';
    if (!isLoose)
      return {
        row,
        firstSide: undefined,
        ...worstOf(
          row.spots.map((spot) => siteOf(row, spot, isThere)),
          find,
        ),
      };
    const inOrder = (firstSide: 0 | 1): SpotReach => {
      const sites = row.spots.map((spot) =>
        siteOf(row, spot, spot.side === firstSide ? alone(joints, row, firstSide) : isThere),
      );
      return { row, firstSide, ...worstOf(sites, find) };
    };
    // The carrier first: it is the part that is open to the welder while it is alone.
    const carrier = row.joint.row!.carrier;
    const usual = inOrder(carrier);
    if (usual.reaches) return usual;
    const other = inOrder(carrier === 0 ? 1 : 0);
    return isBetter(other.worst, usual.worst, welder) ? other : usual;
  });
};

/** Of spots that are all reached the one that takes the longest throat; else the throat and the opening that reach all. */
const worstOf = (
  sites: readonly SpotSite[],
  find: (site: SpotSite) => Access,
): Pick<SpotReach, 'reaches' | 'worst'> => {
  const accesses = sites.map(find);
  const missed = accesses.filter((access) => !access.reaches);
  const reaches = missed.length === 0;
  const most = (of: keyof Pick<Access, 'throat' | 'opening'>): number =>
    Math.max(...(reaches ? accesses : missed).map((access) => access[of]));
  return { reaches, worst: { throat: most('throat'), opening: most('opening'), reaches } };
};

const siteOf = ({ joint }: SpotRow, spot: Spot, counts: SpotSite['counts']): SpotSite => {
  const { inward, normal } = joint.run.sides[spot.side];
  return { point: spot.point, normal, outward: scale(inward, -1), counts };
};

const alone = ({ paths }: Joints, { joint }: SpotRow, side: 0 | 1): SpotSite['counts'] => {
  const part = paths.partOf(joint.run.sides[side].face);
  return (face) => paths.partOf(face) === part;
};
