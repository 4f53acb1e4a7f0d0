import type { FaceIndex } from '../../shape/shape.js';
import type { CreaseSlope } from '../../water/standing/slopes.js';
import { leastCreaseFall } from '../../water/standing/thresholds.js';
import { POOL_DEPTH, type Water } from '../../water/water.js';
import { SAME_DIRECTION } from '../../geometry/tolerance.js';
import { inDeg, inMm, named, toDeg } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const creaseTooFlat: Rule = {
  code: 'drain/crease-too-flat',
  severity: 'warning',
  *check({ tub, shape, water, planned }) {
    const { creases, within } = water();
    const pooled = poolLevels(water());
    for (const crease of creases()) {
      const { angle, source } = leastCreaseFall(tub, crease.faces);
      if (crease.worst >= angle - SAME_DIRECTION || isDry(water(), crease) || isUnderPool(pooled, crease)) continue;
      const [first, second] = crease.faces.map((face) => tub.panels[face]);
      const bend = crease.bend === undefined ? undefined : shape().bends[crease.bend];
      const isLevel = crease.inclination < SAME_DIRECTION;
      const falls = isLevel
        ? 'is level and stays wet'
        : `falls ${inDeg(crease.worst, angle)}${within > 0 ? ' at worst' : ''}`;
      yield {
        message: `Crease between ${named(first.name)} and ${named(second.name)} ${falls}; it needs at least ${inDeg(angle, crease.worst)}`,
        at: bend?.at ?? first.at,
        about: [first.name, second.name, ...(bend ? [bend.name] : [])],
        related: [
          {
            at: first.at,
            message: `Water runs along it for ${inMm(crease.length)}; a crease is flatter than the panels that make it`,
          },
          {
            at: second.at,
            message: `Least fall: ${source}; as ${planned() ? 'made' : 'drawn'} it must fall ${inDeg(angle + within)}`,
          },
        ],
        values: {
          inclination_deg: toDeg(crease.inclination),
          worst_deg: toDeg(crease.worst),
          needed_deg: toDeg(angle),
          length_mm: crease.length,
          source,
        },
        measure: { has: toDeg(crease.worst), needs: toDeg(angle), better: 'more' },
      };
    }
  },
};

const isDry = ({ wetted }: Water, { faces }: CreaseSlope): boolean => !faces.some((face) => wetted().has(face));

/** Highest level of standing water on each face. */
const poolLevels = ({ pools }: Water): ReadonlyMap<FaceIndex, number> => {
  const levels = new Map<FaceIndex, number>();
  for (const { faces, level } of pools())
    for (const face of faces) levels.set(face, Math.max(level, levels.get(face) ?? -Infinity));
  return levels;
};

/** A crease under standing water is told as a pool. */
const isUnderPool = (levels: ReadonlyMap<FaceIndex, number>, { faces, high }: CreaseSlope): boolean =>
  faces.every((face) => (levels.get(face) ?? -Infinity) >= high[2] + POOL_DEPTH);
