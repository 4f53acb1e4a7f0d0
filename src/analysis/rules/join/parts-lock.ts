import { assemblyOf } from '../../join/assembly.js';
import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const partsLock: Rule = {
  code: 'join/parts-lock',
  severity: 'error',
  *check({ tub, parts, joints }) {
    for (const lock of assemblyOf(parts(), joints()).locks) {
      const [a, b] = lock.parts.map((part) => parts()[part].name);
      const seams = lock.seams.map((seam) => tub.seams[seam]);
      const names = seams.map((seam) => named(seam.name)).join(' and ');
      yield {
        message: `Parts ${named(a)} and ${named(b)} lock: the tabs and clips of seam ${names} leave no straight way to bring them together`,
        at: seams[0].tabs?.at ?? seams[0].at,
        about: [a, b, ...seams.map((seam) => seam.name)],
        related: [
          {
            at: seams[0].at,
            message:
              'Put the tabs of all seams between the two on the same part, or leave some to be folded over or clipped once they stand together',
          },
        ],
        values: { seams: seams.length },
      };
    }
  },
};
