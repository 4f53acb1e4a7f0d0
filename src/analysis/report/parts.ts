import { flatsToCut } from '../stages/flats-to-cut.js';
import type { FlatPattern } from '../fold/flat-pattern.js';
import { areaOfContour, extentOfContour, lengthOfContour } from '../geometry/contour.js';
import { massOf } from '../material/properties.js';
import type { Tub } from '../model/tub.js';
import type { Stages } from '../stages/stages.js';
import { reportArea, reportLength, reportMass } from './numbers.js';
import { textTable } from './text-table.js';

export interface PartRow {
  readonly name: string;
  readonly sheet: string;
  readonly material: string;
  readonly thickness_mm: number;
  readonly quantity: number;
  readonly panels: readonly string[];
  /** Null where the part cannot be laid flat: a finding says why. */
  readonly flat: PartFlat | null;
}

/** All of one piece. */
export interface PartFlat {
  readonly width_mm: number;
  readonly height_mm: number;
  /** Without the holes. */
  readonly area_mm2: number;
  /** Outline and holes. */
  readonly cut_length_mm: number;
  readonly mass_kg: number;
}

/** Every piece to cut, parts first, in the model's order; a part without a flat pattern is listed all the same. */
export const reportParts = (stages: Stages): PartRow[] => {
  const { tub } = stages;
  const parts = stages.parts().map((part, i): PartRow => {
    const flat = stages.flats()[i];
    const panels = part.faces.map((face) => tub.panels[face].name);
    if (flat) return rowOf(tub, flat, panels);
    return { ...headOf(tub, part.sheet, part.name), quantity: 1, panels, flat: null };
  });
  const clips = flatsToCut(stages).filter((flat) => flat.part === undefined);
  return [
    ...parts,
    ...clips.map((flat) =>
      rowOf(
        tub,
        flat,
        flat.panels.map((panel) => panel.name),
      ),
    ),
  ];
};

const headOf = (
  tub: Tub,
  sheetIndex: number,
  name: string,
): Pick<PartRow, 'name' | 'sheet' | 'material' | 'thickness_mm'> => {
  const sheet = tub.sheets[sheetIndex];
  return { name, sheet: sheet.name, material: sheet.material, thickness_mm: reportLength(sheet.thickness) };
};

const rowOf = (tub: Tub, flat: FlatPattern, panels: readonly string[]): PartRow => ({
  ...headOf(tub, flat.sheet, flat.name),
  quantity: flat.quantity,
  panels,
  flat: measureFlat(tub, flat),
});

const measureFlat = (tub: Tub, flat: FlatPattern): PartFlat => {
  const { min, max } = extentOfContour(flat.outline);
  const holes = flat.holes.map((hole) => hole.contour);
  const area =
    Math.abs(areaOfContour(flat.outline)) - holes.reduce((sum, hole) => sum + Math.abs(areaOfContour(hole)), 0);
  return {
    width_mm: reportLength(max[0] - min[0]),
    height_mm: reportLength(max[1] - min[1]),
    area_mm2: reportArea(area),
    cut_length_mm: reportLength([flat.outline, ...holes].reduce((sum, contour) => sum + lengthOfContour(contour), 0)),
    mass_kg: reportMass(massOf(tub.sheets[flat.sheet].material, area * flat.thickness)),
  };
};

/** Pieces to cut as a table for a terminal. */
export const partsText = (rows: readonly PartRow[]): string =>
  textTable(
    ['Part', 'Sheet', 'Pieces', 'Width mm', 'Height mm', 'Area mm2', 'Cut mm', 'Mass kg'],
    rows.map(({ name, material, thickness_mm, quantity, flat }) => [
      name,
      `${material} ${thickness_mm.toFixed(2)} mm`,
      String(quantity),
      ...(flat
        ? [
            flat.width_mm.toFixed(1),
            flat.height_mm.toFixed(1),
            flat.area_mm2.toFixed(0),
            flat.cut_length_mm.toFixed(1),
            flat.mass_kg.toFixed(3),
          ]
        : ['-', '-', '-', '-', '-']),
    ]),
  );
