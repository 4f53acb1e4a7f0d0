/** Loose clips: small angles across a seam, cut and bent apart from the tub. */
import { allowanceOf, chooseKFactor, setbackOf } from '../material/bend-allowance.js';
import { straightContour } from '../geometry/contour.js';
import type { FlatBend, FlatPattern } from '../fold/flat-pattern.js';
import { keepBy } from '../cache/memo.js';
import type { SheetIndex, Tabs, Tub } from '../model/tub.js';
import type { SeamJoint } from './seam-joint.js';
import { deviationOf, type SeamRun } from './seam/seam-runs.js';
import { needsClipBend, type PlacedRow } from './tabs/tab-rows.js';
import { SAME_CLIP } from '../model/tolerance.js';

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
  /** Seams that use it, by name. */
  readonly seams: readonly string[];
}

/** Clips of one kind along one seam. */
interface SeamClips {
  readonly key: string;
  /** The first row that asks for them. */
  readonly row: PlacedRow;
  quantity: number;
}

/** The kinds of clip that all seams together ask for, by sheet, size and angle; rows of integral tabs ask for none. */
export const clipKindsOf = (tub: Tub, joints: readonly SeamJoint[]): readonly ClipKind[] => {
  const kinds = new Map<string, { readonly first: PlacedRow; quantity: number; readonly seams: Set<string> }>();
  for (const joint of joints) {
    for (const { key, row, quantity } of seamClipsFor(joint, [], () => clipsOfSeam(tub, joint))) {
      let kind = kinds.get(key);
      if (!kind) kinds.set(key, (kind = { first: row, quantity: 0, seams: new Set() }));
      kind.quantity += quantity;
      kind.seams.add(joint.name);
    }
  }
  return [...kinds.values()].map(({ first, quantity, seams }, i): ClipKind => {
    const { run, tabs } = first;
    const [name, sheet] = [`clip ${i + 1}`, sheetOf(tub, first)];
    const { wide, deep } = tabs;
    return { name, sheet, wide, deep, angle: angleOf(run), holds: holdsOf(run), quantity, seams: [...seams] };
  });
};

/** A joint that is the same object is one between the same parts, of the same sheets. */
const seamClipsFor = keepBy<SeamJoint, readonly SeamClips[]>();

const clipsOfSeam = (tub: Tub, { runs }: SeamJoint): readonly SeamClips[] => {
  const kinds = new Map<string, SeamClips>();
  for (const { row } of runs) {
    if (!row || row.tabs.on !== 'loose' || row.centres.length === 0) continue;
    const key = keyOf(row.run, row.tabs, sheetOf(tub, row));
    const kind = kinds.get(key);
    if (kind) kind.quantity += row.centres.length;
    else kinds.set(key, { key, row, quantity: row.centres.length });
  }
  return [...kinds.values()];
};

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
    holes: [],
    marks: [],
    place: undefined,
  };
  if (kind.angle === 0) {
    const outline = rectangle(kind.wide, 0, 2 * kind.deep);
    return { ...common, outline, bends: [], panels: [{ name: kind.name, face: undefined, region: outline }] };
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
    outline,
    bends: [bend],
    panels: [
      { name: `${kind.name} leg 1`, face: undefined, region: rectangle(kind.wide, length - leg, length) },
      { name: `${kind.name} leg 2`, face: undefined, region: rectangle(kind.wide, 0, leg) },
    ],
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
