import { NOISE } from '../../geometry/tolerance.js';
import { seamFastenersOf } from '../../join/seam-fasteners.js';
import { DIAMETER_THICKNESSES, gripRange } from '../../material/rivets.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule, RuleFinding } from '../rule.js';
import type { SeamFastener } from '../../join/seam-fasteners.js';

export const rivetSize: Rule = {
  code: 'join/rivet-size',
  severity: 'warning',
  *check({ tub, joints }) {
    const told = new Set<number>();
    for (const each of seamFastenersOf(tub, joints())) {
      if (told.has(each.index)) continue;
      const { seam: name, at } = each;
      const row = tub.seams[each.index]?.fasteners ?? tub.faceJoints?.[each.index - tub.seams.length]?.fasteners;
      const fault = faultOf(each, row?.size !== undefined, named(name));
      if (!fault) continue;
      told.add(each.index);
      yield { ...fault, at, about: [name] };
    }
  },
};

const faultOf = (
  { fastener, place, grip }: SeamFastener,
  isStated: boolean,
  name: string,
): Omit<RuleFinding, 'at' | 'about'> | undefined => {
  if (fastener.kind !== 'rivet') return undefined;
  const { size } = fastener;
  const thicker = Math.max(...place.stack);
  const [least, most] = DIAMETER_THICKNESSES.map((count) => count * thicker);
  const has = size.diameter;
  const isThin = has < least - NOISE;
  if (isStated && (isThin || has > most + NOISE)) {
    const needs = isThin ? least : most;
    return {
      message: `Rivets of seam ${name} are ${inMm(has, needs)} thick; in sheet of ${inMm(thicker)} they need ${isThin ? 'at least' : 'at most'} ${inMm(needs, has)}`,
      values: { diameter_mm: has, needed_mm: needs, thickness_mm: thicker },
      measure: { has, needs, better: isThin ? 'more' : 'less' },
    };
  }
  if (gripRange(size, grip)) return undefined;
  const longest = size.grips[size.grips.length - 1];
  return {
    message: `Rivets of seam ${name} hold ${inMm(grip, longest)} of sheet; blind ones of ${inMm(size.diameter)} are made for at most ${inMm(longest, grip)}`,
    values: { grip_mm: grip, needed_mm: longest },
    measure: { has: grip, needs: longest, better: 'less' },
  };
};
