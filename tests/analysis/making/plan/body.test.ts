import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldFlat } from '../../../../src/analysis/fold/fold.js';
import type { FlatPattern } from '../../../../src/analysis/fold/flat-pattern.js';
import { toSpace } from '../../../../src/analysis/geometry/frame.js';
import { addScaled, distance, type Vec3 } from '../../../../src/analysis/geometry/vec.js';
import { bodyOf } from '../../../../src/analysis/making/plan/metal/body.js';
import { apply } from '../../../../src/analysis/making/plan/metal/rigid.js';
import { arbitraryBox } from '../../../support/random/arbitrary-bendable.js';
import { analyseText } from '../../../support/analyse-text.js';

/** For each bend: points of the child, sent to the parent's coordinates by the planner, lie where the folded part has them. */
const worstDisagreement = (flat: FlatPattern): number => {
  const body = bodyOf(flat);
  const plates = foldFlat(flat).plates;
  let worst = 0;
  flat.bends.forEach((bend, i) => {
    const frameOf = (panel: number): (typeof plates)[number]['frame'] =>
      plates.find((plate) => plate.panel === panel)!.frame;
    const place = (panel: number, [x, y, z]: Vec3): Vec3 => {
      const frame = frameOf(panel);
      return addScaled(toSpace(frame, [x, y]), frame.normal, z);
    };
    for (const { x, y } of flat.panels[bend.child].region) {
      for (const z of [0, -flat.thickness]) {
        const inParent = apply(body.bends[i].hinge, [x, y, z]);
        worst = Math.max(worst, distance(place(bend.parent, inParent), place(bend.child, [x, y, z])));
        worst = Math.max(worst, distance(apply(body.bends[i].back, inParent), [x, y, z]));
      }
    }
  });
  return worst;
};

describe('sheet of the planner', () => {
  it('folds as the part itself does: strip, tabs, flange and hem', () => {
    const { stages } = analyseText(`units mm
sheet skin = stainless thickness 1.2 radius 1.2
strip floor of skin from (0, 300, 120) heading front across right 260 {
    panel back 60 falling 90 deg
    panel shelf 120 falling 3 deg
    panel chute 60 falling 40 deg
    panel sump 90 falling 3 deg
    panel front to z 120 rising 80 deg
}
side left of skin closes floor.left up to 120
side right of skin closes floor.right up to 120
flange drip on floor.front.end turned out 100 deg by 20 trim 2 2
rim drip.end hem closed 8
seam left floor { tabs on floor 18 wide 14 deep every 60 inset 0.5 spots 1 sealant 3 }
seam right floor { weld tig }
`);
    const flats = stages.flats().filter((flat) => flat !== undefined);
    expect(flats.flatMap(({ bends }) => bends).length).toBeGreaterThan(8);
    for (const flat of flats) expect(worstDisagreement(flat)).toBeLessThan(1e-8);
  });

  it('turns every bend of a box to its angle', () => {
    for (const flat of fc.sample(arbitraryBox, { numRuns: 20, seed: 2 })) {
      const { bends } = bodyOf(flat);
      flat.bends.forEach((bend, i) => {
        // Third row, third column of the hinge: the cosine between the two faces.
        expect(bends[i].hinge[10]).toBeCloseTo(Math.cos(bend.angle), 12);
      });
    }
  });
});
