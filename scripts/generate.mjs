/**
 * Makes what is generated: the parser (by langium-cli), the pages that explain findings, and the TextMate grammar.
 * With --check nothing is written; it fails when the committed TextMate grammar is not what the language grammar gives.
 */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { textmateGrammar } from './textmate.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const grammarFile = join(root, 'src/language/tub.langium');
const textmateFile = join(root, 'syntaxes/tub.tmLanguage.json');
const pagesFile = join(root, 'src/language/generated/pages.ts');

/** Folders with one page per finding, as `<family>/<slug>.md`. */
const pageFolders = ['src/analysis/rules', 'src/language/findings'].map((folder) => join(root, folder));

const pagesIn = (folder) =>
  readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .flatMap((family) =>
      readdirSync(join(folder, family.name))
        .filter((name) => name.endsWith('.md'))
        .map((name) => [`${family.name}/${name.slice(0, -3)}`, readFileSync(join(folder, family.name, name), 'utf8')]),
    );

const pagesModule = () => {
  const pages = pageFolders.flatMap(pagesIn).sort(([a], [b]) => (a < b ? -1 : 1));
  const lines = pages.map(([code, text]) => `  ${JSON.stringify(code)}: ${JSON.stringify(text)},`);
  return `/** Generated from the pages beside the checks: do not edit. */\nexport const pages: Readonly<Record<string, string>> = {\n${lines.join('\n')}\n};\n`;
};

const textmate = `${JSON.stringify(textmateGrammar(readFileSync(grammarFile, 'utf8')), undefined, 2)}\n`;

if (process.argv.includes('--check')) {
  if (readFileSync(textmateFile, 'utf8') !== textmate) {
    console.error('syntaxes/tub.tmLanguage.json is stale: run npm run generate');
    process.exit(1);
  }
} else {
  // The generator asks before it writes beside a file that it does not know, and gives up where nobody answers.
  rmSync(pagesFile, { force: true });
  execFileSync(process.execPath, [join(root, 'node_modules/langium-cli/bin/langium.js'), 'generate'], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  writeFileSync(pagesFile, pagesModule());
  writeFileSync(textmateFile, textmate);
}
