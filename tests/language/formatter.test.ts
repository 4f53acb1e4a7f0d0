import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { URI } from 'langium';
import { describe, expect, test } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { layoutOf } from '../../src/language/lsp/layout/layout.js';
import { openTexts } from '../../src/language/workspace/open-texts.js';
import { testServices } from '../support/analyse-text.js';

const root = join(import.meta.dirname, '../..');
const tubFiles = (folder: string): readonly string[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.tub'))
    .map((name) => join(folder, name));

const format = (text: string): string => {
  const document = openTexts(testServices(), [[URI.parse('file:///bench/a.tub'), text]]);
  return TextDocument.applyEdits(document.textDocument, [...layoutOf(document, { tabSize: 4, insertSpaces: true })]);
};

/** Words and comments in order: all that a layout may not touch. */
const wordsOf = (text: string): readonly string[] => {
  const { tokens, hidden } = testServices().tub.parser.Lexer.tokenize(text);
  return [...tokens, ...hidden]
    .sort((a, b) => a.startOffset - b.startOffset)
    .map((token) => `${token.tokenType.name} ${token.image.trimEnd()}`);
};

describe.each([...tubFiles('samples'), ...tubFiles('tests/fixtures')])('%s', (file) => {
  test('keeps every word and comment when laid out, and stays as it is the second time', () => {
    const text = readFileSync(join(root, file), 'utf8');
    const once = format(text);
    expect(wordsOf(once)).toEqual(wordsOf(text));
    expect(format(once)).toBe(once);
  });
});

test('legs are set in columns and blanks are evened out', () => {
  expect(
    format(
      'strip  floor of skin from ( 0,640 , rim ) heading front across right inside{\npanel back 60 falling 90 deg\n\tpanel shelf   310 falling fall\n  panel front to z rim rising 80 deg // up\n}\n\n\n\nside a of skin closes floor . left up to rim',
    ),
  ).toBe(
    'strip floor of skin from (0, 640, rim) heading front across right inside {\n' +
      '    panel back    60  falling 90 deg\n' +
      '    panel shelf  310  falling fall\n' +
      '    panel front  to z rim  rising 80 deg  // up\n' +
      '}\n\nside a of skin closes floor.left up to rim\n',
  );
});

test('values, edges and codes are spaced as they are read', () => {
  expect(
    format(
      'let a=-( 3 mm+2 mm )*sin ( 5 deg )/2\nflange b on c [ D E ] turned up 90 deg by 20\naccept drain / pool on c because "so"\n',
    ),
  ).toBe(
    'let a = -(3 mm + 2 mm) * sin(5 deg) / 2\nflange b on c[D E] turned up 90 deg by 20\naccept drain/pool on c because "so"\n',
  );
});

test('a statement that goes on in the next line is indented', () => {
  expect(format('panel a of skin =\n(0, 0, 0)\n(1, 0, 0)\n(1, 1, 0)\n')).toBe(
    'panel a of skin =\n    (0, 0, 0)\n    (1, 0, 0)\n    (1, 1, 0)\n',
  );
});

test('Windows line ends stay', () => {
  expect(format('let a = 1 mm\r\n\r\n\r\nlet   b = 2 mm\r\n')).toBe('let a = 1 mm\r\n\r\nlet b = 2 mm\r\n');
});

test('a text that cannot be read is left alone', () => {
  expect(format('let   a =\nlet b   = 2 mm\n')).toBe('let   a =\nlet b   = 2 mm\n');
});

test('a comment ends where a carriage return alone ends its line', () => {
  expect(format('units mm // first\rlet a = 1 // second\r\rlet b = 2\r')).toBe(
    'units mm  // first\nlet a = 1  // second\n\nlet b = 2\n',
  );
});

test('the columns of a builder stay: two or more blanks between words of a line, legs below each other, fractions', () => {
  const text =
    'let inside = 460              // clear width\nlet rim    = 250\n' +
    'sheet skin = stainless 18 ga  radius 1/16 in\n\n' +
    'strip floor of skin from (0, 640, rim) heading front across right inside {\n' +
    '    panel back    60   falling 90 deg\n    panel shelf  310   falling 4 deg\n    panel front  to z rim  rising 80 deg\n}\n' +
    'side a  of skin closes floor.left   up to rim\n';
  expect(format(text)).toBe(text);
});

test.each(tubFiles('samples'))('%s is laid out as it is', (file) => {
  const text = readFileSync(join(root, file), 'utf8');
  expect(format(text)).toBe(text);
});
