import { memoBy } from '../../cache/memo.js';
import type { PanelIndex, Tub } from '../../model/tub.js';

/** Does a face joint lay these two panels on one another? Each has its own wet side, though they may share edges. */
export const laidTogether = memoBy(({ faceJoints }: Tub): ((a: PanelIndex, b: PanelIndex) => boolean) => {
  const partners = new Map<PanelIndex, Set<PanelIndex>>();
  for (const { members } of faceJoints ?? []) {
    for (const a of members[0].panels) {
      const known = partners.get(a);
      if (known) for (const b of members[1].panels) known.add(b);
      else partners.set(a, new Set(members[1].panels));
    }
  }
  return (a, b) => partners.get(a)?.has(b) === true || partners.get(b)?.has(a) === true;
});
