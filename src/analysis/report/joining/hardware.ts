/** What is bought rather than cut: fasteners, wire cloth, filler, solder, sealant. */
import type { FastenerOfRow } from '../../join/fasteners/fastener-size.js';
import { seamFastenersOf } from '../../join/seam-fasteners.js';
import { strainerFramesOf } from '../../join/fasteners/strainer-frame.js';
import type { Closing } from '../../join/seam/method.js';
import { gripRange, solidShank, type RivetSize } from '../../material/rivets.js';
import { screwLength } from '../../material/screws.js';
import type { Fastener, Strainer, Tub } from '../../model/tub.js';
import { plain } from '../../model/wording.js';
import type { Stages } from '../../stages/stages.js';
import { reportLength, reportMillilitres } from '../numbers.js';
import type { Column } from '../table.js';

export interface HardwareRow {
  readonly kind: 'fastener' | 'rivet' | 'lip' | 'wire cloth' | 'weld filler' | 'solder' | 'sealant' | 'gasket';
  readonly item: string;
  /** Null for what is bought by length or volume. */
  readonly count: number | null;
  readonly width_mm: number | null;
  readonly height_mm: number | null;
  /** Of a rivet's shank or a thread; the sheet it holds; the length to buy: of a screw below its head, of a solid rivet its shank. */
  readonly diameter_mm: number | null;
  readonly grip_mm: number | null;
  readonly shank_mm: number | null;
  readonly mesh_per_inch: number | null;
  readonly aperture_mm: number | null;
  readonly wire_mm: number | null;
  /** Of all beads. */
  readonly length_mm: number | null;
  readonly volume_mL: number | null;
  readonly where: readonly string[];
}

const NOTHING = {
  count: null,
  width_mm: null,
  height_mm: null,
  diameter_mm: null,
  grip_mm: null,
  shank_mm: null,
  mesh_per_inch: null,
  aperture_mm: null,
  wire_mm: null,
  length_mm: null,
  volume_mL: null,
} as const;

/** Fasteners by kind, rivets by seam, lips and cloth by outlet, then fillers; amounts are those of the finished joints. */
export const reportHardware = (stages: Stages): HardwareRow[] => [
  ...fasteners(stages),
  ...ofSeams(stages),
  ...lips(stages.tub),
  ...cloths(stages.tub),
  ...beads(stages, 'weld filler', 'Filler metal in the weld', ['tig', 'mig']),
  ...beads(stages, 'solder', 'Solder', ['solder']),
  ...beads(stages, 'sealant', 'Sealant', ['sealant']),
  ...gaskets(stages),
];

/** Rivets, rivet nuts and screws to set: what goes onto a screw is set with it. */
export const fastenersSetIn = ({ tub, shape, joints }: Stages): number =>
  tub.openings.filter(({ fastener }) => fastener !== undefined).length +
  strainerFramesOf(tub, shape()).reduce((sum, { bolts }) => sum + bolts.length, 0) +
  seamFastenersOf(tub, joints()).length;

/** `Rivet nut M6, sealed`. */
const fastenerName = ({ kind, thread, sealed, hex }: Fastener): string =>
  `${kind === 'rivetnut' ? (hex ? 'Hexagonal rivet nut' : 'Rivet nut') : 'Screw with nut'} M${thread}${sealed ? ', sealed' : ''}`;

const fasteners = (stages: Stages): HardwareRow[] => {
  const { tub } = stages;
  const counted = new Map<string, { count: number; where: Set<string> }>();
  const add = (item: string, count: number, where: string): void => {
    const known = counted.get(item) ?? { count: 0, where: new Set<string>() };
    known.count += count;
    known.where.add(where);
    counted.set(item, known);
  };
  for (const { fastener, panel } of tub.openings) {
    if (fastener) add(fastenerName(fastener), 1, tub.panels[panel].name);
  }
  for (const { bolted, bolts, name } of strainerFramesOf(tub, stages.shape())) {
    add(fastenerName(bolted), bolts.length, name);
    if (bolted.kind === 'rivetnut') add(`Screw M${bolted.thread}`, bolts.length, name);
  }
  return [...counted].map(([item, { count, where }]) => ({
    ...NOTHING,
    kind: 'fastener',
    item,
    count,
    where: [...where],
  }));
};

/** Rivets by diameter and grip; screws by thread and length, each with what goes on it. */
const ofSeams = (stages: Stages): HardwareRow[] => {
  const counted = new Map<string, HardwareRow & { count: number; where: string[] }>();
  for (const { fastener, grip, seam } of seamFastenersOf(stages.tub, stages.joints())) {
    for (const [item, count] of itemsOf(fastener, grip)) {
      const key = `${item.item} ${item.grip_mm}`;
      const known = counted.get(key) ?? { ...NOTHING, ...item, count: 0, where: [] };
      known.count += count;
      if (!known.where.includes(seam)) known.where.push(seam);
      counted.set(key, known);
    }
  }
  return [...counted.values()];
};

type Item = Pick<HardwareRow, 'kind' | 'item'> & Partial<HardwareRow>;

const itemsOf = (fastener: FastenerOfRow, grip: number): readonly (readonly [Item, number])[] => {
  if (fastener.kind === 'rivet') return [[rivetItem(fastener.size, grip), 1]];
  const { size, takenBy, hex } = fastener;
  const thread = `M${size.thread}`;
  const length = screwLength(size, grip, takenBy);
  const screw: Item = {
    kind: 'fastener',
    item: length === undefined ? `Hexagon screw ${thread}, longer than 100 mm` : `Hexagon screw ${thread} x ${length}`,
    diameter_mm: size.thread,
    grip_mm: reportLength(grip),
    shank_mm: length ?? null,
  };
  const washer: Item = { kind: 'fastener', item: `Washer ${thread}`, diameter_mm: size.thread };
  const nut: Item = {
    kind: 'fastener',
    item: `${takenBy === 'nut' ? 'Nut' : hex ? 'Hexagonal rivet nut' : 'Rivet nut'} ${thread}`,
    diameter_mm: size.thread,
  };
  return [[screw, 1], [washer, takenBy === 'nut' ? 2 : 1], [nut, 1]]; // prettier-ignore
};

