import { CancellationTokenSource } from 'vscode-jsonrpc/node.js';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Diagnostic, Position } from 'vscode-languageserver-types';
import { toDiagnostics } from '../src/language/diagnostics/findings-to-lsp.js';
import { unusedNames } from '../src/language/diagnostics/unused.js';
import { CHECK, KEYS_AT, PAGE, PLACE_OF, SCENE } from '../src/language/protocol.js';
import { testServices } from '../tests/support/analyse-text.js';
import { connectInProcess, type LspClient } from '../tests/support/lsp-client.js';
import { Dice } from './dice.js';
import { notFinite } from './finite.js';
import type { Verdict } from './job.js';
import { analysed } from './judge-text.js';
import { samples } from './seeds.js';
import { ODD_NUMBERS } from './words.js';

/** One server for all texts, as an editor has it. */
let client: Promise<LspClient> | undefined;
const connected = (): Promise<LspClient> =>
  (client ??= connectInProcess({
    files: { 'shop.tub': samples().find(({ name }) => name === 'samples/shop.tub')!.text },
  }));

let opened = 0;

/** A text is opened, edited and asked about in any order; in the end the server shows what a fresh run finds. */
export const judgeRequests = async (
  text: string,
  seed: number,
): Promise<Pick<Verdict, 'faults' | 'marks' | 'counts'>> => {
  const dice = new Dice(seed);
  const editor = await connected();
  // A name of its own: what was shown of an earlier text of that name has versions too.
  const name = `case${opened++}.tub`;
  const uri = await editor.open(name, text);
  const faults: string[] = [];
  const counts = { requests: 0, edits: 0 };
  const asked: Promise<void>[] = [];
  for (let left = 4 + dice.below(12); left > 0; left--) {
    if (dice.onceIn(3)) {
      await edit(editor, uri, dice);
      counts.edits++;
      if (dice.onceIn(2)) await editor.diagnostics(uri);
    } else {
      asked.push(ask(editor, uri, dice, (fault) => faults.push(fault)));
      counts.requests++;
    }
  }
  await Promise.all(asked);
  const shown = await editor.diagnostics(uri);
  const now = editor.textOf(uri).text;
  faults.push(...differences(shown, now, name));
  await editor.notify('textDocument/didClose', { textDocument: { uri } });
  return { faults, marks: [], counts };
};

const SCRAPS = [
  '',
  '',
  '',
  ' ',
  '\n',
  '7',
  '-',
  '(',
  ')',
  '{',
  '}',
  '//',
  '"',
  'panel',
  'mm',
  'é',
  '😀',
  '\r',
  ...ODD_NUMBERS,
];

const edit = async (editor: LspClient, uri: string, dice: Dice): Promise<void> => {
  const { text } = editor.textOf(uri);
  const at = dice.below(text.length + 1);
  const length = dice.onceIn(3) ? dice.below(30) : dice.below(3);
  const document = TextDocument.create(uri, 'tub', 0, text);
  const range = { start: document.positionAt(at), end: document.positionAt(at + length) };
  // A pair of halves of one character, or of one line end, is never parted by an editor.
  await editor.change(uri, { range, newText: dice.onceIn(4) ? text.slice(at, at + 40) : dice.of(SCRAPS) });
};

type Say = (fault: string) => void;

const ask = async (editor: LspClient, uri: string, dice: Dice, say: Say): Promise<void> => {
  const { text } = editor.textOf(uri);
  const document = TextDocument.create(uri, 'tub', 0, text);
  const position = dice.onceIn(25) ? { line: 9999, character: 9999 } : document.positionAt(dice.below(text.length + 1));
  const other = document.positionAt(dice.below(text.length + 1));
  const range = isBefore(position, other) ? { start: position, end: other } : { start: other, end: position };
  const [method, params] = dice.of(questions({ uri, position, range, dice }));
  const source = new CancellationTokenSource();
  try {
    const asked = editor.request<unknown>(method, params, source.token);
    if (dice.onceIn(12)) source.cancel();
    const answer = await asked;
    for (const way of new Set(notFinite(answer, text).map((each) => each.replace(/\d+/g, '#'))))
      say(`no number: ${way} of ${method}`);
  } catch (error) {
    if (!isBrokenOff(error))
      say(`refused: ${method}: ${error instanceof Error ? error.message.split('\n')[0] : String(error)}`);
  }
};

