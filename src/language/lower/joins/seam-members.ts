import type { Ref, Seam } from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { targetOf, textOf } from '../references.js';

/** What a seam names: several things and the one that all of them lie on, or two. */
export const sidesOf = ({ first, second, more }: Seam): readonly [readonly Ref[], Ref | undefined] => {
  const all = [first, second, ...more].flatMap((ref) => ref ?? []);
  return more.length === 0 ? [first ? [first] : [], second] : [all.slice(0, -1), all[all.length - 1]];
};

/** Which of the seam's two a reference within it names; `what` stands before it: `Tabs on`. */
export const memberNamed = (lowering: Lowering, seam: Seam, ref: Ref | undefined, what: string): 0 | 1 | undefined => {
  const target = targetOf(ref);
  if (!target || !ref) return undefined;
  const [rails, last] = sidesOf(seam);
  if (rails.some((rail) => target === targetOf(rail))) return 0;
  if (target === targetOf(last)) return 1;
  // A seam that lacks a member is told already.
  if (rails.length === 0 || !last) return undefined;
  lowering.reports.add(
    'text/wrong-kind',
    lowering.idOf(ref),
    `${what} \`${textOf(ref)}\` are not on this seam; they need to be on ${rails.map((rail) => `\`${textOf(rail)}\``).join(', ')} or \`${textOf(last)}\``,
  );
  return undefined;
};
