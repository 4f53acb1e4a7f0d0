import { inDeg, inMm } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const defaultShop: Rule = {
  code: 'make/default-shop',
  severity: 'info',
  *check({ tub, making, shape }) {
    if (!making().isDefaultShop || shape().bends.length === 0) return;
    const [press] = making().shop.pressBrakes;
    const [folder] = making().shop.foldingBrakes;
    const [cutter] = making().shop.cutters;
    yield {
      message: `No shop is named; the tub is judged by a press brake of ${press.forceN / 1000} kN and ${inMm(press.bed)}, a folding brake of ${inMm(folder.width)} and a cutter of ${inMm(cutter.bed[0])} by ${inMm(cutter.bed[1])}`,
      at: tub.at,
      about: [tub.name],
      related: [
        {
          at: tub.at,
          message: `Dies of ${press.dies.join(', ')} mm; a folding brake for ${inMm(folder.capacity)} mild steel up to ${inDeg(folder.angleAtMost)}; state a \`shop\` to be judged by your own machines`,
        },
      ],
      values: {
        force_kN: press.forceN / 1000,
        press_bed_mm: press.bed,
        folder_width_mm: folder.width,
        folder_capacity_mm: folder.capacity,
        cutter_width_mm: cutter.bed[0],
        cutter_height_mm: cutter.bed[1],
      },
    };
  },
};
