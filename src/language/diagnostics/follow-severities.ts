import type { LangiumSharedServices } from 'langium/lsp';
import { TubSettings } from '../settings.js';

/** What the settings wish for findings by their code; nothing before the editor has sent them. */
export const severitiesIn = ({ workspace }: LangiumSharedServices): Readonly<Record<string, unknown>> => {
  const settings = workspace.ConfigurationProvider;
  const sent = settings instanceof TubSettings ? settings.known('findings') : undefined;
  return recordIn(recordIn(sent).severity);
};

const recordIn = (value: unknown): Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null ? (value as Readonly<Record<string, unknown>>) : {};

/** When the settings come, or give findings another severity, all texts are looked at again. */
export const followSeverities = (shared: LangiumSharedServices): void => {
  const { ConfigurationProvider, DocumentBuilder, LangiumDocuments, WorkspaceLock } = shared.workspace;
  let last = '{}';
  const follow = (): void => {
    const now = JSON.stringify(severitiesIn(shared));
    if (now === last) return;
    last = now;
    const all = LangiumDocuments.all.map(({ uri }) => uri).toArray();
    if (all.length === 0) return;
    WorkspaceLock.write((token) => DocumentBuilder.update(all, [], token)).catch((error: unknown) =>
      console.error('Texts could not be looked at anew:', error),
    );
  };
  ConfigurationProvider.onConfigurationSectionUpdate(follow);
  void ConfigurationProvider.ready.then(follow);
};
