import type { Seam, Tub } from '../../model/tub.js';
import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { partlyOn, type PartlyOn } from '../../shape/partly-on.js';
import type { Shape } from '../../shape/shape.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule, RuleFinding } from '../rule.js';

export const seamApart: Rule = {
  code: 'shape/seam-apart',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { seam, nearest } of faultsOfKind(shape(), 'seam-no-shared-edge')) {
      const { at, members } = tub.seams[seam];
      const [a, b] = members;
      const over = overlapOf(tub, shape(), members);
      if (over && (over.off === 0 || nearest <= SAME_POINT)) {
        yield pastFace(tub, seam, over);
        continue;
      }
      yield {
        message: `${named(a.name)} and ${named(b.name)} share no edge to seam; ${nearest > SAME_POINT ? `their edges come no nearer than ${inMm(nearest)}` : 'they meet at a point, and along no length'}`,
        at,
        about: [a.name, b.name],
        values: { nearest_mm: nearest },
        ...(nearest > SAME_POINT ? { measure: { has: nearest, needs: 0, better: 'less' } } : {}),
      };
    }
  },
};

const pastFace = (tub: Tub, seam: number, { standing, under, on, past, off }: PartlyOn): RuleFinding => {
  const [own, other] = [tub.panels[standing].name, tub.panels[under].name];
  const { at, members } = tub.seams[seam];
  const ends = { at, about: members.map(({ name }) => name) };
  if (off > 0)
    return {
      message: `An edge of ${named(own)} runs along ${named(other)} for ${inMm(on)}, ${inMm(off)} off it; to be seamed it needs to lie on it`,
      ...ends,
      values: { along_mm: on, off_mm: off },
      measure: { has: off, needs: 0, better: 'less' },
    };
  return {
    message: `An edge of ${named(own)} lies on ${named(other)} along ${inMm(on)} and goes ${inMm(past)} past it; to be seamed it needs to end on it`,
    ...ends,
    values: { on_mm: on, past_mm: past },
    measure: { has: past, needs: 0, better: 'less' },
  };
};

const overlapOf = (tub: Tub, shape: Shape, members: Seam['members']): PartlyOn | undefined => {
  const [a, b] = members.map(({ panels }) => panels.map((panel) => shape.faces[panel]).filter((face) => face?.usable));
  return partlyOn(a, b, (face) => tub.sheets[tub.panels[face].sheet]?.thickness ?? 0);
};
