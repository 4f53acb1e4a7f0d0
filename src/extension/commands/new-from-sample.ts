import * as vscode from 'vscode';
import { LANGUAGE } from '../client.js';
import { tick } from '../done.js';

interface Sample {
  readonly label: string;
  readonly detail: string;
  readonly text: string;
}

const SHOP = 'shop.tub';

/** Opens a copy of a sample as a new, unsaved text. Such a text lies in no folder, so the shop that it uses comes along in it. */
export const newFromSample = async (extensionUri: vscode.Uri): Promise<void> => {
  const folder = vscode.Uri.joinPath(extensionUri, 'dist', 'samples');
  const names = (await vscode.workspace.fs.readDirectory(folder))
    .map(([name]) => name)
    .filter((name) => name.endsWith('.tub'))
    .sort();
  const samples = await Promise.all(names.map((name) => read(folder, name)));
  const shop = samples[names.indexOf(SHOP)];
  const tubs = samples.filter((sample) => sample !== shop);
  const chosen = await vscode.window.showQuickPick(
    [
      group('Tubs'),
      ...tubs.filter((sample) => !hasFaults(sample)),
      group('Machines'),
      { ...shop, label: 'A shop of your own' },
      group('With faults on purpose, to see what is found'),
      ...tubs.filter(hasFaults),
    ],
    { placeHolder: 'Start from which tub?', matchOnDetail: true },
  );
  if (!chosen || !('text' in chosen)) return;
  const content = withShop(chosen.text, shop.text);
  const document = await vscode.workspace.openTextDocument({ language: LANGUAGE, content });
  await vscode.window.showTextDocument(document);
  tick('sampleOpened');
};

const group = (label: string): vscode.QuickPickItem => ({ label, kind: vscode.QuickPickItemKind.Separator });

/** The `tub "…"` line names it, the first comment says what it is. */
const read = async (folder: vscode.Uri, name: string): Promise<Sample> => {
  const text = new TextDecoder().decode(await vscode.workspace.fs.readFile(vscode.Uri.joinPath(folder, name)));
  const title = /^\s*tub\s+"([^"]*)"/m.exec(text)?.[1];
  const comment = /^\s*(?:\/\/|\/\*+)\s*(.+?)\s*(?:\*\/)?$/m.exec(text)?.[1];
  return { label: title ?? name, detail: comment ?? name, text };
};

/** A sample that names the findings it shows is there for them. */
const hasFaults = ({ text }: Sample): boolean => /^\/\/ Shows: /m.test(text);

const USE_SHOP = /^use "shop\.tub".*\n/m;

const withShop = (text: string, shop: string): string => {
  if (!USE_SHOP.test(text)) return text;
  const block = shop.slice(shop.indexOf('\nshop "') + 1).trimEnd();
  const words = '// The machines that make it. Measure your own; every number here is only an example.';
  return `${text.replace(USE_SHOP, '').trimEnd()}\n\n${words}\n${block}\n`;
};
