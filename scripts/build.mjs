// Bundles everything that runs into dist/. Usage: node scripts/build.mjs [--dev] [--to=FOLDER] [name ...]
//   --to: bundles only, into that folder.
//   --dev: readable, with source maps. Names: only those bundles (extension, server, cli, pdf-writer, nest-worker, extension.web, server.worker, webview).
import { build } from 'esbuild';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { manualPages } from './manual.mjs';
import { noticesOf, packagesIn } from './notices.mjs';

const root = path.dirname(import.meta.dirname);
const at = (...parts) => path.join(root, ...parts);
const dev = process.argv.includes('--dev');
const elsewhere = process.argv.find((argument) => argument.startsWith('--to='))?.slice('--to='.length);
const only = process.argv.slice(2).filter((argument) => !argument.startsWith('-'));

const { version } = JSON.parse(readFileSync(at('package.json'), 'utf8'));

const shared = {
  bundle: true,
  minify: !dev,
  sourcemap: dev,
  logLevel: 'warning',
  target: 'es2022',
  // Their licences are shipped whole, in one file.
  legalComments: 'none',
  metafile: true,
  mainFields: ['module', 'main'],
  absWorkingDir: root,
  // Asked for in two ways, it would be bundled in both of its forms.
  alias: { 'vscode-languageserver-types': at('node_modules', 'vscode-languageserver-types', 'lib', 'esm', 'main.js') },
};
const node = { ...shared, platform: 'node', format: 'cjs', target: 'node20' };
const browser = {
  ...shared,
  platform: 'browser',
  mainFields: ['browser', 'module', 'main'],
  define: { global: 'globalThis' },
};

/** The PDF writer is a bundle of its own beside those that use it: large, and loaded only when a PDF is made. */
const pdfApart = {
  name: 'pdf-apart',
  setup: ({ onResolve }) =>
    onResolve({ filter: /\/pdf-writer\.js$/ }, () => ({ path: './pdf-writer.cjs', external: true })),
};

/** Libraries that are modules ask where they lie; a bundle of the older kind does not know it by itself. */
const BUNDLE_URL = 'const bundleUrl = require("node:url").pathToFileURL(__filename).href;';
const bundleUrl = { 'import.meta.url': 'bundleUrl' };

