import type { LangiumSharedServices } from 'langium/lsp';

/** When the settings give findings another severity, all texts are looked at again. */
export const followSeverities = ({ workspace }: LangiumSharedServices): void => {
  const { ConfigurationProvider, DocumentBuilder, LangiumDocuments, WorkspaceLock } = workspace;
  let last = '{}';
  ConfigurationProvider.onConfigurationSectionUpdate(({ configuration }) => {
    const settings = configuration as { readonly findings?: unknown } | undefined;
    const now = JSON.stringify(settings?.findings ?? {});
    if (now === last) return;
    last = now;
    const all = LangiumDocuments.all.map(({ uri }) => uri).toArray();
    WorkspaceLock.write((token) => DocumentBuilder.update(all, [], token)).catch((error: unknown) =>
      console.error('Texts could not be looked at anew:', error),
    );
  });
};
