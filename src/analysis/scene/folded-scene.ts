import type { FlatPattern, FoldedPart, Plate, Roll } from '../fold/flat-pattern.js';
import { SAME_HEADING } from '../geometry/tolerance.js';
import type { Vec3 } from '../geometry/vec.js';
import { inDeg, inMm } from '../model/wording.js';
import { FLAT_BEND_COLUMNS, flatBendRow } from '../report/making/bends.js';
import { toFacts } from '../report/table.js';
import type { Stages } from '../stages/stages.js';
import { drawn3, drawnFrame, drawnLength, drawnRing, drawnRoll, note } from './drawn.js';
import { partAt, partKey } from './flat-scene.js';
import { roleOf } from '../model/around/roles.js';
import type { Tub } from '../model/tub.js';
import { seamFastenersOf, type SeamFastener } from '../join/seam-fasteners.js';
import { creasesOf } from '../solid/bodies/thing-bodies.js';
import { fastenerBodies } from '../solid/bodies/fastener-bodies.js';
import { openingEntries, seamEntries } from './joined-scene.js';
import { boxEntries, fittedEntries, spanEntries, wayEntries } from './surroundings-scene.js';
import type { Purpose, SceneEntry } from './scene-items.js';
import type { Told } from './items/told-item.js';

/** Every folded part with true radii and thickness, what joins the parts, and what stands around them. */
export const foldedScene = (stages: Stages): SceneEntry[] => {
  const parts = stages.parts();
  if (parts.length === 0)
    return [note('no-parts', 'Nothing to fold yet: the text has no panel that can be used', stages.tub.at)];
  const flats = stages.flats();
  const parted = stages.folded().flatMap((folded, i): SceneEntry[] => {
    const flat = flats[i];
    if (folded && flat) return foldedEntries(stages, flat, folded);
    const { name } = parts[i];
    return [
      note(
        `no-fold:${name}`,
        `Part \`${name}\` is not shown: without a flat pattern there is nothing to fold`,
        partAt(stages.tub, parts[i]),
      ),
    ];
  });
  return [
    ...parted,
    ...fastenerEntries(stages),
    ...stages.existing().flatMap((slab) => existingEntries(stages, slab)),
    ...thingEntries(stages),
    ...fittedEntries(stages),
    ...seamEntries(stages),
    ...openingEntries(stages),
    ...boxEntries(stages),
    ...spanEntries(stages),
    ...wayEntries(stages),
  ];
};

/** Piece by piece. */
const fastenerEntries = (stages: Stages): SceneEntry[] => {
  const counts = new Map<string, number>();
  return seamFastenersOf(stages.tub, stages.joints()).flatMap((each) => {
    const count = (counts.get(each.seam) ?? 0) + 1;
    counts.set(each.seam, count);
    return fastenerBodies(each).map(({ name, thickness, plates: [plate] }, i): SceneEntry => ({
      key: `fastener:${each.seam}:${count}:${i}`,
      at: each.at,
      item: {
        kind: 'plate',
        part: `fasteners:${each.seam}`,
        name,
        thickness: drawnLength(thickness),
        frame: drawnFrame(plate.frame),
        rings: [plate.contour, ...plate.holes].map((contour) => drawnRing(contour)),
        told: toldFastener(each, name),
      },
    }));
  });
};

const toldFastener = ({ grip, seam }: SeamFastener, name: string): Told => ({
  what: `${name} of seam ${seam}`,
  facts: [`holds ${inMm(grip)} of sheet`],
});

/** Most triangles that are drawn of one thing: more are no picture of it, and slow to turn. */
const MOST_DRAWN = 20_000;

