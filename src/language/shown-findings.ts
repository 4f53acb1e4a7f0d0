import type { SourceId } from '../analysis/model/tub.js';
import type { Analysis } from './analyse.js';
import type { SourceTable } from './lower/text/sources.js';
import { wordsFor } from './lower/text/text-units.js';
import type { ShownFinding } from './protocol.js';

/** What a view shows, and where each of its items stands in the text. */
export interface ShownPlaces {
  readonly places: ReadonlyMap<string, SourceId>;
  readonly sources: SourceTable;
}

/** What is found in a text, each with the items of a view that it is about: those of its own statement first, then those it names. */
export const shownFindings = (analysis: Analysis, { places, sources }: ShownPlaces): readonly ShownFinding[] => {
  const [byPlace, byName] = [new Map<SourceId, string[]>(), new Map<string, string[]>()];
  const put = <K>(map: Map<K, string[]>, at: K, key: string): unknown => map.set(at, [...(map.get(at) ?? []), key]);
  for (const [key, at] of places) {
    if (key.startsWith('note:')) continue;
    put(byPlace, at, key);
    put(byName, key.slice(key.indexOf(':') + 1), key);
  }
  return analysis.findings.map(({ code, severity, message, at, about, related }) => {
    const stated = sources === analysis.sources ? [at, ...related.map((each) => each.at)] : [];
    const keys = [...stated.flatMap((id) => byPlace.get(id) ?? []), ...about.flatMap((name) => byName.get(name) ?? [])];
    const place = analysis.sources.place(at);
    return {
      code,
      severity,
      message: wordsFor(analysis.document, message),
      keys: [...new Set(keys)].slice(0, MOST_KEYS),
      place: place && { uri: place.document.uri.toString(), range: place.range },
    };
  });
};

/** More places than this are not one finding's. */
const MOST_KEYS = 12;
