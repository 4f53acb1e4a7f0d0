/** Names as people call their things at home, from the text to the cutter. */
import { URI, type LangiumDocument } from 'langium';
import { CompletionItemKind } from 'vscode-languageserver-types';
import { describe, expect, it, test } from 'vitest';
import { exporters } from '../../src/analysis/export/registry.js';
import { makeExport } from '../../src/language/requests/make-export.js';
import { openTexts } from '../../src/language/workspace/open-texts.js';
import { analyseText, codesOf, testServices } from '../support/analyse-text.js';
import { readDxf } from '../support/oracles/dxf-reader.js';

/** A pan whose names are all given. */
const pan = (sheet: string, strip: string, back: string, floor: string, length: string): string => `units mm
tub "Pan"
sheet ${sheet} = steel thickness 1 radius 1
let ${length} = 250
strip ${strip} of ${sheet} from (0, 300, 60) heading front across right 240 {
  panel ${back} 60 falling 90 deg
  panel ${floor} ${length} falling 6 deg
  panel front to z 60 rising 90 deg
}
`;

/** Two composed letters and the same ones as letters with accents behind. */
const COMPOSED = 'cr\u00e8me_br\u00fbl\u00e9e';
const APART = COMPOSED.normalize('NFD');

describe('names', () => {
  it.each([
    ['Latin with accents', pan('tôle', 'Wanne', 'Rückwand', 'Böden', 'Länge2')],
    ['Greek', pan('λαμαρίνα', 'λεκάνη', 'πίσω', 'πάτος', 'μήκος')],
    ['Cyrillic', pan('лист', 'ванна', 'зад', 'дно', 'длина')],
    ['Chinese', pan('钢板', '水槽', '后壁', '底', '长度')],
    ['Japanese', pan('鉄板', 'たらい', 'うしろ', 'ソコ', '長さ')],
    ['Hindi', pan('चादर', 'टब', 'पीछे', 'तल', 'लंबाई')],
    ['Arabic', pan('صفيحة', 'حوض', 'خلف', 'قاع', 'طول')],
  ])('may be %s', (_, text) => {
    const plain = analyseText(pan('skin', 'floor', 'back', 'bed', 'reach'));
    const { findings, stages } = analyseText(text);
    expect(findings.map(({ code }) => code)).toEqual(plain.findings.map(({ code }) => code));
    expect(stages.flats().map((flat) => flat?.outline)).toEqual(plain.stages.flats().map((flat) => flat?.outline));
  });

  test('are the same whichever way their accents are typed', () => {
    const [same, other] = [pan('skin', 'floor', 'back', 'bed', COMPOSED), pan('skin', 'floor', 'back', 'bed', 'reach')];
    const mixed = same.replace(`panel bed ${COMPOSED}`, `panel bed ${APART}`);
    expect(mixed).not.toBe(same);
    expect(codesOf(analyseText(mixed))).toEqual(codesOf(analyseText(other)));
    expect(codesOf(analyseText(`${same}let ${APART} = 3\n`))).toContain('text/duplicate-name');
  });

  test('end where a sign, a picture or a space stands', () => {
    for (const sign of ['🛁', '×', '。', '\u1680', '−']) {
      const codes = codesOf(analyseText(pan('skin', 'floor', 'back', 'bed', `rea${sign}ch`)));
      expect(codes).toContain('text/syntax');
    }
  });

  test('in a script of its own a word is not taken for one of the language that it begins with', () => {
    expect(codesOf(analyseText(pan('skin', 'floor', 'панель', 'backó', 'mmé')))).toEqual(
      codesOf(analyseText(pan('skin', 'floor', 'back', 'bed', 'reach'))),
    );
  });
});

describe('in the editor', () => {
  const services = testServices();
  const text = pan('skin', 'ванна', 'зад', 'дно', 'длина');
  const open = (): LangiumDocument => openTexts(services, [[URI.parse('file:///bench/pan.tub'), text]]);

  const renamed = async (newName: string): Promise<number> => {
    const document = open();
    const edit = await services.tub.lsp.RenameProvider!.rename(document, {
      textDocument: document.textDocument,
      position: document.textDocument.positionAt(text.indexOf('длина') + 1),
      newName,
    });
    return Object.values(edit?.changes ?? {}).flat().length;
  };

  test('a name is renamed where it stands and where it is used', async () => {
    expect(await renamed('muß')).toBe(2);
  });

  test.each(['2é', 'a b', '🛁', 'a-b', '', 'é°', '𝒜'])('"%s" is no name', async (name) => {
    await expect(renamed(name)).rejects.toThrow('is not a name; names are made of letters, digits and _');
  });

  test('a name is offered by its first letters', async () => {
    const document = open();
    const position = document.textDocument.positionAt(text.indexOf('дно дл') + 'дно дл'.length);
    const list = await services.tub.lsp.CompletionProvider!.getCompletion(document, {
      textDocument: document.textDocument,
      position,
    });
    const offered = list!.items.filter(({ kind }) => kind !== CompletionItemKind.Snippet).map(({ label }) => label);
    expect(offered).toContain('длина');
  });
});

test('a part is written under its name, on its drawing and in the name of its file', async () => {
  const { stages } = analyseText(pan('лист', 'ванна', 'зад', 'дно', 'длина'));
  const options = { paper: 'A4', units: 'metric', nestTries: 0 } as const;
  const making = makeExport(stages, { formats: ['dxf'], options }, exporters);
  let step = await making.next();
  while (!step.done) step = await making.next();
  const [{ name, content }] = step.value.files;
  expect(name).toContain('ванна');
  expect(JSON.stringify(readDxf(String(content)))).toMatch(/ванна|\\\\U\+0432/);
});
