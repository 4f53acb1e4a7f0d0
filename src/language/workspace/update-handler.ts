import { DefaultDocumentUpdateHandler } from 'langium/lsp';
import type { FileSystemWatcher } from 'vscode-languageserver';

/** Watches texts of tubs only; the default would be told of every file of a workspace. */
export class TubUpdateHandler extends DefaultDocumentUpdateHandler {
  protected override getWatchers(): FileSystemWatcher[] {
    return [{ globPattern: '**/*.tub' }];
  }
}