const isBefore = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character <= b.character);

/** Cancelled by the one who asked, overtaken by an edit, or a new name that will not do, which is told. */
const isBrokenOff = (error: unknown): boolean =>
  (error instanceof Error && /choose another name|is not a name/.test(error.message)) ||
  (typeof error === 'object' &&
    error !== null &&
    'code' in error &&
    [-32800, -32801, -32802].includes(Number(error.code)));

interface Place {
  readonly uri: string;
  readonly position: Position;
  readonly range: { readonly start: Position; readonly end: Position };
  readonly dice: Dice;
}

const questions = ({ uri, position, range, dice }: Place): readonly (readonly [string, unknown])[] => {
  const textDocument = { uri };
  const options = { tabSize: 4, insertSpaces: true };
  const view = dice.of(['flat', 'folded', 'water', 'bends']);
  return [
    ['textDocument/hover', { textDocument, position }],
    ['textDocument/hover', { textDocument, position }],
    ['textDocument/completion', { textDocument, position }],
    ['textDocument/completion', { textDocument, position }],
    ['textDocument/definition', { textDocument, position }],
    ['textDocument/references', { textDocument, position, context: { includeDeclaration: true } }],
    ['textDocument/documentHighlight', { textDocument, position }],
    ['textDocument/prepareRename', { textDocument, position }],
    ['textDocument/rename', { textDocument, position, newName: dice.of(['fresh', 'panel', '9', 'back', '']) }],
    ['textDocument/documentSymbol', { textDocument }],
    ['textDocument/foldingRange', { textDocument }],
    ['textDocument/selectionRange', { textDocument, positions: [position] }],
    ['textDocument/semanticTokens/full', { textDocument }],
    ['textDocument/inlayHint', { textDocument, range }],
    ['textDocument/codeLens', { textDocument }],
    ['textDocument/documentLink', { textDocument }],
    ['textDocument/formatting', { textDocument, options }],
    ['textDocument/rangeFormatting', { textDocument, range, options }],
    ['textDocument/codeAction', { textDocument, range, context: { diagnostics: [] } }],
    [SCENE, { uri, preview: 'fuzz', view, have: dice.below(3) }],
    [KEYS_AT, { uri, preview: 'fuzz', view, position }],
    [PLACE_OF, { preview: 'fuzz', view, key: dice.of(['panel:a', 'nothing', '']) }],
    [PAGE, { uri, page: dice.of(['bend plan', 'fill test']) }],
    [CHECK, { uris: [uri] }],
    ['workspace/symbol', { query: dice.of(['', 'fl', 'drain']) }],
  ];
};

/** A bending order that is decided in the quiet may have come in between, and what accepts it. */
const OF_THE_QUIET = new Set<unknown>(['make/no-bending-order', 'make/order-not-decided', 'accept/unused']);

/** Findings name files, and a text may use itself: the fresh one has the same name. */
const differences = (shown: readonly Diagnostic[], text: string, name: string): readonly string[] => {
  const { LangiumDocuments } = testServices().shared.workspace;
  const analysis = analysed(text, name);
  const fresh = [...toDiagnostics(LangiumDocuments, analysis), ...unusedNames(LangiumDocuments, analysis.document)];
  const [here, there] = [shown, fresh].map((list) =>
    list
      .filter(({ code }) => !OF_THE_QUIET.has(code))
      .map(
        ({ code, message, range: { start, end } }) =>
          `${code} ${start.line}:${start.character}-${end.line}:${end.character} ${message}`,
      ),
  );
  const odd = [...here.filter((each) => !there.includes(each)), ...there.filter((each) => !here.includes(each))];
  return odd.length === 0 ? [] : [`edits: not as a fresh run: ${odd[0].split(' ')[0]}`];
};
