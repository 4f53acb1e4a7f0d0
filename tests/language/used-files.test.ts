import { DocumentState, URI, type LangiumDocument } from 'langium';
import { beforeEach, describe, expect, test } from 'vitest';
import { setWorkspaceFolders } from '../../src/language/workspace/imports.js';
import { createTubServices } from '../../src/language/tub-module.js';
import { analyseText, codesOf } from '../support/analyse-text.js';
import { MemoryFiles } from '../support/memory-files.js';
import type { Services } from '../../src/language/services.js';

const MAIN = 'units mm\nuse "middle.tub"\npanel base of skin = A B C\n';
const MIDDLE = 'units mm\nuse "leaf.tub"\nsheet skin = stainless 18 ga radius 1.2\n';
const LEAF = 'units mm\npoint A = (0, 0, 0)  point B = (100, 0, 0)  point C = (100, 100, 0)\n';

describe('files that use files', () => {
  test('take in names through any number of files, each with its own units', () => {
    const leaf = 'units in\npoint A = (0, 0, 0)  point B = (10, 0, 0)  point C = (10, 10, 0)\n';
    const analysis = analyseText(MAIN, { files: { 'middle.tub': MIDDLE, 'leaf.tub': leaf }, rules: [] });
    expect(analysis.findings).toEqual([]);
    expect(analysis.tub.panels[0].corners[1]).toEqual([254, 0, 0]);
  });

  test('take in the shop', () => {
    const shop = 'units mm\nshop "bench" { stock stainless 18 ga 1220 by 2440 }\n';
    const { tub } = analyseText('use "shop.tub"\n', { files: { 'shop.tub': shop }, rules: [] });
    expect(tub.shop).toMatchObject({ name: 'bench', stock: [{ size: [1220, 2440] }] });
  });

  test('of two shops the nearest judges, with its own machines only, and it is said which', () => {
    const press = (tons: number): string =>
      `press brake p { force ${tons} ton bed 1250 die 8 16 punch radius 1 nose 30 deg depth 120 opening 200 }`;
    const text = `units mm
use "shop.tub"
sheet skin = steel thickness 1.5 radius 1.5
strip floor of skin from (0, 60, 60) heading front across right 500 {
  panel back to z 0 falling 90 deg
  panel base 60 level
}
shop "own" { ${press(1)} }
`;
    const analysis = analyseText(text, { files: { 'shop.tub': `units mm\nshop "home" { ${press(30)} }\n` } });
    expect(analysis.tub.shop).toMatchObject({ name: 'own', pressBrakes: [{ name: 'p' }] });
    expect(codesOf(analysis)).toContain('make/force-too-high');
    expect(codesOf(analysis)).toContain('use/set-aside');
  });

  test('tell their own faults of the text, and nothing of what they leave without a name', () => {
    const shop = 'units mm\nshop "bench" { rates { cut 2 m/min sheet 6 } }\n';
    const { findings } = analyseText('use "shop.tub"\n', { files: { 'shop.tub': shop }, rules: [] });
    expect(findings.map(({ code }) => code)).toContain('use/has-errors');
    expect(findings.filter(({ message }) => message.includes('undefined'))).toEqual([]);
  });

  test('do not see names of files that they do not use', () => {
    const analysis = analyseText(MAIN, {
      files: { 'middle.tub': 'sheet skin = steel 18 ga\n', 'leaf.tub': LEAF },
      rules: [],
    });
    expect(codesOf(analysis)).toEqual(['text/unknown-name', 'text/unknown-name', 'text/unknown-name']);
  });

  test('may hide a value of a used file, but not one of its parts', () => {
    const files = { 'other.tub': 'let w = 5 mm\ntank catch 60 L working 40 L\n' };
    const analysis = analyseText('use "other.tub"\nlet w = 7 mm\nlet v = w\ntank catch 50 L working 40 L\n', {
      files,
      rules: [],
    });
    expect(analysis.tub.parameters.find(({ name }) => name === 'v')?.value).toBe(7);
    expect(codesOf(analysis)).toEqual(['text/duplicate-name']);
  });

  test('say at the `use` what a used file has wrong', () => {
    const analysis = analyseText('use "other.tub"\n', { files: { 'other.tub': 'let w = 5 mm + 1 deg\n' }, rules: [] });
    expect(codesOf(analysis)).toEqual(['unit/mixed']);
    expect(analysis.sources.place(analysis.findings[0].at)?.document.uri.path).toBe('/bench/other.tub');
  });
});

