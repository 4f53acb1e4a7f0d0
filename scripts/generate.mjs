/**
 * Makes what is generated: the parser (by langium-cli) and the TextMate grammar.
 * With --check nothing is written; it fails when the committed TextMate grammar is not what the language grammar gives.
 */
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { textmateGrammar } from './textmate.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const grammarFile = join(root, 'src/language/tub.langium');
const textmateFile = join(root, 'syntaxes/tub.tmLanguage.json');

const textmate = `${JSON.stringify(textmateGrammar(readFileSync(grammarFile, 'utf8')), undefined, 2)}\n`;

if (process.argv.includes('--check')) {
  if (readFileSync(textmateFile, 'utf8') !== textmate) {
    console.error('syntaxes/tub.tmLanguage.json is stale: run npm run generate');
    process.exit(1);
  }
} else {
  // The reader of its configuration resolves addresses against `thismessage::/`, which Node 24 no longer takes for one.
  const ADDRESSES = `
    const Plain = globalThis.URL;
    globalThis.URL = class URL extends Plain {
      constructor(to, from) { super(to, from === 'thismessage::/' ? 'thismessage:///' : from); }
    };`;
  const preload = `data:text/javascript,${encodeURIComponent(ADDRESSES)}`;
  execFileSync(process.execPath, ['--import', preload, 'node_modules/langium-cli/bin/langium.js', 'generate'], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  writeFileSync(textmateFile, textmate);
}
