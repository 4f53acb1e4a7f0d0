import { inMm, named } from '../../model/wording.js';
import type { NotchFault } from '../../shape/shape.js';
import { faultsOfKind } from '../../shape/faults-of-kind.js';
import type { Stages } from '../../stages/stages.js';
import type { Rule, RuleFinding } from '../rule.js';

export const notchOffEdge: Rule = {
  code: 'shape/notch-off-edge',
  severity: 'warning',
  worst: 'error',
  *check(stages) {
    const { tub, shape } = stages;
    const wrong = new Set<number>();
    for (const { opening, fault } of faultsOfKind(shape(), 'notch-off-edge')) {
      wrong.add(opening);
      const { name, at, panel } = tub.openings[opening];
      const { name: panelName, at: panelAt } = tub.panels[panel];
      yield {
        ...textOf(fault, named(name), named(panelName)),
        ...(fault.why === 'off-edge' ? {} : { severity: 'error' }),
        at,
        about: [name, panelName],
        related: [{ at: panelAt, message: 'The panel it is cut into' }],
      };
    }
    yield* joinedEdges(stages, wrong);
  },
};

const textOf = (
  fault: NotchFault,
  notch: string,
  panel: string,
): Pick<RuleFinding, 'message' | 'values' | 'measure'> => {
  if (fault.why === 'no-wall')
    return { message: `${notch} is cut into ${panel}, which lies flatter than 45 deg; it needs a wall`, values: {} };
  if (fault.why === 'no-edge')
    return {
      message: `The sides of ${notch} do not come up at one straight edge of ${panel}; they need to, between two of its corners`,
      values: {},
    };
  return {
    message: `The edge of ${panel} lies ${inMm(Math.abs(fault.off), 0)} ${fault.off > 0 ? 'above' : 'below'} where ${notch} says; it needs to end there, and is taken to`,
    values: { off_mm: fault.off },
    measure: { has: Math.abs(fault.off), needs: 0, better: 'less' },
  };
};

/** A notch in an edge that goes on in another panel, or is hemmed, would have to be cut into that as well. */
function* joinedEdges({ tub, shape }: Stages, told: ReadonlySet<number>): Iterable<RuleFinding> {
  for (const face of shape().faces) {
    for (const { opening, edge } of face.openings) {
      if (edge === undefined || told.has(opening)) continue;
      const stretches = face.stretches[edge] ?? [];
      const isHemmed = stretches.some(({ rim }) => rim !== undefined && tub.rims[rim].hem !== undefined);
      if (!isHemmed && stretches.every(({ mates }) => mates.length === 0)) continue;
      const { name, at } = tub.openings[opening];
      yield {
        severity: 'error',
        message: `${named(name)} comes up at an edge of ${named(face.name)} that ${isHemmed ? 'has a hem' : 'another panel goes on from'}; it needs a free edge`,
        at,
        about: [name, face.name],
        related: [{ at: tub.panels[face.panel].at, message: 'The panel it is cut into' }],
        values: {},
      };
    }
  }
}
