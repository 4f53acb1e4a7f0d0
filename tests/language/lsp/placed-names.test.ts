/** What an editor asks about `stall.deck`, a panel of the tub that a thing is taken from. */
import { URI, type LangiumDocument } from 'langium';
import type { LocationLink, MarkupContent } from 'vscode-languageserver';
import { describe, expect, test } from 'vitest';
import { openTexts } from '../../../src/language/workspace/open-texts.js';
import { testServices } from '../../support/analyse-text.js';

const STALL = `units mm
sheet plate = steel thickness 2
panel deck of plate metal up = (0, 0, 0) (400, 0, 0) (400, 300, 0) (0, 300, 0)
panel shelf of plate metal up = (0, 0, -100) (400, 0, -100) (400, 300, -100) (0, 300, -100)
`;

const TEXT = `units mm
sheet skin = stainless thickness 1.2 radius 1.2
existing stall from "stall.tub" at (0, 0, 300)
panel rail of skin metal down = (20, 20, 300) (380, 20, 300) (380, 80, 300) (20, 80, 300)
seam rail stall.deck { bolted M6 every 60 heads on stall.deck }
`;

const [main, stall] = ['file:///bench/rail.tub', 'file:///bench/stall.tub'].map((each) => URI.parse(each));
const { lsp } = testServices().tub;
const open = (): LangiumDocument => openTexts(testServices(), [[main, TEXT], [stall, STALL]]); // prettier-ignore

const after = (document: LangiumDocument, before: string) => ({
  textDocument: { uri: document.uri.toString() },
  position: document.textDocument.positionAt(document.textDocument.getText().indexOf(before) + before.length + 1),
});

describe('a name after that of a thing of a file', () => {
  test('leads to its panel in the other file', async () => {
    const document = open();
    const [link] = (await lsp.DefinitionProvider!.getDefinition(document, after(document, 'seam rail stall.'))) as LocationLink[]; // prettier-ignore
    expect(link.targetUri).toBe(stall.toString());
    expect(link.targetSelectionRange.start).toEqual({ line: 2, character: 6 });
  });

  test('is renamed in both files', async () => {
    const document = open();
    const edit = await lsp.RenameProvider!.rename(document, { ...after(document, 'seam rail stall.'), newName: 'top' });
    const counts = Object.entries(edit!.changes!).map(([uri, edits]) => [uri, edits.length]);
    expect(counts.sort()).toEqual([[main.toString(), 2], [stall.toString(), 1]]); // prettier-ignore
  });

  test('is offered with the others of that file, and told under the pointer', async () => {
    const document = open();
    const at = after(document, 'seam rail stall');
    const offered = await lsp.CompletionProvider!.getCompletion(document, at);
    const labels = offered!.items.map(({ label }) => label);
    expect(labels).toEqual(expect.arrayContaining(['deck', 'shelf']));
    expect(labels).not.toContain('rail');
    const hover = await lsp.HoverProvider!.getHoverContent(document, after(document, 'seam rail stall.'));
    expect((hover!.contents as MarkupContent).value).toContain('deck');
  });
});
