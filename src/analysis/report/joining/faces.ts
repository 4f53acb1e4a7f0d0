/** Faces that lie on one another, as they are bolted. */
import { bendsWithinOf, shopOf } from '../../model/shop/default-shop.js';
import type { Tub } from '../../model/tub.js';
import type { FaceContact } from '../../join/faces/face-contact.js';
import type { Stages } from '../../stages/stages.js';
import { reportLength } from '../numbers.js';
import type { Column } from '../table.js';

export interface FaceJointRow {
  readonly name: string;
  readonly between: readonly [string, string];
  /** From skin to skin as drawn, and with each bend as far off as the shop says it may be over the width of the contact. */
  readonly apart_mm: number;
  readonly apart_at_worst_mm: number;
  readonly needed_mm: number;
  readonly gasket_mm: number;
  /** Narrowest band of contact, and the length of all. */
  readonly width_mm: number;
  readonly length_mm: number;
  readonly screws_count: number;
  /** The panel on which the heads of the screws lie; null: none are stated. */
  readonly heads_on: string | null;
  readonly pitch_at_most_mm: number | null;
}

/** One for each pair of panels. */
export const reportFaces = (stages: Stages): FaceJointRow[] => {
  const { tub } = stages;
  const lean = bendsWithinOf(shopOf(tub));
  return stages.joints().faces.map((contact): FaceJointRow => {
    const { name, gasket } = tub.faceJoints![contact.joint];
    const { faces, apart, needs, bands, places } = contact;
    const [first, second] = faces.map((face) => tub.panels[face].name);
    const width = Math.min(...bands.map((band) => band.width));
    const pitch = pitchOf(contact);
    return {
      name,
      between: [first, second],
      apart_mm: reportLength((apart[0] + apart[1]) / 2),
      apart_at_worst_mm: reportLength(apart[1] + width * Math.sin(lean)),
      needed_mm: reportLength(needs),
      gasket_mm: reportLength(gasket),
      width_mm: reportLength(width),
      length_mm: reportLength(bands.reduce((sum, { length }) => sum + length, 0)),
      screws_count: places.length,
      heads_on: headsOn(tub, contact),
      pitch_at_most_mm: pitch === undefined ? null : reportLength(pitch),
    };
  });
};

const headsOn = ({ panels }: Tub, { faces, places }: FaceContact): string | null =>
  places.length === 0 ? null : panels[faces[places[0].headsOnSecond ? 1 : 0]].name;

const pitchOf = ({ bands }: FaceContact): number | undefined => {
  const shares = bands.flatMap(({ share }) => share ?? []);
  return shares.length === 0 ? undefined : Math.max(...shares);
};

/** Faces bolted together, as every list tells them. */
export const FACE_JOINT_COLUMNS: readonly Column<FaceJointRow>[] = [
  { key: 'name', head: 'Joint', value: (row) => row.name },
  { key: 'between', head: 'Between', value: (row) => row.between },
  { key: 'apart_mm', head: 'Apart', value: (row) => row.apart_mm, places: 2 },
  { key: 'apart_at_worst_mm', head: 'At worst', value: (row) => row.apart_at_worst_mm, places: 2 },
  { key: 'needed_mm', head: 'Needs', value: (row) => row.needed_mm, places: 2 },
  { key: 'gasket_mm', head: 'Gasket', value: (row) => row.gasket_mm, places: 1 },
  { key: 'width_mm', head: 'Width', value: (row) => row.width_mm, places: 1 },
  { key: 'length_mm', head: 'Length', value: (row) => row.length_mm, places: 1 },
  { key: 'screws_count', head: 'Screws', value: (row) => row.screws_count },
  { key: 'heads_on', head: 'Heads on', value: (row) => row.heads_on },
  { key: 'pitch_at_most_mm', head: 'Pitch', value: (row) => row.pitch_at_most_mm, places: 1 },
];
