import { URI, type LangiumDocuments } from 'langium';
import { DefaultDocumentUpdateHandler, type LangiumSharedServices } from 'langium/lsp';
import type { FileSystemWatcher, TextDocumentChangeEvent } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { isInside, reachableUris, workspaceFoldersOf } from './imports.js';

/** Watches texts of tubs only, knows what becomes of a closed one, and outlives an update that fails. */
export class TubUpdateHandler extends DefaultDocumentUpdateHandler {
  private readonly documents: LangiumDocuments;

  constructor(services: LangiumSharedServices) {
    super(services);
    this.documents = services.workspace.LangiumDocuments;
  }

  /** The default would be told of every file of a workspace. */
  protected override getWatchers(): FileSystemWatcher[] {
    return [{ globPattern: '**/*.tub' }];
  }

  /** A closed text is again what its file says, which may be nothing; one that nobody asks for any more is forgotten. */
  didCloseDocument({ document }: TextDocumentChangeEvent<TextDocument>): void {
    const uri = URI.parse(document.uri);
    if (this.isWanted(uri)) this.fireDocumentUpdate([uri], []);
    else this.fireDocumentUpdate([], [uri]);
  }

  /** The default leaves a failure to nobody, which ends a server's process. */
  protected override fireDocumentUpdate(changed: URI[], deleted: URI[]): void {
    void this.workspaceManager.ready
      .then(() => this.workspaceLock.write((token) => this.documentBuilder.update(changed, deleted, token)))
      .catch((error: unknown) => console.error('Tubs could not be read anew:', error));
  }

  private isWanted(uri: URI): boolean {
    if (workspaceFoldersOf(this.documents).some((folder) => isInside(uri, folder))) return true;
    const key = uri.toString();
    return this.documents.all.some(
      (other) => other.uri.toString() !== key && reachableUris(this.documents, other).has(key),
    );
  }
}