describe('in an editor', () => {
  let files: MemoryFiles;
  let services: Services;
  const uriOf = (name: string): URI => URI.parse(`file:///bench/${name}`);
  const documentOf = (name: string): LangiumDocument =>
    services.shared.workspace.LangiumDocuments.getDocument(uriOf(name))!;
  const codesIn = (name: string): readonly unknown[] =>
    (documentOf(name).diagnostics ?? []).filter(({ severity }) => severity === 1).map(({ code }) => code);

  const put = (name: string, text: string): void => files.set(uriOf(name), text);

  /** Opens `main.tub`; the others are read when it uses them. */
  const open = async (texts: Readonly<Record<string, string>>): Promise<void> => {
    for (const [name, text] of Object.entries(texts)) put(name, text);
    await change('main.tub', texts['main.tub']);
  };

  const change = async (name: string, text: string): Promise<void> => {
    put(name, text);
    await services.shared.workspace.DocumentBuilder.update([uriOf(name)], []);
  };

  beforeEach(() => {
    files = new MemoryFiles();
    services = createTubServices({ fileSystemProvider: () => files });
    setWorkspaceFolders(services.shared.workspace.LangiumDocuments, [URI.parse('file:///bench')]);
    services.shared.workspace.DocumentBuilder.updateBuildOptions = { validation: true };
  });

  test('a change at the end of a chain of uses is judged again at its start', async () => {
    await open({ 'main.tub': MAIN, 'middle.tub': MIDDLE, 'leaf.tub': LEAF });
    expect(codesIn('main.tub')).not.toContain('text/unknown-name');
    await change('leaf.tub', LEAF.replace('point C', 'point D'));
    expect(codesIn('main.tub')).toContain('text/unknown-name');
    await change('leaf.tub', LEAF);
    expect(codesIn('main.tub')).not.toContain('text/unknown-name');
  });

  test('a file that nobody uses is not judged again', async () => {
    await open({ 'main.tub': 'let a = 1 mm\n' });
    await change('other.tub', 'let b = 2 mm\n');
    const before = documentOf('main.tub').diagnostics;
    await change('other.tub', 'let b = 3 mm + 1 deg\n');
    expect(documentOf('main.tub').diagnostics).toBe(before);
    expect(codesIn('other.tub')).toEqual(['unit/mixed']);
  });

  test('a file that comes to be ends the finding that it is missing', async () => {
    await open({ 'main.tub': 'use "late.tub"\nlet a = w + 1 mm\n' });
    expect(codesIn('main.tub')).toEqual(['use/missing-file', 'text/unknown-name']);
    await change('late.tub', 'let w = 2 mm\n');
    expect(codesIn('main.tub')).toEqual([]);
  });

  test('typing on while it is checked leaves the findings of the last text', async () => {
    await open({ 'main.tub': MAIN, 'middle.tub': MIDDLE, 'leaf.tub': LEAF });
    const { WorkspaceLock, DocumentBuilder } = services.shared.workspace;
    const texts = ['let a = 1 mm + 1 deg\n', 'let a = (\n', 'let a = 1 mm / 0\n'];
    await Promise.all(
      texts.map((text) => {
        put('main.tub', text);
        return WorkspaceLock.write((token) => DocumentBuilder.update([uriOf('main.tub')], [], token));
      }),
    );
    expect(documentOf('main.tub').state).toBe(DocumentState.Validated);
    expect(codesIn('main.tub')).toEqual(['value/not-a-number']);
  });
});
