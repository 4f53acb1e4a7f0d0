/** Loose clips: small angles across a seam, cut and bent apart from the tub. */
import { allowanceOf, chooseKFactor, setbackOf } from '../material/bend-allowance.js';
import { straightContour } from '../geometry/contour.js';
import type { Vec2 } from '../geometry/vec.js';
import type { FlatBend, FlatPattern } from '../fold/flat-pattern.js';
import type { SheetIndex, Tabs, Tub } from '../model/tub.js';
import type { FastenerPlace } from './fasteners/fastener-places.js';
import { fastenerOfRow, holeOf, nameOfFastener } from './fasteners/fastener-size.js';
import { centreMark, holeThrough } from './fasteners/hole-through.js';
import type { SeamJoint } from './seam-joint.js';
import { deviationOf, type SeamRun } from './seam/seam-runs.js';
import { needsClipBend, type PlacedRow } from './tabs/tab-rows.js';
import { SAME_CLIP, SAME_LINE } from '../model/tolerance.js';

/** Clips of one size and angle. */
export interface ClipKind {
  readonly name: string;
  readonly sheet: SheetIndex;
  readonly wide: number;
  /** Length of each leg from the corner of the faces that lie on the panels. */
  readonly deep: number;
  /** Deviation from flat; 0 for a flat strap. */
  readonly angle: number;
  /** Do the panels lie inside the clip's angle, or outside it? */
  readonly holds: 'inside' | 'outside';
  readonly quantity: number;
  /** Of rivets and screws: on either side, from the end of the leg and from the middle of its width. */
  readonly holes: readonly ClipHole[];
  /** Seams that use it, by name. */
  readonly seams: readonly string[];
}

export interface ClipHole {
  readonly side: 0 | 1;
  readonly fromEnd: number;
  readonly aside: number;
  readonly diameter: number;
  readonly through: string;
  /** Drilled on assembly: the clip carries its centre. */
  readonly isCentre: boolean;
}

/** Clips of one kind along one seam. */
interface SeamClips {
  readonly key: string;
  /** The first row that asks for them. */
  readonly row: PlacedRow;
  readonly holes: readonly ClipHole[];
  quantity: number;
}

/** The kinds of clip that all seams together ask for, by sheet, size and angle; rows of integral tabs ask for none. */
export const clipKindsOf = (tub: Tub, joints: readonly SeamJoint[]): readonly ClipKind[] => {
  const kinds = new Map<
    string,
    { readonly first: PlacedRow; readonly holes: readonly ClipHole[]; quantity: number; readonly seams: Set<string> }
  >();
  for (const joint of joints) {
    for (const { key, row, holes, quantity } of clipsOfSeam(tub, joint)) {
      let kind = kinds.get(key);
      if (!kind) kinds.set(key, (kind = { first: row, holes, quantity: 0, seams: new Set() }));
      kind.quantity += quantity;
      kind.seams.add(joint.name);
    }
  }
  return [...kinds.values()].map(({ first, holes, quantity, seams }, i): ClipKind => {
    const { run, tabs } = first;
    const [name, sheet] = [`clip ${i + 1}`, sheetOf(tub, first)];
    const { wide, deep } = tabs;
    return { name, sheet, wide, deep, angle: angleOf(run), holds: holdsOf(run), holes, quantity, seams: [...seams] };
  });
};

const clipsOfSeam = (tub: Tub, { runs }: SeamJoint): readonly SeamClips[] => {
  const kinds = new Map<string, SeamClips>();
  for (const { row, fasteners } of runs) {
    if (!row || row.tabs.on !== 'loose' || row.centres.length === 0) continue;
    const holes = holesOfClip(tub, row, fasteners);
    const key = `${keyOf(row.run, row.tabs, sheetOf(tub, row))} ${holes.map(keyOfHole).join()}`;
    const kind = kinds.get(key);
    if (kind) kind.quantity += row.centres.length;
    else kinds.set(key, { key, row, holes, quantity: row.centres.length });
  }
  return [...kinds.values()];
};

const holesOfClip = (tub: Tub, { run }: PlacedRow, places: readonly FastenerPlace[]): readonly ClipHole[] => {
  const stated = tub.seams[run.seam].fasteners;
  return places.flatMap((place): ClipHole[] => {
    const fastener = stated && fastenerOfRow(stated, place.stack);
    if (!fastener || place.leg?.centre !== 0) return [];
    const { side, fromEnd, aside } = place.leg;
    const through = nameOfFastener(fastener);
    return [{ side, fromEnd, aside, diameter: holeOf(fastener, false), through, isCentre: stated.drilled }];
  });
};

