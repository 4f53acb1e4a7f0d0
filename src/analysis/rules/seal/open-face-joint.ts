import { leakFinding, severityOf, waterOver } from '../tell-leak.js';
import { atPoint, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const openFaceJoint: Rule = {
  code: 'seal/open-face-joint',
  severity: 'error',
  *check({ tub, watertight }) {
    for (const leak of watertight().leaks) {
      if (leak.faceJoint === undefined) continue;
      const { name, gasket } = tub.faceJoints![leak.faceJoint];
      const finding = { ...leakFinding(tub, leak), severity: severityOf(leak) };
      if (leak.kind === 'faces' && gasket === 0) {
        yield {
          ...finding,
          message: `Faces of ${named(name)} lie on one another over ${inMm(leak.length)} of the liquid with nothing between them, ${waterOver(leak)}; the joint needs a \`gasket\` to be tight`,
        };
      } else if (leak.kind === 'faces-end' && leak.isUnderWater) {
        yield {
          ...finding,
          message: `Gasket of ${named(name)} ends at ${atPoint(leak.point)} with ${inMm(leak.gap)} open between the faces, ${waterOver(leak)}; it needs to run on to above the liquid, or to where another goes on`,
          measure: { has: leak.flood - leak.height, needs: 0, better: 'less' },
        };
      } else if (leak.kind === 'faces-corner') {
        yield {
          ...finding,
          message: `Gasket of ${named(name)} is ${inMm(gasket, leak.gap)} thick and lies in ${inMm(leak.gap, gasket)} between the rounds of the corner at ${atPoint(leak.point)}, ${waterOver(leak)}; it needs to fill them: a thicker one, or a larger radius of the outer sheet`,
          measure: { has: leak.gap, needs: gasket, better: 'less' },
        };
      }
    }
  },
};
