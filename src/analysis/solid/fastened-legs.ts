/** Legs of clips and tabs as they lie on the panels that they hold. */
import { keepBy, memo } from '../cache/memo.js';
import { addScaled, cross, type Vec3 } from '../geometry/vec.js';
import { contactOf, type TabContact } from '../join/tabs/contact.js';
import type { PlacedRow } from '../join/tabs/tab-rows.js';
import type { RunJoint } from '../join/seam-joint.js';
import { pointOnRun } from '../join/seam/seam-runs.js';
import type { Tub } from '../model/tub.js';
import type { FaceIndex } from '../shape/shape.js';
import { bodyOfPrisms, type Body, type Prism } from './prisms.js';

/** All legs of one row on one panel: from the first to the last of them, and one by one. */
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

/** Beside their bends, where they lie flat; a row without room for any has none. Cost: linear in the legs. */
export const legsOf = (tub: Tub, { row }: RunJoint): readonly Legs[] => {
  if (!row || row.centres.length === 0) return [];
  const sheet = tub.sheets[tub.panels[row.run.sides[row.carrier].face].sheet];
  return legsFor(row, [sheet], () => ([0, 1] as const).flatMap((side) => legsOnSide(tub, row, side) ?? []));
};

/** Besides its row a leg depends on the sheet that carries it. */
const legsFor = keepBy<PlacedRow, readonly Legs[]>();

const legsOnSide = (tub: Tub, row: PlacedRow, side: 0 | 1): Legs | undefined => {
  const { run, centres, tabs } = row;
  const contact = contactOf(tub, row, side);
  if (!contact || contact.to <= contact.from) return undefined;
  const half = tabs.wide / 2;
  return {
    seam: run.seam,
    row,
    faces: [run.sides[0].face, run.sides[1].face],
    band: legBody(tub, row, contact, [centres[0] - half, centres[centres.length - 1] + half]),
    each: memo(() => centres.map((centre) => legBody(tub, row, contact, [centre - half, centre + half]))),
  };
};

const legBody = (
  tub: Tub,
  { run, carrier }: PlacedRow,
  { side, from, to }: TabContact,
  along: readonly [number, number],
): Body => {
  const { inward, normal, thickness } = run.sides[side];
  const own = tub.sheets[tub.panels[run.sides[carrier].face].sheet].thickness;
  // On the dry face; what stands on a face lies on the skin on which it does.
  const [low, high] = run.footing === side ? [0, own] : [-thickness - own, -thickness];
  const place = (at: number, across: number, over: number): Vec3 =>
    addScaled(addScaled(pointOnRun(run, at), inward, across), normal, over);
  const corners = [low, high].flatMap((over) =>
    along.flatMap((at) => [from, to].map((across) => place(at, across, over))),
  );
  const edges = [run.along, inward, normal];
  const prism: Prism = { corners, edges, normals: [normal, inward, cross(normal, inward)] };
  return bodyOfPrisms([prism], [normal], own);
};
