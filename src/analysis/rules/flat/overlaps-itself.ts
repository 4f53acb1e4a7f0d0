import { flatFaultsOfKind } from '../../fold/flat-faults-of-kind.js';
import { atPoint, named } from '../../model/wording.js';
import { crossingOfFlat } from '../../stages/flats-to-cut.js';
import type { Stages } from '../../stages/stages.js';
import type { Rule, RuleFinding } from '../rule.js';

export const overlapsItself: Rule = {
  code: 'flat/overlaps-itself',
  severity: 'error',
  *check(stages) {
    yield* overPanels(stages);
    yield* asCut(stages);
  },
};

function* overPanels({ tub, unfolded }: Stages): Iterable<RuleFinding> {
  for (const { faces } of flatFaultsOfKind(unfolded(), 'overlap')) {
    const [a, b] = faces.map((face) => tub.panels[face]);
    yield {
      message:
        a === b
          ? `The flat of ${named(a.name)} lies over itself; no sheet covers a place twice`
          : `Laid flat, ${named(a.name)} lies over ${named(b.name)}; no sheet covers a place twice: make one of the bends between them a seam`,
      at: a.at,
      about: a === b ? [a.name] : [a.name, b.name],
      related: a === b ? [] : [{ at: b.at, message: 'The other panel' }],
      values: {},
    };
  }
}

/** Where no panel lies over another, but what joining and relief add to the outline does. */
function* asCut({ tub, unfolded, parts, flats }: Stages): Iterable<RuleFinding> {
  for (const [i, { faults }] of unfolded().entries()) {
    const flat = flats()[i];
    const crossing = flat && !faults.some(({ kind }) => kind === 'overlap') ? crossingOfFlat(flat) : undefined;
    if (!crossing) continue;
    const [x, y] = crossing;
    const { name, faces } = parts()[i];
    yield {
      message: `The outline of ${named(name)} as it is cut, with its tabs and notches, crosses itself at ${atPoint([x, y, 0])} of its flat; no cutter can follow it`,
      at: tub.panels[faces[0]].at,
      about: [name],
      values: { x_mm: x, y_mm: y },
    };
  }
}
