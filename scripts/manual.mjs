/**
 * Makes the manual from the program and the pages beside it. Called by the build for `dist/pages/manual`, as the extension reads it;
 * `node scripts/manual.mjs FOLDER` writes it as a site of plain HTML, with the pages of all checks.
 */
import { build } from 'esbuild';
import MarkdownIt from 'markdown-it';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const root = path.dirname(import.meta.dirname);
const at = (...parts) => path.join(root, ...parts);

const SCHEMAS = {
  report: 'src/analysis/report/report.schema.json',
  check: 'src/language/cli/check.schema.json',
  solve: 'src/language/cli/solve.schema.json',
  'any command that fails': 'src/language/cli/failure.schema.json',
};

/** Pages of the manual, by their path below it. */
export const manualPages = async () => {
  const { outputFiles } = await build({
    entryPoints: [at('src/language/manual/reference.ts')],
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'node',
    logLevel: 'warning',
    banner: { js: 'import { createRequire } from "node:module"; const require = createRequire("file:///");' },
  });
  const made = await import(`data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`);
  const schemas = Object.fromEntries(
    Object.entries(SCHEMAS).map(([command, file]) => [command, JSON.parse(readFileSync(at(file), 'utf8'))]),
  );
  const grammar = readFileSync(at('src/language/tub.langium'), 'utf8');
  const written = readdirSync(at('src/language/manual/pages')).map((name) => ({
    path: name,
    text: readFileSync(at('src/language/manual/pages', name), 'utf8'),
  }));
  const checkPage = (code) => checkPages().find(({ path: name }) => name === `${code}.md`).text;
  return [...written, ...made.referencePages({ grammar, schemas, checkPage })];
};

/** Pages of the checks and of what a text can have wrong, by their path. */
const checkPages = () =>
  [at('src', 'analysis', 'rules'), at('src', 'language', 'findings')].flatMap((folder) =>
    readdirSync(folder, { recursive: true })
      .filter((name) => name.endsWith('.md'))
      .map((name) => ({ path: name, text: readFileSync(path.join(folder, name), 'utf8') })),
  );

const STYLE =
  'body{max-width:46rem;margin:2rem auto;padding:0 1rem;font:16px/1.5 system-ui,sans-serif;color:#1b2a30;background:#fff}' +
  'pre,code{font-family:ui-monospace,monospace;font-size:.92em;background:#eef3f4}pre{padding:.7rem;overflow:auto}' +
  'table{border-collapse:collapse;display:block;overflow:auto}td,th{border:1px solid #b9c7cc;padding:.25rem .5rem;text-align:left;vertical-align:top}' +
  'a{color:#0b5a7a}nav{margin-bottom:1.5rem}@media(prefers-color-scheme:dark){body{color:#e4edf0;background:#14201f}pre,code{background:#20302f}a{color:#7cc7e6}td,th{border-color:#41565c}}';

const site = async (folder) => {
  const markdown = new MarkdownIt({ html: false, linkify: false });
  const slug = (text) =>
    text
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N} -]/gu, '')
      .trim()
      .replaceAll(' ', '-');
  markdown.renderer.rules.heading_open = (tokens, i) => `<${tokens[i].tag} id="${slug(tokens[i + 1].content)}">`;
  const pages = [...(await manualPages()).map((page) => ({ ...page, path: `manual/${page.path}` })), ...checkPages()];
  for (const { path: name, text } of pages) {
    const file = path.join(folder, name.replace(/\.md$/, '.html'));
    const home = path.posix.relative(path.posix.dirname(name), 'manual/index.html');
    const title = /^# (.*)$/m.exec(text)?.[1] ?? name;
    const body = markdown.render(text.replaceAll(/\]\(([^)\s]+)\.md(#[^)\s]*)?\)/g, ']($1.html$2)'));
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(
      file,
      `<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${markdown.utils.escapeHtml(title)}</title><style>${STYLE}</style></head><body><nav><a href="${home}">Manual</a></nav><main>\n${body}</main></body></html>\n`,
    );
  }
  writeFileSync(
    path.join(folder, 'index.html'),
    '<!doctype html><meta charset="utf-8"><title>Manual</title><meta http-equiv="refresh" content="0;url=manual/index.html"><a href="manual/index.html">Manual</a>\n',
  );
  return pages.length;
};

if (process.argv[1] === import.meta.filename) {
  const folder = process.argv[2];
  if (folder === undefined) {
    console.error('Say where the site goes: npm run manual -- FOLDER');
    process.exit(2);
  }
  console.log(`${await site(path.resolve(folder))} pages in ${folder}`);
}
