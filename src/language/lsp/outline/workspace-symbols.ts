import { Cancellation, interruptAndCheck, type LangiumDocuments } from 'langium';
import type { FuzzyMatcher, LangiumSharedServices, WorkspaceSymbolProvider } from 'langium/lsp';
import type { DocumentSymbol, WorkspaceSymbol, WorkspaceSymbolParams } from 'vscode-languageserver';
import { TubSymbols } from './symbols.js';

/** What all texts name, as their outlines have it: legs with their strip, machines with their shop. */
export class TubWorkspaceSymbols implements WorkspaceSymbolProvider {
  private readonly documents: LangiumDocuments;
  private readonly matcher: FuzzyMatcher;
  private readonly outline = new TubSymbols();

  constructor(services: LangiumSharedServices) {
    this.documents = services.workspace.LangiumDocuments;
    this.matcher = services.lsp.FuzzyMatcher;
  }

  async getSymbols(
    { query }: WorkspaceSymbolParams,
    token: Cancellation.CancellationToken = Cancellation.CancellationToken.None,
  ): Promise<WorkspaceSymbol[]> {
    const found: WorkspaceSymbol[] = [];
    const wanted = query.toLowerCase();
    for (const document of this.documents.all) {
      await interruptAndCheck(token);
      const uri = document.uri.toString();
      const gather = (symbol: DocumentSymbol, container: string | undefined): void => {
        const full = container === undefined ? symbol.name : `${container}.${symbol.name}`;
        if (this.matcher.match(wanted, symbol.name) || this.matcher.match(wanted, full))
          found.push({
            name: symbol.name,
            kind: symbol.kind,
            location: { uri, range: symbol.selectionRange },
            ...(container !== undefined && { containerName: container }),
          });
        for (const child of symbol.children ?? []) gather(child, full);
      };
      for (const symbol of this.outline.getSymbols(document)) gather(symbol, undefined);
    }
    return found;
  }
}
