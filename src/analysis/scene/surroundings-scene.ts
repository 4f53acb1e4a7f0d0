/** What is fitted to the tub, how near things come to one another, and how they come out. */
import { addScaled } from '../geometry/vec.js';
import { inMm } from '../model/wording.js';
import { CLEAR_COLUMNS, reportClears } from '../report/clear-distances.js';
import { toFacts } from '../report/table.js';
import { reportWaysOut, WAY_COLUMNS } from '../report/ways-out.js';
import type { Stages } from '../stages/stages.js';
import { drawn3, drawnFrame, drawnLength, drawnRing, drawnRoll } from './drawn.js';
import type { SceneEntry } from './scene-items.js';

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
