import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { PAGE, type Page, type PageParams } from '../language/protocol.js';

export const PAGE_SCHEME = 'tubwright-page';

/**
 * Read-only Markdown documents: the page beside a check (`tubwright-page:/check/bend/flange-too-short.md`) and pages
 * about one tub that the server writes (`tubwright-page:/tub/fill test.md?<uri>`).
 */
export const registerPages = (extensionUri: vscode.Uri, client: BaseLanguageClient): vscode.Disposable =>
  vscode.workspace.registerTextDocumentContentProvider(PAGE_SCHEME, {
    provideTextDocumentContent: (uri) => (uri.path.startsWith('/check/') ? checkPage(extensionUri, uri) : tubPage(client, uri)),
  });

export const checkPageUri = (code: string): vscode.Uri => vscode.Uri.from({ scheme: PAGE_SCHEME, path: `/check/${code}.md` });

export const tubPageUri = (page: PageParams['page'], tub: vscode.Uri): vscode.Uri =>
  vscode.Uri.from({ scheme: PAGE_SCHEME, path: `/tub/${page}.md`, query: tub.toString() });

/** Shows a page rendered; as plain text where the editor cannot render Markdown. */
export const showPage = async (uri: vscode.Uri): Promise<void> => {
  await vscode.workspace.openTextDocument(uri);
  const rendered = await vscode.commands.executeCommand('markdown.showPreview', uri).then(
    () => true,
    () => false,
  );
  if (!rendered) await vscode.window.showTextDocument(uri, { preview: true });
};

const checkPage = async (extensionUri: vscode.Uri, uri: vscode.Uri): Promise<string> => {
  const file = vscode.Uri.joinPath(extensionUri, 'dist', 'pages', ...uri.path.slice('/check/'.length).split('/'));
  const code = uri.path.slice('/check/'.length).replace(/\.md$/, '');
  return vscode.workspace.fs.readFile(file).then(
    (bytes) => new TextDecoder().decode(bytes),
    () => `# ${code}\n\nThere is no page for this finding.\n`,
  );
};

const tubPage = async (client: BaseLanguageClient, uri: vscode.Uri): Promise<string> => {
  const page = uri.path.slice('/tub/'.length).replace(/\.md$/, '') as PageParams['page'];
  const answer = await client.sendRequest<Page | null>(PAGE, { uri: uri.query, page } satisfies PageParams);
  return answer ? answer.markdown : `# ${page}\n\nThe tub is not open any more.\n`;
};