const keyOfHole = ({ side, fromEnd, aside, diameter, isCentre }: ClipHole): string =>
  `${side} ${Math.round(fromEnd / SAME_LINE)} ${Math.round(aside / SAME_LINE)} ${diameter} ${isCentre}`;

const sheetOf = (tub: Tub, { run, carrier }: PlacedRow): SheetIndex => tub.panels[run.sides[carrier].face].sheet;

const angleOf = (run: SeamRun): number => (needsClipBend(run) ? deviationOf(run) : 0);

const holdsOf = (run: SeamRun): ClipKind['holds'] => (run.corner <= Math.PI ? 'inside' : 'outside');

const keyOf = (run: SeamRun, { wide, deep }: Tabs, sheet: SheetIndex): string =>
  `${sheet} ${wide} ${deep} ${Math.round(angleOf(run) / SAME_CLIP)} ${holdsOf(run)}`;

/**
 * Flat pattern of a kind of clip, the side away from the panels up, its bend along x.
 *
 * Each leg is `deep` long from the corner of the faces that touch the panels: on the inside of the bend when the panels lie
 * inside the angle, else on its outside. Length = 2 deep - (2 setback - allowance). Undefined when the legs are shorter
 * than the bend needs.
 */
export const clipPattern = (tub: Tub, kind: ClipKind): FlatPattern | undefined => {
  const sheet = tub.sheets[kind.sheet];
  const { thickness, radius } = sheet;
  const common = {
    name: kind.name,
    part: undefined,
    sheet: kind.sheet,
    thickness,
    quantity: kind.quantity,
    place: undefined,
  };
  if (kind.angle === 0) {
    const outline = rectangle(kind.wide, 0, 2 * kind.deep);
    return {
      ...common,
      ...cutInto(kind, 2 * kind.deep),
      outline,
      bends: [],
      panels: [{ name: kind.name, face: undefined, region: outline }],
    };
  }
  const { kFactor } = chooseKFactor({ sheet, radius, bendKFactor: undefined });
  const geometry = { angle: kind.angle, radius, thickness };
  const setback = setbackOf({ ...geometry, wet: kind.holds });
  const leg = kind.deep - setback;
  if (leg <= 0) return undefined;
  const allowance = allowanceOf({ ...geometry, kFactor });
  const length = 2 * leg + allowance;
  const bend: FlatBend = { ...clipBend(kind, [leg, length - leg]), allowance, radius, kFactor };
  // Vertices on the tangent lines: the clip folds back from its outline and bend line alone.
  const sides = [0, leg, length - leg, length];
  const outline = straightContour([
    ...sides.map((y): [number, number] => [kind.wide, y]),
    ...[...sides].reverse().map((y): [number, number] => [0, y]),
  ]);
  return {
    ...common,
    ...cutInto(kind, length),
    outline,
    bends: [bend],
    panels: [
      { name: `${kind.name} leg 1`, face: undefined, region: rectangle(kind.wide, length - leg, length) },
      { name: `${kind.name} leg 2`, face: undefined, region: rectangle(kind.wide, 0, leg) },
    ],
  };
};

/** Holes and centres of a clip of that flat length; the first side's leg is the upper one. */
const cutInto = ({ wide, holes }: ClipKind, length: number): Pick<FlatPattern, 'holes' | 'marks'> => {
  const at = ({ side, fromEnd, aside }: ClipHole): Vec2 => [wide / 2 + aside, side === 0 ? length - fromEnd : fromEnd];
  return {
    holes: holes.filter(({ isCentre }) => !isCentre).map((hole) => holeThrough(at(hole), hole.diameter, hole.through)),
    marks: holes.filter(({ isCentre }) => isCentre).flatMap((hole) => centreMark(at(hole))),
  };
};

/** The bend line of a clip between its two tangent lines, by their heights. */
const clipBend = (
  { name, wide, angle, holds }: ClipKind,
  [low, high]: readonly [number, number],
): Omit<FlatBend, 'allowance' | 'radius' | 'kFactor'> => {
  const across = (y: number): [[number, number], [number, number]] => [
    [0, y],
    [wide, y],
  ];
  const [start, end] = across((low + high) / 2);
  return {
    bend: undefined,
    name,
    start,
    end,
    tangents: [across(high), across(low)],
    angle,
    direction: holds === 'inside' ? 'down' : 'up',
    parent: 0,
    child: 1,
  };
};

const rectangle = (wide: number, from: number, to: number): FlatPattern['outline'] =>
  straightContour([
    [0, from],
    [wide, from],
    [wide, to],
    [0, to],
  ]);
