import type { Finding } from '../../analysis/model/finding.js';

/** What a finding says of what, without its numbers; places stay while no statement comes or goes. */
const topicOf = ({ code, severity, at, about }: Finding): string =>
  `${severity} ${code} ${about.length > 0 ? about.join() : at}`;

/** How often each thing is said. */
export const topicsOf = (findings: readonly Finding[]): ReadonlyMap<string, number> => {
  const topics = new Map<string, number>();
  for (const topic of findings.map(topicOf)) topics.set(topic, (topics.get(topic) ?? 0) + 1);
  return topics;
};

/** Those of the findings that were not there before. */
export const newIn = (after: readonly Finding[], before: ReadonlyMap<string, number>): readonly Finding[] => {
  const seen = new Map<string, number>();
  return after.filter((finding) => {
    const topic = topicOf(finding);
    seen.set(topic, (seen.get(topic) ?? 0) + 1);
    return seen.get(topic)! > (before.get(topic) ?? 0);
  });
};