/** What reads web fonts of the second kind holds a dictionary as large as all else; the fonts of papers are none of these. */
const noBrotli = {
  name: 'no-brotli',
  setup: ({ onResolve, onLoad }) => {
    onResolve({ filter: /^brotli\// }, ({ path: asked }) => ({ path: asked, namespace: 'left-out' }));
    onLoad({ filter: /./, namespace: 'left-out' }, () => ({
      contents: 'module.exports = () => { throw new Error("No fonts of this kind are read"); };',
    }));
  },
};

/** The library as for a browser: it reads nothing of its own folder. The fonts lie in a folder beside the bundle. */
const pdfWriter = {
  entryPoints: ['src/language/hosts/pdf-writer.ts'],
  banner: { js: BUNDLE_URL },
  define: bundleUrl,
  alias: { ...shared.alias, pdfkit: at('node_modules', 'pdfkit', 'js', 'pdfkit.browser.mjs') },
  plugins: [noBrotli],
};

const bundles = {
  extension: { ...node, entryPoints: ['src/extension/main.ts'], outfile: 'dist/extension.cjs', external: ['vscode'] },
  server: { ...node, entryPoints: ['src/language/hosts/node.ts'], outfile: 'dist/server.cjs', plugins: [pdfApart] },
  cli: {
    ...node,
    entryPoints: ['src/language/hosts/cli.ts'],
    outfile: 'dist/cli.cjs',
    plugins: [pdfApart],
    banner: { js: `#!/usr/bin/env node\n${BUNDLE_URL}` },
    define: { ...bundleUrl, TUBWRIGHT_VERSION: JSON.stringify(version) },
  },
  'pdf-writer': { ...node, ...pdfWriter, outfile: 'dist/pdf-writer.cjs' },
  'nest-worker': { ...node, entryPoints: ['src/language/hosts/nest-worker.ts'], outfile: 'dist/nest-worker.cjs' },
  'extension.web': {
    ...browser,
    format: 'cjs',
    entryPoints: ['src/extension/main.web.ts'],
    outfile: 'dist/extension.web.js',
    external: ['vscode'],
  },
  'server.worker': {
    ...browser,
    format: 'iife',
    entryPoints: ['src/language/hosts/browser.ts'],
    outfile: 'dist/server.worker.js',
  },
  webview: {
    ...browser,
    format: 'iife',
    entryPoints: { webview: 'src/extension/webview/main.ts', 'webview-style': 'src/extension/webview/style.css' },
    outdir: 'dist',
  },
};

/** The manual as the extension and the command line read it, and which pages it has, the first to be read first. */
const writeManual = async () => {
  const folder = at('dist', 'pages', 'manual');
  mkdirSync(folder, { recursive: true });
  const pages = await manualPages();
  for (const { path: name, text } of pages) writeFileSync(path.join(folder, name), text);
  const names = pages.map(({ path: name }) => name.replace(/\.md$/, ''));
  const first = ['index', 'tutorial', 'cookbook'];
  const ordered = [...first, ...names.filter((name) => !first.includes(name)).sort()];
  writeFileSync(path.join(folder, 'pages.json'), JSON.stringify(ordered));
};

/** The pages beside the checks, the samples and the schemas, as the extension reads and ships them. */
const copyPages = () => {
  const pages = at('dist', 'pages');
  rmSync(pages, { recursive: true, force: true });
  for (const folder of [at('src', 'analysis', 'rules'), at('src', 'language', 'findings')]) {
    for (const name of readdirSync(folder, { recursive: true })) {
      if (!name.endsWith('.md')) continue;
      mkdirSync(path.dirname(path.join(pages, name)), { recursive: true });
      cpSync(path.join(folder, name), path.join(pages, name));
    }
  }
  mkdirSync(at('dist', 'schemas'), { recursive: true });
  cpSync(at('src/analysis/report/report.schema.json'), at('dist', 'schemas', 'report.schema.json'));
  for (const name of ['check', 'solve', 'failure'])
    cpSync(at('src/language/cli', `${name}.schema.json`), at('dist', 'schemas', `${name}.schema.json`));
  const samples = at('samples');
  rmSync(at('dist', 'samples'), { recursive: true, force: true });
  if (existsSync(samples))
    cpSync(samples, at('dist', 'samples'), {
      recursive: true,
      filter: (from) => statSync(from).isDirectory() || from.endsWith('.tub'),
    });
};

const wanted = Object.entries(bundles).filter(
  ([name, { entryPoints }]) =>
    (only.length === 0 || only.includes(name)) &&
    Object.values(entryPoints ?? {}).every((file) => existsSync(at(file))),
);
const placed = (options) =>
  elsewhere === undefined
    ? options
    : {
        ...options,
        outfile: options.outfile && path.join(elsewhere, path.basename(options.outfile)),
        outdir: options.outdir && elsewhere,
      };
/** What every bundle is made of stays in dist/meta, which is not shipped. */
const writeNotices = (made) => {
  const meta = at('dist', 'meta');
  mkdirSync(meta, { recursive: true });
  for (const [name, { metafile }] of made) writeFileSync(path.join(meta, `${name}.json`), JSON.stringify(metafile));
  const all = readdirSync(meta).map((name) => JSON.parse(readFileSync(path.join(meta, name), 'utf8')));
  writeFileSync(at('dist', 'THIRD-PARTY-NOTICES.txt'), noticesOf(packagesIn(all).map((folder) => at(folder))));
};

/** Fonts as they came, and their licences. */
const copyFonts = () => {
  const fonts = elsewhere === undefined ? at('dist', 'fonts') : path.join(elsewhere, 'fonts');
  rmSync(fonts, { recursive: true, force: true });
  cpSync(at('src', 'language', 'hosts', 'fonts'), fonts, { recursive: true });
};

const made = await Promise.all(wanted.map(async ([name, options]) => [name, await build(placed(options))]));
if (wanted.some(([name]) => name === 'pdf-writer')) copyFonts();
if (elsewhere === undefined) {
  copyPages();
  await writeManual();
  writeNotices(made);
}
if (wanted.some(([name]) => name === 'cli'))
  chmodSync(elsewhere === undefined ? at('dist', 'cli.cjs') : path.join(elsewhere, 'cli.cjs'), 0o755);