const thingEntries = ({ tub }: Stages): SceneEntry[] =>
  (tub.things ?? []).map(({ name, at, mesh }): SceneEntry => {
    const { positions, triangles, isClosed } = mesh;
    const what = `Existing thing ${name}`;
    if (triangles.length > MOST_DRAWN)
      return note(`thing:${name}`, `${what} is not drawn: its ${triangles.length} triangles are too many to turn`, at);
    return {
      key: `thing:${name}`,
      at,
      item: {
        kind: 'thing',
        part: `existing:${name}`,
        name,
        purpose: { role: 'existing', group: name },
        positions: positions.map(drawn3),
        triangles,
        creases: creasesOf(mesh).map(([from, to]) => [drawn3(from), drawn3(to)]),
        told: {
          what,
          facts: [
            'stands there already, not made',
            `${triangles.length} triangles`,
            ...(isClosed ? [] : ['its surface is open, so that only distances to it are known']),
          ],
        },
      },
    };
  });

/** Each in its group's body, so that it stays in one piece when the tub is taken apart. */
const existingEntries = (stages: Stages, slab: FoldedPart): SceneEntry[] =>
  slab.plates.map((plate) => {
    const purpose = purposeOf(stages.tub, plate.face);
    return plateEntry(stages, `existing:${purpose?.group ?? plate.name}`, slab, plate);
  });

const purposeOf = (tub: Tub, face: number | undefined): Purpose | undefined => {
  const role = face === undefined ? 'tub' : roleOf(tub, face);
  if (face === undefined || role === 'tub') return undefined;
  return { role, group: tub.groups![tub.panels[face].group!].name };
};

const foldedEntries = (stages: Stages, flat: FlatPattern, folded: FoldedPart): SceneEntry[] => [
  ...folded.plates.map((plate) => plateEntry(stages, partKey(flat), folded, plate)),
  ...folded.rolls.map((roll) => rollEntry(stages, flat, roll)),
];

const plateEntry = (stages: Stages, part: string, folded: FoldedPart, plate: Plate): SceneEntry => ({
  key: `panel:${plate.name}`,
  at: plate.face === undefined ? undefined : stages.tub.panels[plate.face].at,
  item: {
    kind: 'plate',
    part,
    name: plate.name,
    ...withPurpose(purposeOf(stages.tub, plate.face)),
    thickness: drawnLength(folded.thickness),
    frame: drawnFrame(plate.frame),
    rings: [plate.contour, ...plate.holes].map((contour) => drawnRing(contour)),
    told: {
      what: `Panel ${plate.name}`,
      facts: [
        tiltWords(plate.frame.normal),
        `${inMm(folded.thickness)} thick`,
        ...purposeWords(purposeOf(stages.tub, plate.face)),
      ],
    },
  },
});

const rollEntry = (stages: Stages, flat: FlatPattern, roll: Roll): SceneEntry => {
  const bend = flat.bends[roll.bend];
  return {
    key: `bend:${bend.name}`,
    at: bend.bend === undefined ? undefined : stages.shape().bends[bend.bend].at,
    item: {
      kind: 'roll',
      part: partKey(flat),
      name: bend.name,
      ...withPurpose(purposeOf(stages.tub, flat.panels[0].face)),
      ...drawnRoll(roll),
      told: {
        what: `Bend ${bend.name}`,
        facts: [...toFacts(FLAT_BEND_COLUMNS, flatBendRow(bend)), `the wet side is ${roll.wet} the bend`],
      },
    },
  };
};

const purposeWords = (purpose: Purpose | undefined): readonly string[] => {
  switch (purpose?.role) {
    case 'existing':
      return ['stands there already, not made'];
    case 'support':
      return ['a support, stays dry'];
    case 'removable':
      return ['comes out again'];
    default:
      return [];
  }
};

/** How a panel lies. */
const tiltWords = (normal: Vec3): string => {
  const tilt = Math.atan2(Math.hypot(normal[0], normal[1]), Math.abs(normal[2]));
  if (tilt < SAME_HEADING) return 'level';
  return Math.PI / 2 - tilt < SAME_HEADING ? 'upright' : `inclined ${inDeg(tilt)}`;
};

const withPurpose = (purpose: Purpose | undefined): { readonly purpose?: Purpose } => (purpose ? { purpose } : {});