const rivetItem = (size: RivetSize, grip: number): Item => {
  const { diameter } = size;
  const range = gripRange(size, grip);
  const shank = reportLength(solidShank(diameter, grip));
  const blind = range
    ? `blind for grips of ${reportLength(range[0])} to ${reportLength(range[1])} mm`
    : 'no blind one is made';
  return {
    kind: 'rivet',
    item: `Rivet ${diameter} mm, ${blind}, or solid with a shank of ${shank} mm`,
    diameter_mm: diameter,
    grip_mm: reportLength(grip),
    shank_mm: shank,
  };
};

/** What is turned down below an outlet, or stands up around it. */
const lips = (tub: Tub): HardwareRow[] =>
  tub.outlets.flatMap(({ name, diameter, lip, raised }) => {
    const lipOf = (item: string, height: number): HardwareRow[] =>
      height > 0
        ? [
            {
              ...NOTHING,
              kind: 'lip',
              item,
              count: 1,
              width_mm: reportLength(diameter),
              height_mm: reportLength(height),
              where: [name],
            },
          ]
        : [];
    return [...lipOf('Lip turned down below the sheet', lip), ...lipOf('Edge standing up around the outlet', raised)];
  });

/** By joint: the narrowest band that it fills, and the length of all. */
const gaskets = (stages: Stages): HardwareRow[] =>
  (stages.tub.faceJoints ?? []).flatMap(({ name, gasket }, i): HardwareRow[] => {
    const bands = stages.joints().faces.flatMap((contact) => (contact.joint === i ? contact.bands : []));
    if (gasket === 0 || bands.length === 0) return [];
    return [
      {
        ...NOTHING,
        kind: 'gasket',
        item: `Gasket ${reportLength(gasket)} mm thick`,
        width_mm: reportLength(Math.min(...bands.map(({ width }) => width))),
        length_mm: reportLength(bands.reduce((sum, { length }) => sum + length, 0)),
        where: [name],
      },
    ];
  });

const clothItem = ({ plate, bars }: Strainer): string => {
  if (plate) return `Plate with holes of ${plain(plate.hole, 2)} at ${plain(plate.pitch, 2)} mm`;
  return bars ? `Grill of bars ${plain(bars.bar, 2)} wide, ${plain(bars.gap, 2)} mm apart` : 'Wire cloth';
};

const cloths = (tub: Tub): HardwareRow[] =>
  [...tub.outlets, ...tub.openings].flatMap(({ name, strainer }) =>
    strainer
      ? [
          {
            ...NOTHING,
            kind: 'wire cloth',
            item: clothItem(strainer),
            count: 1,
            width_mm: reportLength(strainer.size[0]),
            height_mm: reportLength(strainer.size[1]),
            mesh_per_inch: strainer.meshPerInch ?? null,
            aperture_mm: strainer.aperture === undefined ? null : reportLength(strainer.aperture),
            wire_mm: strainer.wire === undefined ? null : reportLength(strainer.wire),
            where: [name],
          },
        ]
      : [],
  );

const beads = (
  stages: Stages,
  kind: HardwareRow['kind'],
  item: string,
  closings: readonly Closing[],
): HardwareRow[] => {
  const seams = stages.joints().seams.filter(({ method }) => closings.includes(method.closing));
  const all = seams.flatMap(({ runs }) => runs.map(({ bead }) => bead));
  if (all.length === 0) return [];
  return [
    {
      ...NOTHING,
      kind,
      item,
      length_mm: reportLength(all.reduce((sum, { length }) => sum + length, 0)),
      volume_mL: reportMillilitres(all.reduce((sum, { volume }) => sum + volume, 0)),
      where: seams.map(({ name }) => name),
    },
  ];
};

/** Hardware, as every list tells it. */
export const HARDWARE_COLUMNS: readonly Column<HardwareRow>[] = [
  { key: 'item', head: 'Item', value: (row) => row.item },
  { key: 'count', head: 'Count', value: (row) => row.count },
  { key: 'width_mm', head: 'Width', value: (row) => row.width_mm, places: 1, isDetail: true },
  { key: 'height_mm', head: 'Height', value: (row) => row.height_mm, places: 1, isDetail: true },
  { key: 'diameter_mm', head: 'Diameter', value: (row) => row.diameter_mm, places: 1, isDetail: true },
  { key: 'grip_mm', head: 'Grip', value: (row) => row.grip_mm, places: 2, isDetail: true },
  { key: 'shank_mm', head: 'Shank', value: (row) => row.shank_mm, places: 1, isDetail: true },
  { key: 'mesh_per_inch', head: 'Mesh per inch', value: (row) => row.mesh_per_inch, isDetail: true },
  { key: 'aperture_mm', head: 'Aperture', value: (row) => row.aperture_mm, places: 2, isDetail: true },
  { key: 'wire_mm', head: 'Wire', value: (row) => row.wire_mm, places: 2, isDetail: true },
  { key: 'length_mm', head: 'Length', value: (row) => row.length_mm, places: 0 },
  { key: 'volume_mL', head: 'Volume', value: (row) => row.volume_mL, places: 1 },
  { key: 'where', head: 'Where', value: (row) => row.where },
];
