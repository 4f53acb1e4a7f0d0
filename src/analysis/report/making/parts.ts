import { propertiesOf } from '../../material/properties.js';
import { cutParts, flatsOfParts, flatsToMake } from '../../stages/flats-to-cut.js';
import type { FlatPattern } from '../../fold/flat-pattern.js';
import { areaOfContour, extentOfContour, lengthOfContour } from '../../geometry/contour.js';
import { pieceMassOf } from '../../join/mass.js';
import { sideUpOf } from '../../fold/marked-side.js';
import type { SheetSide } from '../../model/marked.js';
import { roleOf } from '../../model/around/roles.js';
import type { Tub } from '../../model/tub.js';
import type { Stages } from '../../stages/stages.js';
import { reportArea, reportLength, reportMass } from '../numbers.js';
import type { Column } from '../table.js';

export interface PartRow {
  readonly name: string;
  readonly sheet: string;
  readonly material: string;
  /** As stated, or the one that it is taken as. */
  readonly grade: string;
  readonly thickness_mm: number;
  readonly quantity: number;
  readonly panels: readonly string[];
  /** What it is for: the tub, a support, or what comes out again. */
  readonly role: 'tub' | 'support' | 'removable';
  /** `leg.post`, `leftHalf.floor mirrored`: the part that it is made like, of the other hand where it is mirrored; null for one that is stated itself. */
  readonly like: string | null;
  /** The text says that it is cut already: `made`. */
  readonly is_cut: boolean;
  /** Null where the part cannot be laid flat: a finding says why. */
  readonly flat: PartFlat | null;
}

/** All of one piece. */
export interface PartFlat {
  /** Face of the sheet that lies up when it is cut and marked, as the drawings show it. */
  readonly side_up: SheetSide;
  readonly width_mm: number;
  readonly height_mm: number;
  /** Without the holes. */
  readonly area_mm2: number;
  /** Outline and holes. */
  readonly cut_length_mm: number;
  readonly mass_kg: number;
}

/** Every piece, parts first, in the model's order, those that are cut already among them; a part without a flat that can be cut is listed all the same. */
export const reportParts = (stages: Stages): PartRow[] => {
  const { tub } = stages;
  const [flats, cut] = [flatsOfParts(stages), cutParts(stages)];
  const parts = stages.parts().map((part, i): PartRow => {
    const flat = flats[i];
    const is_cut = cut.has(part.index);
    const panels = part.faces.map((face) => tub.panels[face].name);
    const role = madeForPanel(tub, part.faces[0]);
    const like = likeOf(tub, part.faces[0], part.name);
    if (flat) return { ...partRow(tub, flat, panels, role), like, is_cut };
    return { ...headOf(tub, part.sheet, part.name), quantity: 1, panels, role, like, is_cut, flat: null };
  });
  const clips = flatsToMake(stages).filter((flat) => flat.part === undefined);
  return [
    ...parts,
    ...clips.map((flat) =>
      partRow(
        tub,
        flat,
        flat.panels.map((panel) => panel.name),
        'tub',
      ),
    ),
  ];
};

const headOf = (
  tub: Tub,
  sheetIndex: number,
  name: string,
): Pick<PartRow, 'name' | 'sheet' | 'material' | 'grade' | 'thickness_mm'> => {
  const sheet = tub.sheets[sheetIndex];
  return {
    name,
    sheet: sheet.name,
    material: sheet.material,
    grade: propertiesOf(sheet).grade,
    thickness_mm: reportLength(sheet.thickness),
  };
};

const likeOf = ({ panels, groups }: Tub, face: number, part: string): string | null => {
  const group = groups?.[panels[face]?.group ?? -1];
  if (!group?.madeOf) return null;
  const { group: of, isMirrored } = group.madeOf;
  const name = part.startsWith(`${group.name}.`) ? `${of}${part.slice(group.name.length)}` : of;
  return isMirrored ? `${name} mirrored` : name;
};

/** Parts are made; existing things have none. */
export const madeFor = (tub: Tub, { panels }: Pick<FlatPattern, 'panels'>): PartRow['role'] =>
  madeForPanel(tub, panels[0]?.face);

const madeForPanel = (tub: Tub, face: number | undefined): PartRow['role'] => {
  const role = face === undefined ? 'tub' : roleOf(tub, face);
  return role === 'existing' ? 'tub' : role;
};

/** One that is laid flat: its panels by name. */
export const partRow = (tub: Tub, flat: FlatPattern, panels: readonly string[], role: PartRow['role']): PartRow => ({
  ...headOf(tub, flat.sheet, flat.name),
  quantity: flat.quantity,
  panels,
  role,
  like: null,
  is_cut: false,
  flat: measureFlat(tub, flat),
});

const measureFlat = (tub: Tub, flat: FlatPattern): PartFlat => {
  const { min, max } = extentOfContour(flat.outline);
  const holes = flat.holes.map((hole) => hole.contour);
  const area =
    Math.abs(areaOfContour(flat.outline)) - holes.reduce((sum, hole) => sum + Math.abs(areaOfContour(hole)), 0);
  return {
    side_up: sideUpOf(flat),
    width_mm: reportLength(max[0] - min[0]),
    height_mm: reportLength(max[1] - min[1]),
    area_mm2: reportArea(area),
    cut_length_mm: reportLength([flat.outline, ...holes].reduce((sum, contour) => sum + lengthOfContour(contour), 0)),
    mass_kg: reportMass(pieceMassOf(tub, flat)),
  };
};

/** Pieces, as every list tells them. */
export const PART_COLUMNS: readonly Column<PartRow>[] = [
  { key: 'name', head: 'Part', value: (row) => row.name },
  { key: 'sheet', head: 'Sheet', value: (row) => row.sheet },
  { key: 'material', head: 'Material', value: (row) => row.material },
  { key: 'grade', head: 'Grade', value: (row) => row.grade, isDetail: true },
  { key: 'thickness_mm', head: 'Thickness', value: (row) => row.thickness_mm, places: 2 },
  { key: 'quantity', head: 'Pieces', value: (row) => row.quantity },
  { key: 'panels', head: 'Panels', value: (row) => row.panels, isDetail: true },
  { key: 'like', head: 'Like', value: (row) => row.like, isDetail: true },
  { key: 'role', head: 'For', value: (row) => row.role, isDetail: true },
  { key: 'is_cut', head: 'Cut already', value: (row) => row.is_cut, isDetail: true },
  { key: 'flat.side_up', head: 'Side up', value: (row) => row.flat?.side_up },
  { key: 'flat.width_mm', head: 'Width', value: (row) => row.flat?.width_mm, places: 1 },
  { key: 'flat.height_mm', head: 'Height', value: (row) => row.flat?.height_mm, places: 1 },
  { key: 'flat.area_mm2', head: 'Area', value: (row) => row.flat?.area_mm2, places: 0 },
  { key: 'flat.cut_length_mm', head: 'Cut', value: (row) => row.flat?.cut_length_mm, places: 1 },
  { key: 'flat.mass_kg', head: 'Mass', value: (row) => row.flat?.mass_kg, places: 3 },
];
