import { SAME_DIRECTION } from '../../geometry/tolerance.js';
import type { FaceIndex } from '../../shape/shape.js';
import { inDeg, named, plain, toDeg } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** Sine of the inclination from which a last panel counts as turned down: 60 deg; common practice, no source. */
const TURNED_DOWN = Math.sin(Math.PI / 3);

export const edgeWithoutDrip: Rule = {
  code: 'drain/edge-without-drip',
  severity: 'warning',
  *check({ tub, shape, water }) {
    const rates = new Map<FaceIndex, number>();
    for (const end of water()
      .flows()
      .flatMap(({ ends }) => ends)) {
      if (end.kind === 'rim') rates.set(end.stretch.face, (rates.get(end.stretch.face) ?? 0) + end.rateMm3S);
    }
    for (const { outlet, rateMm3S } of water().outlets()) {
      const { spout, panel } = tub.outlets[outlet];
      if (spout && rateMm3S > 0) rates.set(panel, (rates.get(panel) ?? 0) + rateMm3S);
    }
    for (const [face, rate] of [...rates].sort(([p], [q]) => p - q)) {
      const { normal } = shape().faces[face].frame;
      if (Math.hypot(normal[0], normal[1]) >= TURNED_DOWN - SAME_DIRECTION) continue;
      const { name, at } = tub.panels[face];
      const inclination = Math.atan2(Math.hypot(normal[0], normal[1]), normal[2]);
      yield {
        message: `${plain((rate * 60) / 1e6, 2)} L/min leaves over the edge of ${named(name)}, which falls ${inDeg(inclination)}; the edge needs a flange turned down at least 60 deg`,
        at,
        about: [name],
        related: [
          {
            at,
            message: 'Water that leaves a flat edge clings to the underside and wanders; common practice, no source',
          },
        ],
        values: { rate_L_min: (rate * 60) / 1e6, inclination_deg: toDeg(inclination) },
        measure: { has: toDeg(inclination), needs: 60, better: 'more' },
      };
    }
  },
};
