import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Hover } from 'vscode-languageserver';
import type { CompletionList, MarkupContent } from 'vscode-languageserver-types';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';

const TEXT = `units mm
/** ![picture](http://nowhere.example/seen.png) <img src=x> [go](command:quit)
 * \`\`\`two\`\`\` www.nowhere.example # not a heading
 */
let wide = 100
let half = wide / 2
`;

let client: LspClient;
let uri: string;

beforeAll(async () => {
  client = await connectInProcess({});
  uri = await client.open('notes.tub', TEXT);
});
afterAll(() => client.close());

/** Every sign that Markdown could read a picture, a link, a tag or code out of stands behind a backslash. */
const isLiteral = (markdown: string): boolean =>
  /seen/.test(markdown) && !/(?<!\\)[[\]<>]|(?<!\\)`{3}|http:|(?<!\\)\.png/.test(markdown);

describe('what a builder wrote before a statement', () => {
  test('is shown by its hover letter for letter, and nothing in it is read as Markdown', async () => {
    const position = client.position(uri, 'wide =');
    const hover = await client.request<Hover>('textDocument/hover', { textDocument: { uri }, position });
    expect((hover.contents as MarkupContent).value).toSatisfy(isLiteral);
  });

  test('is shown by completion in the same way', async () => {
    const position = client.position(uri, 'wide / 2');
    const list = await client.request<CompletionList>('textDocument/completion', { textDocument: { uri }, position });
    const item = list.items.find(({ label }) => label === 'wide')!;
    expect((item.documentation as MarkupContent).value).toSatisfy(isLiteral);
  });
});
