import { madePoints, type MadeStrip } from '../built/as-made.js';
import { readingOfBend } from '../built/learned.js';
import { meetingsOf } from '../built/next.js';
import type { BendReading, Tub } from '../model/tub.js';
import { NOISE } from '../geometry/tolerance.js';
import { inDeg, inMm } from '../model/wording.js';
import type { Stages } from '../stages/stages.js';
import { drawn2, drawnDegrees, drawnLength, drawnNumber, note } from './drawn.js';
import type { SceneEntry } from './scene-items.js';

/** Every strip of which something is read, from the side: as planned, as made, and where what is cut stands off. */
export const madeScene = (stages: Stages): SceneEntry[] => {
  const { tub, built } = stages;
  if (!tub.made) return [note('not-made', NOT_MADE, tub.at)];
  const others = built.turned.length;
  return [
    ...built.strips.flatMap((strip, order) => stripEntries(stages, strip, order)),
    ...(built.strips.length === 0 ? [note('no-strip', 'No strip is made: only strips are drawn here', tub.at)] : []),
    ...(others > 0
      ? [note('turned', `${others} more bends are read that are of no strip; Folded shows them as made`, tub.at)]
      : []),
  ];
};

const NOT_MADE = 'Nothing is made yet: *Enter Readings* asks for what the gauge reads at each bend';

const stripEntries = (stages: Stages, strip: MadeStrip, order: number): SceneEntry[] => {
  const { tub } = stages;
  const { profile, read, made } = strip;
  const { name } = tub.strips[strip.strip];
  const key = `made:${name}`;
  return [
    {
      key,
      at: made.at,
      item: {
        kind: 'made-profile',
        order,
        name,
        planned: profile.points.map(drawn2),
        made: madePoints(strip).map(drawn2),
        told: { what: `Strip ${name}`, facts: [`${read.length} of ${profile.bends.length} bends read`] },
      },
    },
    ...profile.bends.map((_, i) => bendEntry(tub, strip, key, i)),
    ...seamEntries(tub, strip, key),
  ];
};

const bendEntry = (tub: Tub, strip: MadeStrip, profile: string, i: number): SceneEntry => {
  const { bend, turn } = strip.profile.bends[i];
  const [planned, made] = [Math.abs(turn), Math.abs(strip.folding.turns[i])];
  const state = strip.read.includes(i) ? 'read' : 'open';
  const bentTo = readingOfBend(tub, strip, bend)?.bentTo;
  return {
    key: `made-bend:${tub.bends[bend].name}`,
    at: strip.made.at,
    item: {
      kind: 'made-bend',
      profile,
      corner: i + 1,
      state,
      off_deg: drawnDegrees(made - planned),
      told: {
        what: `Bend ${tub.bends[bend].name}`,
        facts: [
          `planned ${inDeg(planned)}`,
          ...isFacts(readingOfBend(tub, strip, bend), made),
          `off by ${inDeg(made - planned)}`,
          ...(bentTo === undefined ? [] : [`bent to ${inDeg(bentTo)}`]),
        ],
      },
    },
  };
};

/** As the gauge has it and, where the slopes beside it say otherwise, by these. */
const isFacts = (reading: BendReading | undefined, made: number): readonly string[] => {
  if (!reading) return [`open, closes best at ${inDeg(made)}`];
  const read = `read ${inDeg(reading.turn)}`;
  const bySlopes = `by the slopes beside it ${inDeg(made)}`;
  if (reading.isBySlopes) return [bySlopes];
  return Math.abs(reading.turn - made) <= NOISE ? [read] : [read, bySlopes];
};

const seamEntries = (tub: Tub, strip: MadeStrip, profile: string): SceneEntry[] => {
  const { panels } = tub.strips[strip.strip];
  return meetingsOf(strip).flatMap(({ panel, gaps }) =>
    gaps.map(({ leg, from, to, start, end }): SceneEntry => {
      const [part, along] = [tub.panels[panel].name, tub.panels[panels[leg]].name];
      return {
        key: `made-seam:${part} ${along} ${drawnNumber(from)}`,
        at: tub.panels[panel].at,
        item: {
          kind: 'made-seam',
          profile,
          leg,
          from: drawnNumber(from),
          to: drawnNumber(to),
          start_mm: drawnLength(start),
          end_mm: drawnLength(end),
          told: {
            what: `${part} along ${along}`,
            facts: [`${gapWords(start)} at its start`, `${gapWords(end)} at its end`],
          },
        },
      };
    }),
  );
};

const gapWords = (gap: number): string => (gap < 0 ? `${inMm(-gap)} too much metal` : `${inMm(gap)} open`);
