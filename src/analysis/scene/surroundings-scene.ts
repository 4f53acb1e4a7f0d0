/** What is fitted to the tub, what takes room around it, how near things come to one another, and how they come out. */
import { addScaled } from '../geometry/vec.js';
import type { Zone } from '../model/tub.js';
import { inMm, plain } from '../model/wording.js';
import { CLEAR_COLUMNS, reportClears } from '../report/clear-distances.js';
import { toFacts } from '../report/table.js';
import { reportWaysOut, WAY_COLUMNS } from '../report/ways-out.js';
import type { Stages } from '../stages/stages.js';
import { drawn3, drawnFrame, drawnLength, drawnRing, drawnRoll } from './drawn.js';
import type { BoxItem, SceneEntry } from './scene-items.js';

/** Clips, frames and lips, piece by piece. */
export const fittedEntries = (stages: Stages): SceneEntry[] => {
  const counts = new Map<string, number>();
  return stages.fitted().flatMap(({ at, body }): SceneEntry[] => {
    const { name, thickness, plates, rolls } = body;
    const count = (counts.get(name) ?? 0) + 1;
    counts.set(name, count);
    const key = `fitted:${name}:${count}`;
    const told = { what: name, facts: [`${inMm(thickness)} ${plates.length > 1 ? 'thick' : 'high'}`] };
    return [
      ...plates.map((plate, i): SceneEntry => ({
        key: `${key}:${i}`,
        at,
        item: {
          kind: 'plate',
          part: key,
          name,
          thickness: drawnLength(thickness),
          frame: drawnFrame(plate.frame),
          rings: [plate.contour, ...plate.holes].map((contour) => drawnRing(contour)),
          told,
        },
      })),
      ...rolls.map((roll, i): SceneEntry => ({
        key: `${key}:bend ${i}`,
        at,
        item: {
          kind: 'roll',
          part: key,
          name,
          ...drawnRoll(roll),
          told,
        },
      })),
    ];
  });
};

/** Tanks whose place is stated, and zones. */
export const boxEntries = ({ tub }: Stages): SceneEntry[] => [
  ...tub.tanks.flatMap(({ name, at, box, capacityMm3 }) =>
    box ? [boxEntry({ name, at, box }, 'tank', `Tank ${name}`, [`holds ${plain(capacityMm3 / 1e6, 2)} L`])] : [],
  ),
  ...tub.dryZones.map((zone) => boxEntry(zone, 'dry', `Zone ${zone.name}`, ['stays dry'])),
  ...tub.keepouts.map((zone) => boxEntry(zone, 'clear', `Zone ${zone.name}`, ['kept clear'])),
];

const boxEntry = (
  { name, at, box: { min, max } }: Zone,
  room: BoxItem['room'],
  what: string,
  facts: readonly string[],
): SceneEntry => {
  const sides = [0, 1, 2].map((axis) => inMm(max[axis] - min[axis]));
  return {
    key: `${room === 'tank' ? 'tank' : 'zone'}:${name}`,
    at,
    item: {
      kind: 'box',
      name,
      room,
      min: drawn3(min),
      max: drawn3(max),
      told: { what, facts: [...facts, `${sides.join(' by ')} high`] },
    },
  };
};

/** Where things that are kept clear of one another come nearest. */
export const spanEntries = (stages: Stages): SceneEntry[] => {
  const outcomes = stages.clears();
  return reportClears(stages).map((row, i): SceneEntry => {
    const { clear, nearest } = outcomes[i];
    const name = row.between.join(' to ');
    return {
      key: `clear:${row.between.join(':')}:${i}`,
      at: clear.at,
      item: {
        kind: 'span',
        name,
        from: drawn3(nearest.points[0]),
        to: drawn3(nearest.points[1]),
        text: inMm(nearest.gap),
        told: { what: `Room, ${name}`, facts: toFacts(CLEAR_COLUMNS, row) },
      },
    };
  });
};

/** A last move is drawn as long as this share of the thing. */
const DRAWN_SHARE = 0.75;

/** How things come out of their places. */
export const wayEntries = (stages: Stages): SceneEntry[] => {
  const ways = stages.waysOut();
  return reportWaysOut(stages).flatMap((row, i): SceneEntry[] => {
    const { mover, moves, middle, size } = ways[i];
    if (moves.length === 0) return [];
    const points = [middle];
    for (const { way, by } of moves) points.push(addScaled(points[points.length - 1], way, by ?? size * DRAWN_SHARE));
    return [
      {
        key: `way:${row.name}`,
        at: mover.at,
        item: {
          kind: 'way',
          name: row.name,
          points: points.map(drawn3),
          text: row.way,
          told: { what: `Way out of ${row.name}`, facts: toFacts(WAY_COLUMNS, row) },
        },
      },
    ];
  });
};
