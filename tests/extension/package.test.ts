/** What the package promises is there: commands, files, words, settings; and the browser's bundles need nothing of Node. */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import path from 'node:path';
import { build } from 'esbuild';
import { describe, expect, test } from 'vitest';
import { rules } from '../../src/analysis/rules/registry.js';

const root = path.resolve(import.meta.dirname, '../..');
const read = (name: string): string => readFileSync(path.join(root, name), 'utf8');
const manifest = JSON.parse(read('package.json')) as {
  readonly icon: string;
  readonly categories: readonly string[];
  readonly activationEvents: readonly string[];
  readonly contributes: {
    readonly commands: readonly { readonly command: string; readonly title: string; readonly category: string }[];
    readonly menus: Readonly<Record<string, readonly { readonly command: string }[]>>;
    readonly keybindings: readonly { readonly command: string }[];
    readonly configuration: {
      readonly properties: Readonly<
        Record<string, { readonly markdownDescription?: string; readonly default?: unknown }>
      >;
    };
    readonly walkthroughs: readonly {
      readonly steps: readonly {
        readonly description: string;
        readonly media: { readonly markdown?: string; readonly image?: string };
        readonly completionEvents: readonly string[];
      }[];
    }[];
    readonly problemMatchers: readonly {
      readonly name: string;
      readonly pattern: Readonly<Record<'file' | 'line' | 'severity' | 'code', number>> & { readonly regexp: string };
    }[];
    readonly semanticTokenTypes: readonly { readonly id: string }[];
  };
};

describe('commands', () => {
  const registered = [...read('src/extension/commands/register.ts').matchAll(/^ {4}(\w+)(?::|,)/gm)].map(
    ([, name]) => `tubwright.${name}`,
  );
  const contributed = manifest.contributes.commands.map(({ command }) => command);

  /** Called by code actions only. */
  const INNER = ['tubwright.selectText', 'tubwright.renameAt'];

  test('each that is offered exists, and each that exists is offered, in one group', () => {
    expect([...contributed].sort()).toEqual(registered.filter((name) => !INNER.includes(name)).sort());
    expect(new Set(manifest.contributes.commands.map(({ category }) => category))).toEqual(new Set(['Tubwright']));
  });

  test('menus, keys and the walkthrough name commands that exist', () => {
    const steps = manifest.contributes.walkthroughs.flatMap((each) => each.steps);
    const named = [
      ...Object.values(manifest.contributes.menus)
        .flat()
        .map(({ command }) => command),
      ...manifest.contributes.keybindings.map(({ command }) => command),
      ...steps.flatMap(({ description }) => [...description.matchAll(/\(command:([\w.]+)\)/g)].map(([, name]) => name)),
    ];
    expect(named.filter((name) => !contributed.includes(name))).toEqual([]);
  });

  test('a step of the walkthrough is ticked by what is done, not by what is tried', () => {
    const events = manifest.contributes.walkthroughs
      .flatMap(({ steps }) => steps)
      .flatMap(({ completionEvents }) => completionEvents);
    const steps = /tick = \(step: ([^)]*)\)/.exec(read('src/extension/done.ts'))?.[1].match(/\w+/g);
    expect(events).toEqual(steps?.map((step) => `onContext:tubwright.${step}`));
  });
});

test('every setting is explained and has a default', () => {
  for (const [name, setting] of Object.entries(manifest.contributes.configuration.properties)) {
    expect(name).toMatch(/^tubwright\.\w+\.\w+$/);
    expect(setting.markdownDescription?.length).toBeGreaterThan(20);
    expect(setting).toHaveProperty('default');
  }
});

test('every file that the package names is there', () => {
  const files = [
    ...JSON.stringify(manifest).matchAll(/"(?:path|icon|configuration|markdown|image|light|dark)":"([^"$]+)"/g),
  ].map(([, file]) => file);
  expect(files.filter((file) => !existsSync(path.join(root, file)))).toEqual([]);
});

test('every check has the page that its explanation opens', () => {
  expect(
    rules
      .filter(({ code }) => !existsSync(path.join(root, 'src/analysis/rules', `${code}.md`)))
      .map(({ code }) => code),
  ).toEqual([]);
});

describe('bundles for the browser', () => {
  const needs = async (entry: string, external: string[]): Promise<string[]> => {
    const { metafile } = await build({
      entryPoints: [path.join(root, entry)],
      bundle: true,
      write: false,
      metafile: true,
      platform: 'browser',
      format: 'cjs',
      external,
      mainFields: ['browser', 'module', 'main'],
      outdir: 'unused',
      logLevel: 'silent',
      absWorkingDir: root,
    });
    return Object.values(metafile.outputs).flatMap(({ imports }) =>
      imports.filter((each) => each.external).map((each) => each.path),
    );
  };

  test.each([
    ['the language server in its worker', 'src/language/hosts/browser.ts', []],
    ['the extension', 'src/extension/main.web.ts', ['vscode']],
    ['the preview', 'src/extension/webview/main.ts', []],
  ])('%s imports no module of Node', async (_name, entry, external) => {
    const imports = await needs(entry, external);
    expect(imports.filter((each) => each.startsWith('node:') || builtinModules.includes(each))).toEqual([]);
    expect(new Set(imports)).toEqual(new Set(external));
  });
});

