/** What joining adds to the flats: tabs, marks where tabs and clips sit, bolt holes. */
import type { FlatHole, FlatMark, FlatPattern } from '../fold/flat-pattern.js';
import { add, subtract2 } from '../geometry/vec.js';
import { keepBy } from '../cache/memo.js';
import type { Tub } from '../model/tub.js';
import type { FaceContact } from './faces/face-contact.js';
import type { SeamJoint } from './seam-joint.js';
import type { PartKey } from './seam/part-keys.js';
import type { PartPaths } from './seam/part-paths.js';
import { markOfFoot, marksOfRow } from './tabs/place-marks.js';
import type { PlateReach } from './seam/plate-reach.js';
import { holesOfTab, panelHolesAt, panelHolesOfRun } from './fasteners/row-holes.js';
import { panelHolesOf, type StrainerFrame } from './fasteners/strainer-frame.js';
import type { TabPiece } from './tabs/tab-pieces.js';
import type { PlacedRow } from './tabs/tab-rows.js';
import { withTabs, type FlatTab } from './tabs/with-tabs.js';

export interface FlatAdditions {
  readonly tabs: readonly FlatTab[];
  readonly marks: readonly FlatMark[];
  /** For the bolts of strainer frames, and the rivets and screws of seams. */
  readonly holes: readonly FlatHole[];
}

/** What one seam adds to one part. */
interface SeamAdditions {
  readonly part: number;
  readonly tabs: FlatTab[];
  readonly marks: FlatMark[];
  readonly holes: FlatHole[];
}

export interface AdditionsSite {
  readonly tub: Tub;
  readonly paths: PartPaths;
  readonly keys: readonly PartKey[];
  readonly reach: PlateReach;
}

export interface Joined {
  readonly seams: readonly SeamJoint[];
  readonly frames: readonly StrainerFrame[];
  readonly faces: readonly FaceContact[];
}

/** A seam's joint that is the same object is one between the same parts (`PartKey`). */
const seamAdditionsFor = keepBy<SeamJoint, readonly SeamAdditions[]>();

/** Per part. */
export const additionsOf = (site: AdditionsSite, { seams, frames, faces }: Joined): readonly FlatAdditions[] => {
  const { tub, keys, paths, reach } = site;
  const framesOn = keys.map((): StrainerFrame[] => []);
  const seamsOn = keys.map((): SeamAdditions[] => []);
  for (const frame of frames) framesOn[paths.partOf(frame.face)!].push(frame);
  for (const joint of seams) {
    for (const each of seamAdditionsFor(joint, [], () => additionsOfSeam(site, joint))) seamsOn[each.part].push(each);
  }
  for (const contact of faces) {
    for (const each of contactAdditionsFor(contact, [], () => additionsOfContact(tub, site, contact)))
      seamsOn[each.part].push(each);
  }
  return seamsOn.map((added, i) => ({
    tabs: added.flatMap(({ tabs }) => tabs),
    marks: added.flatMap(({ marks }) => marks),
    holes: [...added.flatMap(({ holes }) => holes), ...framesOn[i].flatMap((frame) => panelHolesOf(reach, frame))],
  }));
};

/** A contact that is the same object is one of the same rows between the same parts. */
const contactAdditionsFor = keepBy<FaceContact, readonly SeamAdditions[]>();

const additionsOfContact = (
  tub: Tub,
  { paths, reach }: AdditionsSite,
  { joint, places }: FaceContact,
): readonly SeamAdditions[] => {
  const row = tub.faceJoints?.[joint].fasteners;
  if (!row) return [];
  return panelHolesAt(row, reach, places).flatMap(({ face, hole, mark }): SeamAdditions[] => {
    const part = paths.partOf(face);
    return part === undefined ? [] : [{ part, tabs: [], marks: [...(mark ?? [])], holes: hole ? [hole] : [] }];
  });
};

const additionsOfSeam = ({ tub, paths, reach }: AdditionsSite, joint: SeamJoint): readonly SeamAdditions[] => {
  const byPart = new Map<number, SeamAdditions>();
  const onto = (face: number): SeamAdditions => {
    const part = paths.partOf(face)!;
    let additions = byPart.get(part);
    if (!additions) byPart.set(part, (additions = { part, tabs: [], marks: [], holes: [] }));
    return additions;
  };
  for (const made of joint.runs) {
    const { row, tabs } = made;
    for (const { face, hole, mark } of panelHolesOfRun(tub, reach, made)) {
      if (hole) onto(face).holes.push(hole);
      if (mark) onto(face).marks.push(...mark);
    }
    const foot = markOfFoot(tub, reach, made.run);
    if (foot) onto(foot.face).marks.push(foot.mark);
    if (!row) continue;
    for (const { face, mark } of marksOfRow(tub, reach, row, joint.name)) onto(face).marks.push(mark);
    for (const [i, piece] of tabs.entries()) {
      const tab = onFlat(reach, row, piece);
      if (tab) onto(piece.face).tabs.push({ ...tab, ...holesOfTab(tub, reach, made, i, tab) });
    }
  }
  return [...byPart.values()];
};

/** The tab in the coordinates of its panel's flat; undefined: the panel is not laid flat. */
export const onFlat = (reach: PlateReach, { run, carrier }: PlacedRow, piece: TabPiece): FlatTab | undefined => {
  const { face, inward } = run.sides[carrier];
  const at = reach.toFlat(face, piece.point);
  const inside = reach.toFlat(face, add(piece.point, inward));
  if (!at || !inside) return undefined;
  return { ...piece, at, outward: subtract2(at, inside) };
};

/** The flat with the tabs, marks and bolt holes of its part. */
export const withAdditions = (flat: FlatPattern, { tabs, marks, holes }: FlatAdditions): FlatPattern =>
  withTabs(holes.length > 0 ? { ...flat, holes: [...flat.holes, ...holes] } : flat, tabs, marks);
