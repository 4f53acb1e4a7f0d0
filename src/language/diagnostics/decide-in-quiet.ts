import { Cancellation, DocumentState, type LangiumDocument } from 'langium';
import type { Connection } from 'vscode-languageserver';
import type { Services } from '../services.js';

/** ms. How long nobody must have typed. */
const QUIET = 400;

/** Once nobody types, decides in the open texts what a keystroke had no time for, and shows it. A keystroke breaks it off. */
export const decideInQuiet = (connection: Connection, services: Services): void => {
  const builder = services.shared.workspace.DocumentBuilder;
  let source: Cancellation.CancellationTokenSource | undefined;
  const breakOff = (): void => {
    source?.cancel();
    source = undefined;
  };
  builder.onUpdate(breakOff);
  builder.onBuildPhase(DocumentState.Validated, () => {
    breakOff();
    source = new Cancellation.CancellationTokenSource();
    // An editor that closes in the meantime has nothing to be shown.
    decideLater(connection, services, source.token).catch(() => undefined);
  });
};

const decideLater = async (
  connection: Connection,
  { shared, tub }: Services,
  token: Cancellation.CancellationToken,
): Promise<void> => {
  await new Promise((resolve) => setTimeout(resolve, QUIET));
  for (const document of shared.workspace.LangiumDocuments.all) {
    if (token.isCancellationRequested) return;
    if (!shared.workspace.TextDocuments.get(document.uri) || !tub.analysis.Analyses.hasLeftOpen(document)) continue;
    document.diagnostics = await tub.direct.Validator.validateInFull(document, token);
    await show(connection, document);
  }
};

const show = (connection: Connection, { uri, diagnostics = [] }: LangiumDocument): Promise<void> =>
  connection.sendDiagnostics({ uri: uri.toString(), diagnostics });
