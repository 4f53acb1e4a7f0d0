/** Where the tub is fastened to, hangs on or goes through what stands there already. */
import { SAME_SURFACE } from '../../model/tolerance.js';
import { isOverMouth, type Mounting } from '../../solid/mountings.js';
import type { Stages } from '../../stages/stages.js';
import { reportLength } from '../numbers.js';
import type { Column } from '../table.js';
import { fixed } from '../../model/wording.js';

export interface MountingRow {
  /** The panel of what stands there. */
  readonly name: string;
  /** Of a level one: on which side of it the tub keeps. `beside`: it is not level. */
  readonly tub_is: 'below' | 'above' | 'beside';
  /** Panels of the tub that lie on it. */
  readonly lying: readonly string[];
  /** As stated, over all: level, and up the surface or to the back. */
  readonly mouths: readonly { readonly name: string; readonly width_mm: number; readonly height_mm: number }[];
  /** Parts of the tub that go beyond the surface, and the least from their metal to the edge of the mouth; negative: they reach past it. */
  readonly through: readonly { readonly part: string; readonly room_mm: number }[];
  readonly bolts_count: number;
  /** Of those, how many lie in an open mouth or over its edge. */
  readonly bolts_in_mouth_count: number;
}

export const reportMountings = (stages: Stages): MountingRow[] =>
  stages.mountings().map((mounting) => mountingRow(stages, mounting));

export const mountingRow = ({ tub, parts }: Pick<Stages, 'tub' | 'parts'>, mounting: Mounting): MountingRow => {
  const { face, surface, lying, mouths, through, bolts } = mounting;
  const up = surface.normal[2];
  return {
    name: tub.panels[face].name,
    tub_is: Math.abs(up) < Math.cos(SAME_SURFACE) ? 'beside' : up < 0 ? 'below' : 'above',
    lying: lying.map((panel) => tub.panels[panel].name),
    mouths: mouths.map(({ opening, ring }) => {
      const [width, height] = ([0, 1] as const).map((k) => {
        const values = ring.map((point) => point[k]);
        return reportLength(Math.max(...values) - Math.min(...values));
      });
      return { name: tub.openings[opening].name, width_mm: width, height_mm: height };
    }),
    through: through.map(({ part, room }) => ({ part: parts()[part].name, room_mm: reportLength(room) })),
    bolts_count: bolts.length,
    bolts_in_mouth_count: bolts.filter(({ center, diameter }) => isOverMouth(mounting, center, diameter / 2)).length,
  };
};

/** What the tub is fastened to, as every list tells it. */
export const MOUNTING_COLUMNS: readonly Column<MountingRow>[] = [
  { key: 'name', head: 'Fastened to', value: (row) => row.name },
  { key: 'tub_is', head: 'Tub is', value: (row) => row.tub_is },
  { key: 'lying', head: 'Lying on it', value: (row) => row.lying },
  {
    key: 'mouths',
    head: 'Mouth',
    value: (row) => row.mouths.map(({ name, width_mm, height_mm }) => `${name} ${width_mm} x ${height_mm} mm`),
  },
  {
    key: 'through',
    head: 'Room to its edge',
    value: (row) => row.through.map(({ part, room_mm }) => `${part} ${fixed(room_mm, 1)} mm`),
  },
  { key: 'bolts_count', head: 'Bolts', value: (row) => row.bolts_count },
  { key: 'bolts_in_mouth_count', head: 'In the mouth', value: (row) => row.bolts_in_mouth_count },
];
