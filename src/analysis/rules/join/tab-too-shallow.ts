import { setbackOf } from '../../material/bend-allowance.js';
import { isSetDown, needsClipBend, tabBendOf } from '../../join/tabs/tab-rows.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const tabTooShallow: Rule = {
  code: 'join/tab-too-shallow',
  severity: 'error',
  *check({ tub, joints }) {
    for (const { seam, runs } of joints().seams) {
      const worst = runs.flatMap(({ row, run }) => {
        if (!row || row.centres.length === 0 || isSetDown(row)) return [];
        if (run.footing === undefined && !needsClipBend(run)) return [];
        const sheet = tub.sheets[tub.panels[run.sides[row.carrier].face].sheet];
        const setback = setbackOf({ ...tabBendOf(row), radius: sheet.radius, thickness: sheet.thickness });
        const needs = setback + LEAST_FLAT * sheet.thickness;
        return row.tabs.deep < needs ? [{ row, needs, setback }] : [];
      });
      if (worst.length === 0) continue;
      const { row, needs, setback } = worst.reduce((most, each) => (each.needs > most.needs ? each : most));
      const { name, at, tabs } = tub.seams[seam];
      yield {
        message: `${row.tabs.on === 'loose' ? 'Clips' : row.tabs.isLap ? 'Laps' : 'Tabs'} of seam ${named(name)} are ${inMm(row.tabs.deep, needs)} deep; their bend needs at least ${inMm(needs, row.tabs.deep)}`,
        at: tabs?.at ?? at,
        about: [name],
        related: [
          { at, message: `The bend takes ${inMm(setback)}; at least two thicknesses must stay flat behind it` },
        ],
        values: { deep_mm: row.tabs.deep, needed_mm: needs, setback_mm: setback },
        measure: { has: row.tabs.deep, needs, better: 'more' },
      };
    }
  },
};

/** Flat metal behind the bend, in thicknesses, that can still be gripped. Common practice, no source. */
const LEAST_FLAT = 2;
