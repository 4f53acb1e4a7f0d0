import { DefaultConfigurationProvider } from 'langium';
import type { LangiumSharedServices } from 'langium/lsp';

/** Settings stand under `tubwright`, not under the name of the language. */
export class TubSettings extends DefaultConfigurationProvider {
  protected override toSectionName(): string {
    return 'tubwright';
  }

  /** One group as far as the editor has sent it: an editor that never answers keeps nobody waiting. */
  known(group: string): unknown {
    const sent = this.settings[this.toSectionName()] as Readonly<Record<string, unknown>> | undefined;
    return sent?.[group];
  }
}

/** One group of settings as the user has it; undefined before the editor has sent any. */
export const settingsOf = async <T>(shared: LangiumSharedServices, group: string): Promise<T | undefined> =>
  (await shared.workspace.ConfigurationProvider.getConfiguration('tub', group)) as T | undefined;
