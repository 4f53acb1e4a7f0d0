import { largestRadiusFor, type EdgeFit } from '../../join/tabs/edge-fit.js';
import type { PlacedRow } from '../../join/tabs/tab-rows.js';
import type { Tub } from '../../model/tub.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule, RuleFinding } from '../rule.js';

export const edgeInBend: Rule = {
  code: 'join/edge-in-bend',
  severity: 'warning',
  *check({ tub, joints }) {
    for (const { seam, runs } of joints().seams) {
      const cut = runs.flatMap(({ row, run, fits }) =>
        fits.flatMap((fit) => (row && fit.back > LEAST_TOLD ? [{ row, fit, face: run.sides[fit.side].face }] : [])),
      );
      if (cut.length === 0) continue;
      const { row, fit, face } = cut.reduce((most, each) => (each.fit.back > most.fit.back ? each : most));
      yield told(tub, seam, row, fit, tub.panels[face].name);
    }
  },
};

const told = (tub: Tub, seam: number, { tabs: { on, inset } }: PlacedRow, fit: EdgeFit, panel: string): RuleFinding => {
  const { name, at, tabs } = tub.seams[seam];
  const { radius, thickness } = fit.edge;
  const which = `${on === 'loose' ? 'Clips' : 'Tabs'} of seam ${named(name)}`;
  const back = `so that the edge of ${named(panel)} must stand ${inMm(fit.back)} back from the corner`;
  const common = { at: tabs?.at ?? at, about: [name, panel] };
  const radiusAtMost = largestRadiusFor(fit.edge);
  if (radiusAtMost === 0) {
    const insetAtMost = inset - fit.back;
    return {
      ...common,
      message: `${which} are set in by ${inMm(inset, insetAtMost)}, ${back}; they need at most ${inMm(insetAtMost, inset)}`,
      values: { inset_mm: inset, back_mm: fit.back, inset_at_most_mm: insetAtMost },
      measure: { has: inset, needs: insetAtMost, better: 'less' },
    };
  }
  return {
    ...common,
    message: `${which} bend at a radius of ${inMm(radius, radiusAtMost)}, ${back}; up to ${inMm(radiusAtMost, radius)} a bevel is enough`,
    related: [
      { at, message: `${named(panel)} is ${inMm(thickness)} thick; a sheet bent sharper, or less inset, helps` },
    ],
    values: { radius_mm: radius, back_mm: fit.back, radius_at_most_mm: radiusAtMost },
    measure: { has: radius, needs: radiusAtMost, better: 'less' },
  };
};

/** mm. A wet edge that far from the corner is what deburring takes. Common practice, no source. */
const LEAST_TOLD = 0.05;
