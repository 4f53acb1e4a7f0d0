import { canTurnTabs } from '../../join/tabs/tab-pieces.js';
import { mayCarry } from '../../join/tabs/tab-rows.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule, RuleFinding } from '../rule.js';

export const noRoomForTab: Rule = {
  code: 'join/no-room-for-tab',
  severity: 'warning',
  *check({ tub, joints }) {
    for (const { seam, runs } of joints().seams) {
      for (const { row, run } of runs) {
        if (!row) continue;
        const { name, at, tabs } = tub.seams[seam];
        const [a, b] = run.sides.map((side) => tub.panels[side.face].name);
        const common = { at: tabs?.at ?? at, about: [name, a, b] };
        const what = row.tabs.on === 'loose' ? 'clip' : row.tabs.isLap ? 'lap' : 'tab';
        if (!mayCarry(run, row.tabs)) {
          const standing = run.footing === 0 ? b : a;
          const finding: RuleFinding = {
            ...common,
            message: `${named(standing)} stands on the face of ${named(standing === a ? b : a)} along seam ${named(name)}, where loose clips and tabs of that have no edge; it needs \`tabs on ${standing}\``,
            values: {},
          };
          yield finding;
        } else if (row.centres.length === 0 && !row.stated) {
          const finding: RuleFinding = {
            ...common,
            message: `Seam ${named(name)} has ${inMm(Math.max(0, row.usable), row.tabs.wide)} between the margins along ${named(a)} and ${named(b)}; a ${what} is ${inMm(row.tabs.wide, row.usable)} wide`,
            related: [
              {
                at: tub.panels[run.sides[1].face].at,
                message: `${inMm(run.length)} long, less ${inMm(row.margins[0])} and ${inMm(row.margins[1])} at its ends`,
              },
            ],
            values: {
              usable_mm: row.usable,
              wide_mm: row.tabs.wide,
              length_mm: run.length,
              margin_start_mm: row.margins[0],
              margin_end_mm: row.margins[1],
            },
            measure: { has: row.usable, needs: row.tabs.wide, better: 'more' },
          };
          yield finding;
        } else if (row.stated?.takenBy !== undefined) {
          const other = tub.seams[row.stated.takenBy];
          const finding: RuleFinding = {
            ...common,
            message: `Tabs of seam ${named(name)} would stand on the edge of ${named(row.carrier === 0 ? a : b)} that carries those of seam ${named(other.name)}; one of the two needs loose clips or tabs on its other panel`,
            related: [{ at: other.tabs?.at ?? other.at, message: 'The tabs that stand there' }],
            values: {},
          };
          yield finding;
        } else if (row.tabs.on !== 'loose' && !canTurnTabs(row)) {
          const finding: RuleFinding = {
            ...common,
            message: `Tabs of seam ${named(name)} cannot turn onto ${named(row.carrier === 0 ? b : a)}: the panels do not rise from each other there; loose clips can`,
            values: { corner_deg: (run.corner * 180) / Math.PI },
          };
          yield finding;
        }
      }
    }
  },
};
