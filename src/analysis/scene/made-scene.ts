import { madePoints, type MadeStrip } from '../built/as-made.js';
import { meetingsOf } from '../built/next.js';
import { inDeg, inMm } from '../model/wording.js';
import { reportMade } from '../report/made.js';
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
  const { profile, folding, read, made } = strip;
  const { name, panels } = tub.strips[strip.strip];
  const key = `made:${name}`;
  const rows = reportMade(stages)?.bends ?? [];
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
    ...profile.bends.map(({ bend, turn }, i): SceneEntry => {
      const off = Math.abs(folding.turns[i]) - Math.abs(turn);
      const state = read.includes(i) ? 'read' : 'open';
      const row = rows.find((each) => each.name === tub.bends[bend].name);
      const has = inDeg(Math.abs(folding.turns[i]));
      return {
        key: `made-bend:${tub.bends[bend].name}`,
        at: made.at,
        item: {
          kind: 'made-bend',
          profile: key,
          corner: i + 1,
          state,
          off_deg: drawnDegrees(off),
          told: {
            what: `Bend ${tub.bends[bend].name}`,
            facts: [
              `planned ${inDeg(Math.abs(turn))}`,
              state === 'read' ? `read ${has}` : `open, closes best at ${has}`,
              `off by ${inDeg(off)}`,
              ...(row?.bent_to_deg == null ? [] : [`bent to ${row.bent_to_deg} deg`]),
            ],
          },
        },
      };
    }),
    ...meetingsOf(strip).flatMap(({ panel, gaps }) =>
      gaps.map(({ leg, from, to, start, end }): SceneEntry => ({
        key: `made-seam:${tub.panels[panel].name} ${tub.panels[panels[leg]].name} ${drawnNumber(from)}`,
        at: tub.panels[panel].at,
        item: {
          kind: 'made-seam',
          profile: key,
          leg,
          from: drawnNumber(from),
          to: drawnNumber(to),
          start_mm: drawnLength(start),
          end_mm: drawnLength(end),
          told: {
            what: `${tub.panels[panel].name} along ${tub.panels[panels[leg]].name}`,
            facts: [`${gapWords(start)} at its start`, `${gapWords(end)} at its end`],
          },
        },
      })),
    ),
  ];
};

const gapWords = (gap: number): string => (gap < 0 ? `${inMm(-gap)} too much metal` : `${inMm(gap)} open`);
