import type { Seam, Tub } from '../../../src/analysis/model/tub.js';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { member, seamOf } from './strip-and-sides.js';

/** The tub with a seam of its own between every two panels that meet and that nothing joins yet. */
export const sealed = (tub: Tub, rest: Partial<Seam> = { weld: 'tig' }): Tub => {
  const shape = buildShape(tub);
  const seams: Seam[] = [...tub.seams];
  const known = new Set<string>();
  for (const { stretches, panel } of shape.faces) {
    for (const { mates, bend, seams: own } of stretches.flat()) {
      if (bend !== undefined || own.length > 0) continue;
      for (const { face } of mates) {
        const key = `${Math.min(panel, face)} ${Math.max(panel, face)}`;
        if (known.has(key)) continue;
        known.add(key);
        const [a, b] = [panel, face].map((index) => member(tub, tub.panels[index].name, [index]));
        seams.push(seamOf({ ...tub, seams }, a, b, rest));
      }
    }
  }
  return { ...tub, seams };
};

export const withoutSeam = (tub: Tub, index: number): Tub => ({
  ...tub,
  seams: tub.seams.filter((_, i) => i !== index),
});
export const withoutBend = (tub: Tub, index: number): Tub => ({
  ...tub,
  bends: tub.bends.filter((_, i) => i !== index),
});
