import type { Finding } from '../../analysis/model/finding.js';
import type { SourceTable, TubDocument } from '../lower/text/sources.js';

/** A file that does not say what its bare lengths are has one thing wrong, however many lengths it has. */
export const onceAFile = (sources: SourceTable, findings: readonly Finding[]): readonly Finding[] => {
  const lengths = findings.filter(isBareLength);
  if (lengths.length < 2) return findings;
  const byFile = new Map<TubDocument | undefined, Finding[]>();
  for (const finding of lengths) {
    const file = sources.place(finding.at)?.document;
    const known = byFile.get(file);
    if (known) known.push(finding);
    else byFile.set(file, [finding]);
  }
  const told = new Map([...byFile.values()].map((all) => [all[0], ofAll(all)]));
  return findings.flatMap((finding) => (isBareLength(finding) ? (told.get(finding) ?? []) : finding));
};

const isBareLength = ({ code, values }: Finding): boolean => code === 'unit/missing' && 'lengths_count' in values;

const ofAll = (all: readonly Finding[]): Finding =>
  all.length === 1
    ? all[0]
    : {
        ...all[0],
        message: `${all.length} lengths of this file have no unit, this one first; they need one such as \`mm\`, or \`units mm\` at the top of the file`,
        values: { lengths_count: all.length },
      };
