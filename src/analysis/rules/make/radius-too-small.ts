import { SAME_HEADING } from '../../geometry/tolerance.js';
import { propertiesOf } from '../../material/properties.js';
import { minimumRadiusOf } from '../../material/minimum-radius.js';
import { FLATTENED_FROM } from '../../making/bend-fit.js';
import type { Sheet } from '../../model/tub.js';
import type { Bend } from '../../shape/shape.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule, RuleFinding } from '../rule.js';

export const radiusTooSmall: Rule = {
  code: 'make/radius-too-small',
  severity: 'warning',
  *check({ tub, shape }) {
    const { bends, faces } = shape();
    // Bends with the sheet's own radius are told once, at the sheet.
    const atSheet = new Map<number, { readonly worst: Tight; readonly names: readonly string[] }>();
    for (const bend of bends) {
      const index = tub.panels[faces[bend.faces[0]].panel].sheet;
      const tight = tightnessOf(bend, tub.sheets[index]);
      if (!tight) continue;
      if (bend.radius !== tub.sheets[index].radius) {
        yield told(tight, tub.sheets[index], bend.at, [bend.name]);
        continue;
      }
      const known = atSheet.get(index);
      const worst = known && known.worst.needs >= tight.needs ? known.worst : tight;
      atSheet.set(index, { worst, names: [...(known?.names ?? []), bend.name] });
    }
    for (const [index, { worst, names }] of atSheet) {
      yield told(worst, tub.sheets[index], tub.sheets[index].at, [tub.sheets[index].name, ...names]);
    }
  },
};

interface Tight {
  readonly bend: Bend;
  readonly needs: number;
  readonly source: string;
}

/** A tenth less is let pass: tables step by more than that, and so does the thickness of sheet as delivered. */
const CLOSE_ENOUGH = 0.9;

const tightnessOf = (bend: Bend, sheet: Sheet): Tight | undefined => {
  if (bend.angle >= FLATTENED_FROM || isProven(bend, sheet)) return undefined;
  const { value, source } = minimumRadiusOf({
    metal: sheet,
    thickness: sheet.thickness,
    angle: bend.angle,
    grain: sheet.grain,
  });
  return bend.radius < CLOSE_ENOUGH * value ? { bend, needs: value, source } : undefined;
};

/** The coupon is a bend of this very sheet at its radius: what is turned no further is shown to hold. */
const isProven = ({ radius, angle }: Bend, { coupon, radius: tried }: Sheet): boolean =>
  coupon !== undefined && radius >= tried && angle <= coupon.angle + SAME_HEADING;

const told = ({ bend, needs, source }: Tight, sheet: Sheet, at: number, about: readonly string[]): RuleFinding => {
  const { grade } = propertiesOf(sheet);
  return {
    message: `Bend ${named(bend.name)} has an inside radius of ${inMm(bend.radius, needs)}; ${inMm(sheet.thickness)} ${sheet.material}, taken as ${grade}, needs ${inMm(needs, bend.radius)}, of which a tenth is let pass: ${inMm(CLOSE_ENOUGH * needs, bend.radius)}`,
    at,
    about,
    related: [{ at: bend.at, message: `It may crack on the outside. Least radius: ${source}` }],
    values: {
      radius_mm: bend.radius,
      least_mm: needs,
      thickness_mm: sheet.thickness,
      material: sheet.material,
      grade,
      grain: sheet.grain,
    },
    measure: { has: bend.radius, needs: CLOSE_ENOUGH * needs, better: 'more' },
  };
};
