import * as vscode from 'vscode';
import { checkPageUri, showPage } from '../pages.js';

interface Place extends vscode.QuickPickItem {
  /** Name of the page, without its ending. */
  readonly page: string;
}

/** Opens a page of the manual: the one named, else the one that is chosen among all headings. */
export const openManual = async (extensionUri: vscode.Uri, page: unknown): Promise<void> => {
  const wanted = typeof page === 'string' ? page : (await chosen(extensionUri))?.page;
  if (wanted !== undefined) await showPage(checkPageUri(`manual/${wanted}`));
};

const chosen = async (extensionUri: vscode.Uri): Promise<Place | undefined> => {
  const folder = vscode.Uri.joinPath(extensionUri, 'dist', 'pages', 'manual');
  const pages = JSON.parse(await textOf(vscode.Uri.joinPath(folder, 'pages.json'))) as readonly string[];
  const places = await Promise.all(
    pages.map(async (page) => placesIn(page, await textOf(vscode.Uri.joinPath(folder, `${page}.md`)))),
  );
  return vscode.window.showQuickPick(places.flat(), {
    title: 'Manual',
    placeHolder: 'A word, a task, a unit, a field …',
    matchOnDescription: true,
  });
};

/** The page by its title, then each of its headings. */
const placesIn = (page: string, text: string): readonly Place[] => {
  const [title, ...headings] = [...text.matchAll(/^#{1,2} (.+)$/gm)].map(([, heading]) => heading);
  return [{ label: title, page }, ...headings.map((label) => ({ label, description: title, page }))];
};

const textOf = async (uri: vscode.Uri): Promise<string> =>
  new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
