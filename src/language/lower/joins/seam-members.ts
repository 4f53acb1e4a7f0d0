import type { Ref, Seam } from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { targetOf, textOf } from '../references.js';

/** Which of the seam's two a reference within it names; `what` stands before it: `Tabs on`. */
export const memberNamed = (lowering: Lowering, seam: Seam, ref: Ref | undefined, what: string): 0 | 1 | undefined => {
  const target = targetOf(ref);
  if (!target || !ref) return undefined;
  if (target === targetOf(seam.first)) return 0;
  if (target === targetOf(seam.second)) return 1;
  // A seam that lacks a member is told already.
  if (!seam.first || !seam.second) return undefined;
  lowering.reports.add(
    'text/wrong-kind',
    lowering.idOf(ref),
    `${what} \`${textOf(ref)}\` are not on this seam; they need to be on \`${textOf(seam.first)}\` or \`${textOf(seam.second)}\``,
  );
  return undefined;
};
