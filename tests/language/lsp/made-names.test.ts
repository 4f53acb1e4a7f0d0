/** What an editor asks about names that `mirror` and `repeat` make. */
import { URI, type LangiumDocument } from 'langium';
import type { LocationLink, MarkupContent } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { describe, expect, test } from 'vitest';
import { openTexts } from '../../../src/language/workspace/open-texts.js';
import { testServices } from '../../support/analyse-text.js';

const TEXT = `units mm
tub "Legs"
sheet skin = steel 16 ga radius 2
support leg {
    strip arm of skin from (0, 0, 0) heading right across back 30 {
        panel post 90 falling 80 deg
        panel foot 25 level
    }
}
repeat leg 3 times by (0, 80, 0)
mirror leg2 as far across x 200
hole in leg2.arm.post at (4, 85, -20) diameter 5
hole in far.arm.foot at (350, 95, -88.6) diameter 5
rim leg3.arm.end
`;

const uri = URI.parse('file:///bench/legs.tub');
const { lsp } = testServices().tub;
const open = (text = TEXT): LangiumDocument => openTexts(testServices(), [[uri, text]]);

interface At {
  readonly textDocument: { readonly uri: string };
  readonly position: { readonly line: number; readonly character: number };
}

/** One letter into the text after what stands before it. */
const after = (document: LangiumDocument, before: string): At => ({
  textDocument: { uri: uri.toString() },
  position: document.textDocument.positionAt(document.textDocument.getText().indexOf(before) + before.length + 1),
});

const renamed = async (before: string, newName: string): Promise<string> => {
  const document = open();
  const edit = await lsp.RenameProvider!.rename(document, { ...after(document, before), newName });
  return TextDocument.applyEdits(document.textDocument as TextDocument, edit!.changes![uri.toString()]);
};

describe('a made name', () => {
  test.each([
    ['rim ', 'repeat leg 3 times'],
    ['hole in leg2.arm.', 'post 90 falling'],
    ['hole in far.arm.', 'foot 25 level'],
    ['hole in ', 'repeat leg 3 times'],
    ['\nhole in leg2.arm.post at (4, 85, -20) diameter 5\nhole in ', 'far across x'],
  ])('after `%s` leads to `%s`', async (before, target) => {
    const document = open();
    const links = (await lsp.DefinitionProvider!.getDefinition(document, after(document, before))) as LocationLink[];
    const start = document.textDocument.offsetAt(links[0].targetSelectionRange.start);
    expect(document.textDocument.getText().slice(start)).toMatch(new RegExp(`^${target}`));
  });

  test('of a panel tells the numbers of that very panel', async () => {
    const document = open();
    const hover = await lsp.HoverProvider!.getHoverContent(document, after(document, 'hole in far.arm.'));
    expect((hover!.contents as MarkupContent).value).toContain('**Panel** `far.arm.foot`');
  });

  test('is renamed with what it is made of, and what it is made of with it', async () => {
    expect(await renamed('panel ', 'stalk')).toBe(TEXT.replaceAll('post', 'stalk'));
    expect(await renamed('hole in leg2.arm.', 'stalk')).toBe(TEXT.replaceAll('post', 'stalk'));
    expect(await renamed('support ', 'pole')).toBe(TEXT.replaceAll(/\bleg(?=\d?\b)/g, 'pole'));
    expect(await renamed('as ', 'off')).toBe(TEXT.replaceAll('far', 'off'));
  });

  test('of a repeat says what to rename instead', async () => {
    await expect(renamed('rim ', 'pole')).rejects.toThrow('rename leg');
  });

  test('is offered with its parts', async () => {
    const offered = async (line: string): Promise<readonly string[]> => {
      const document = open(`${TEXT}${line}`);
      const position = document.textDocument.positionAt(document.textDocument.getText().length);
      const list = await lsp.CompletionProvider!.getCompletion(document, { textDocument: { uri: uri.toString() }, position });
      return list!.items.map(({ label }) => label);
    }; // prettier-ignore
    expect(await offered('rim ')).toEqual(expect.arrayContaining(['leg', 'leg2', 'leg3', 'far']));
    expect(await offered('rim leg3.')).toEqual(expect.arrayContaining(['arm']));
    expect(await offered('rim far.arm.')).toEqual(expect.arrayContaining(['post', 'foot']));
    expect((await offered('repeat ')).filter((label) => !/^[a-z]+$/.test(label) || label === 'leg')).toEqual(
      expect.arrayContaining(['leg', 'leg2']),
    );
  });

  test('is found from what it is made of', async () => {
    const document = open();
    const context = { includeDeclaration: false };
    const found = await lsp.ReferencesProvider!.findReferences(document, { ...after(document, 'panel '), context });
    expect(found.map(({ range }) => document.textDocument.getText(range))).toEqual(['post']);
  });
});
