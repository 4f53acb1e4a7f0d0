import type { Finding } from '../../analysis/model/finding.js';
import type { SourceId } from '../../analysis/model/tub.js';
import { sortFindings } from '../../analysis/rules/run.js';
import { newIn, topicsOf } from './topics.js';

/** All that is found in one variant of a text. */
export interface VariantFindings {
  readonly name: string;
  readonly findings: readonly Finding[];
}

const isUnused = ({ code }: Finding): boolean => code === 'accept/unused';

/**
 * The findings of a text together with those that only a variant has, each saying of which. `accepted`: the places of what is
 * accepted in the text for all; that is unused only where neither the text itself nor a variant needs it.
 */
export const withVariants = (
  ofText: readonly Finding[],
  variants: readonly VariantFindings[],
  accepted: ReadonlySet<SourceId>,
): readonly Finding[] => {
  const unusedIn = variants.map(({ findings }) => new Set(findings.filter(isUnused).map(({ at }) => at)));
  const kept = ofText.filter((each) => !isUnused(each) || unusedIn.every((unused) => unused.has(each.at)));
  const known = topicsOf(ofText);
  const added = variants.flatMap(({ name, findings }) =>
    newIn(findings, known)
      .filter((each) => !isUnused(each) || !accepted.has(each.at))
      .map((each) => ofVariant(each, name)),
  );
  return sortFindings([...kept, ...added]);
};

/** Without its measure: a number of the text would be worked out for the text itself, not for the variant. */
const ofVariant = ({ measure: _, ...finding }: Finding, name: string): Finding => ({
  ...finding,
  message: `Variant \`${name}\`: ${finding.message}`,
  values: { ...finding.values, variant: name },
});
