import { flatFaultsOfKind } from '../../fold/flat-faults-of-kind.js';
import { atPoint, inDeg, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const legTooShort: Rule = {
  code: 'bend/leg-too-short',
  severity: 'error',
  *check({ tub, shape, unfolded }) {
    for (const { face, edge, has, needs, bends } of flatFaultsOfKind(unfolded(), 'leg-too-short')) {
      const { name, at, kind, edgeNames } = tub.panels[face];
      const { corners, panelEdge } = shape().faces[face];
      const isLength = kind.kind === 'leg' && [edgeNames.left, edgeNames.right].includes(panelEdge[edge]);
      const what = isLength
        ? `${named(name)} is ${inMm(has, needs)}`
        : `An edge of ${named(name)} is ${inMm(has, needs)}`;
      const [from, to] = [corners[edge], corners[(edge + 1) % corners.length]];
      const names = bends.map((bend) => shape().bends[bend].name);
      yield {
        message: `${what} to the sharp corners; the bends beside it take ${inMm(needs, has)} before any flat metal is left`,
        at,
        about: [name, ...names],
        related: [
          ...(isLength ? [] : [{ at, message: `The edge runs from ${atPoint(from)} to ${atPoint(to)} mm` }]),
          ...bends.map((bend) => ({
            at: shape().bends[bend].at,
            message: `Bend ${named(shape().bends[bend].name)} takes ${inMm(shape().bends[bend].setback)} of each side (radius ${inMm(shape().bends[bend].radius)}, ${inDeg(shape().bends[bend].angle)})`,
          })),
        ],
        values: { length_mm: has, needed_mm: needs },
        measure: { has, needs, better: 'more' },
      };
    }
  },
};
