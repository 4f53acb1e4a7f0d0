/** Loose clips as they are bent, each in its place: two legs and the bend between them, or a flat strap. */
import { straightContour, type Contour } from '../../geometry/contour.js';
import { frameOn, toPlane } from '../../geometry/frame.js';
import { addScaled, cross, dot, scale, type Vec2, type Vec3 } from '../../geometry/vec.js';
import { keepBy } from '../../cache/memo.js';
import type { FoldedPart, Plate, Roll } from '../../fold/flat-pattern.js';
import { fastenerOfRow, holeFor } from '../../join/fasteners/fastener-size.js';
import type { RunJoint } from '../../join/seam-joint.js';
import { pointOnRun } from '../../join/seam/seam-runs.js';
import { contactOf, type TabContact } from '../../join/tabs/contact.js';
import { innerCornerBeyond, needsClipBend, tabBendOf, type PlacedRow } from '../../join/tabs/tab-rows.js';
import { allowanceOf, chooseKFactor, setbackOf } from '../../material/bend-allowance.js';
import type { Sheet, Tub } from '../../model/tub.js';

/** Of one run, one by one; empty where it has none. Cost: linear in the clips. */
export const clipBodiesOf = (tub: Tub, joint: RunJoint): readonly FoldedPart[] => {
  const { row, run } = joint;
  if (!row || row.tabs.on !== 'loose' || row.centres.length === 0 || run.footing !== undefined) return [];
  const sheet = tub.sheets[tub.panels[run.sides[row.carrier].face].sheet];
  const { fasteners, name } = tub.seams[run.seam];
  return bodiesFor(joint, [sheet, fasteners, name], () => {
    const contacts = ([0, 1] as const).flatMap((side) => contactOf(tub, row, side) ?? []);
    if (contacts.length < 2 || contacts.some(({ from, to }) => to <= from)) return [];
    const clip: Clip = { tub, joint, row, sheet, contacts, name: `clip of ${name}` };
    return row.centres.map((_, i) => (needsClipBend(run) ? bentClip(clip, i) : strap(clip, i)));
  });
};

const bodiesFor = keepBy<RunJoint, readonly FoldedPart[]>();

interface Clip {
  readonly tub: Tub;
  readonly joint: RunJoint;
  readonly row: PlacedRow;
  readonly sheet: Sheet;
  readonly contacts: readonly TabContact[];
  readonly name: string;
}

/** The dry side of a clip lies away from the panels; the other on their dry faces. */
const legPlate = (clip: Clip, index: number, { side, to }: TabContact, from: number): Plate => {
  const { row, sheet, name } = clip;
  const { inward, normal, thickness } = row.run.sides[side];
  const half = row.tabs.wide / 2;
  const outwards = scale(normal, -1);
  const origin = addScaled(pointOnRun(row.run, row.centres[index]), normal, -thickness - sheet.thickness);
  const frame = frameOn(origin, outwards, inward);
  return {
    panel: side,
    name,
    face: undefined,
    frame,
    contour: straightContour([[from, -half], [to, -half], [to, half], [from, half]]), // prettier-ignore
    holes: holesOf(clip, index, side, to, (point) => toPlane(frame, point)),
  };
};

const holesOf = (
  { tub, joint, row }: Clip,
  index: number,
  side: 0 | 1,
  to: number,
  local: (point: Vec3) => Vec2,
): readonly Contour[] => {
  const { fasteners } = tub.seams[row.run.seam];
  if (!fasteners) return [];
  return joint.fasteners.flatMap(({ leg, stack, nutIn }) => {
    const fastener = leg?.centre === index && leg.side === side ? fastenerOfRow(fasteners, stack) : undefined;
    if (!fastener || !leg) return [];
    const along = pointOnRun(row.run, row.centres[index] + leg.aside);
    const middle = local(addScaled(along, row.run.sides[side].inward, to - leg.fromEnd));
    return [holeFor(fastener, nutIn === 'second', middle).contour];
  });
};

const bentClip = (clip: Clip, index: number): FoldedPart => {
  const { row, sheet, contacts, name } = clip;
  const { run, tabs, carrier } = row;
  const { angle, wet } = tabBendOf(row);
  const { radius, thickness } = sheet;
  const setback = setbackOf({ angle, radius, thickness, wet });
  const plates = contacts.map((contact) =>
    legPlate(clip, index, contact, setback - innerCornerBeyond(run, contact.side, carrier, tabs)),
  );
  return { name, thickness, plates, rolls: [clipRoll(clip, index, setback)] };
};

/** From the first leg to the second. */
const clipRoll = ({ row, sheet }: Clip, index: number, setback: number): Roll => {
  const { run, tabs, carrier } = row;
  const { angle, wet } = tabBendOf(row);
  const { radius, thickness } = sheet;
  const outer = radius + thickness;
  const { inward, normal, thickness: panel } = run.sides[0];
  const over = wet === 'inside' ? radius - panel : -panel - outer;
  const sense = wet === 'inside' ? -1 : 1;
  const [first, last] = run.sides.map((side) => scale(side.normal, sense));
  // Turned right-handed from the first leg to the second.
  const isAlong = dot(cross(run.along, first), last) > 0;
  const start = row.centres[index] + (isAlong ? -tabs.wide / 2 : tabs.wide / 2);
  const across = setback - innerCornerBeyond(run, 0, carrier, tabs);
  const origin = addScaled(addScaled(pointOnRun(run, start), inward, across), normal, over);
  const { kFactor } = chooseKFactor({ sheet, radius, bendKFactor: undefined });
  const allowance = allowanceOf({ angle, radius, thickness, kFactor });
  const levelOf = (y: number): Roll['near'] => [
    { x: 0, y, bulge: 0 },
    { x: allowance, y, bulge: 0 },
  ];
  return {
    bend: 0,
    axis: frameOn(origin, isAlong ? run.along : scale(run.along, -1), first),
    sweep: angle,
    innerRadius: radius,
    outerRadius: outer,
    wet,
    near: levelOf(0),
    far: levelOf(tabs.wide),
  };
};

/** Panels in one plane: one flat piece over both. */
const strap = (clip: Clip, index: number): FoldedPart => {
  const [first, second] = clip.contacts;
  const plate = legPlate(clip, index, first, -second.to);
  const more = holesOf(clip, index, second.side, second.to, (point) => toPlane(plate.frame, point));
  return {
    name: clip.name,
    thickness: clip.sheet.thickness,
    plates: [{ ...plate, holes: [...plate.holes, ...more] }],
    rolls: [],
  };
};
