import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { PAGE, PAGE_SCHEME, type Page, type PageParams } from '../language/protocol.js';

/** Scheme of pages about one tub, which the server writes: `tubwright-tub:/fill test.md?<uri>`. */
const TUB_SCHEME = 'tubwright-tub';

/** Read-only Markdown documents: the page beside each check, and pages about one tub. */
export const registerPages = (extensionUri: vscode.Uri, client: BaseLanguageClient): vscode.Disposable =>
  vscode.Disposable.from(
    vscode.workspace.registerTextDocumentContentProvider(PAGE_SCHEME, {
      provideTextDocumentContent: (uri) => checkPage(extensionUri, uri),
    }),
    vscode.workspace.registerTextDocumentContentProvider(TUB_SCHEME, {
      provideTextDocumentContent: (uri) => tubPage(client, uri),
    }),
  );

export const checkPageUri = (code: string): vscode.Uri => vscode.Uri.from({ scheme: PAGE_SCHEME, path: `/${code}.md` });

export const tubPageUri = (page: PageParams['page'], tub: vscode.Uri): vscode.Uri =>
  vscode.Uri.from({ scheme: TUB_SCHEME, path: `/${page}.md`, query: tub.toString() });

/** Shows a page rendered, in front or beside the text; as plain text where the editor cannot render Markdown. */
export const showPage = async (uri: vscode.Uri, where: 'in front' | 'beside' = 'in front'): Promise<void> => {
  await vscode.workspace.openTextDocument(uri);
  const command = where === 'beside' ? 'markdown.showPreviewToSide' : 'markdown.showPreview';
  const rendered = await vscode.commands.executeCommand(command, uri).then(
    () => true,
    () => false,
  );
  if (!rendered) await vscode.window.showTextDocument(uri, { preview: true });
};

const checkPage = async (extensionUri: vscode.Uri, uri: vscode.Uri): Promise<string> => {
  const file = vscode.Uri.joinPath(extensionUri, 'dist', 'pages', ...uri.path.split('/').filter(Boolean));
  const code = uri.path.slice(1).replace(/\.md$/, '');
  return vscode.workspace.fs.readFile(file).then(
    (bytes) => new TextDecoder().decode(bytes),
    () => `# ${code}\n\nThere is no page for this finding.\n`,
  );
};

const tubPage = async (client: BaseLanguageClient, uri: vscode.Uri): Promise<string> => {
  const page = uri.path.slice(1).replace(/\.md$/, '') as PageParams['page'];
  const answer = await client.sendRequest<Page | null>(PAGE, { uri: uri.query, page } satisfies PageParams);
  return answer ? answer.markdown : `# ${page}\n\nThe tub is not open any more.\n`;
};