test('the preview page allows no network and no inline code', () => {
  const page = read('src/extension/preview/page.ts');
  expect(page).toContain(`"default-src 'none'"`);
  expect(page).not.toMatch(/unsafe-inline|unsafe-eval|connect-src|https?:/);
  const scripts = readdirSync(path.join(root, 'src/extension/webview'), { recursive: true, encoding: 'utf8' }).filter(
    (name) => name.endsWith('.ts'),
  );
  for (const name of scripts)
    expect(read(path.join('src/extension/webview', name))).not.toMatch(
      /\bfetch\(|XMLHttpRequest|WebSocket|innerHTML|\beval\(/,
    );
});

test('the licence of every package that is bundled is shipped', () => {
  const meta = path.join(root, 'dist', 'meta');
  const inputs = readdirSync(meta).flatMap((name) =>
    Object.keys((JSON.parse(read(`dist/meta/${name}`)) as { readonly inputs: object }).inputs),
  );
  const bundled = new Set(inputs.flatMap((input) => /.*\bnode_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(input)?.[1] ?? []));
  expect(bundled.size).toBeGreaterThan(20);
  const notices = read('dist/THIRD-PARTY-NOTICES.txt').split(/^-{80}$/m);
  const told = new Set(notices.slice(1).map((notice) => notice.trim().split(' ')[0]));
  expect([...told].sort()).toEqual([...bundled].sort());
  for (const notice of notices.slice(1)) expect(notice).toMatch(/licen[cs]e|copyright|permission|unlicense/i);
  expect(read('.vscodeignore')).toContain('!dist/THIRD-PARTY-NOTICES.txt');
});

test('every package that a file imports is declared', () => {
  const { dependencies, devDependencies } = JSON.parse(read('package.json')) as Record<string, Record<string, string>>;
  const importsOf = (folder: string): readonly string[] =>
    readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.(ts|mjs)$/.test(name) && !name.startsWith('generated'))
      .flatMap((name) =>
        [...read(path.join(folder, name)).matchAll(/^(?:import|export)[^;]*? from '((?:@[\w.-]+\/)?[\w.-]+)/gm)].map(
          ([, from]) => from,
        ),
      )
      .filter((from) => !from.startsWith('.') && from !== 'node' && from !== 'vscode');
  /** Nothing is left of a package that is types alone once it is bundled. */
  const isOfTypes = (name: string): boolean => `@types/${name}` in devDependencies && !(name in devDependencies);
  const shipped = new Set(importsOf('src'));
  expect([...shipped].filter((name) => !(name in dependencies) && !isOfTypes(name))).toEqual([]);
  const all = new Set(['tests', 'bench', 'fuzz', 'scripts'].flatMap(importsOf));
  const declared = { ...dependencies, ...devDependencies };
  expect([...all].filter((name) => !(name in declared) && !isOfTypes(name))).toEqual([]);
});

describe('the page for galleries', () => {
  const gallery = read('media/gallery.md');
  const targets = [...gallery.matchAll(/\]\(([^)\s]+)\)/g)].map(([, target]) => target);

  test('is what the package ships, and all it points at goes with it', () => {
    expect(read('package.json')).toContain('--readme-path media/gallery.md');
    expect(targets.filter((target) => target.endsWith('.png'))).toHaveLength(3);
    const shipped = read('.vscodeignore')
      .split('\n')
      .filter((line) => line.startsWith('!'))
      .map((line) => new RegExp(`^${line.slice(1).replaceAll('.', '\\.').replaceAll('*', '[^/]*')}$`));
    expect(targets.filter((target) => !existsSync(path.join(root, target)))).toEqual([]);
    expect(targets.filter((target) => !shipped.some((pattern) => pattern.test(target)))).toEqual([]);
  });

  test('names only commands that there are', () => {
    const titles = manifest.contributes.commands.map(({ title }) => title.replace(/\u2026$/, ''));
    const told = [...gallery.matchAll(/\*Tubwright: ([^*]+?)\u2026?\*/g)].map(([, title]) => title);
    expect(told.length).toBeGreaterThan(1);
    expect(told.filter((title) => !titles.includes(title))).toEqual([]);
  });
});

test('the problem matcher reads what the command line prints', () => {
  const [{ name, pattern }] = manifest.contributes.problemMatchers;
  const cli = path.join(root, 'dist/cli.cjs');
  const { stdout } = spawnSync(process.execPath, [cli, 'check', 'samples/faults-shop.tub', '--color', 'never'], {
    cwd: root,
    encoding: 'utf8',
  });
  const found = stdout.split('\n').flatMap((line) => {
    const match = new RegExp(pattern.regexp).exec(line);
    return match ? [[pattern.file, pattern.line, pattern.severity, pattern.code].map((group) => match[group])] : [];
  });
  const told = JSON.parse(
    spawnSync(process.execPath, [cli, 'check', 'samples/faults-shop.tub', '--json'], { cwd: root, encoding: 'utf8' })
      .stdout,
  ) as {
    files: { file: string; findings: { code: string; severity: string; range: { start: { line: number } } }[] }[];
  };
  const [{ file, findings }] = told.files;
  expect(name).toBe('tubwright');
  expect(found.length).toBeGreaterThan(5);
  expect(found).toEqual(
    findings.map(({ code, severity, range }) => [file, String(range.start.line + 1), severity, code]),
  );
  expect(read('src/language/manual/pages/command-line.md')).toContain(`"problemMatcher": "$${name}"`);
});
