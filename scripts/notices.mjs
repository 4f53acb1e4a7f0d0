// The licences of everything that is bundled, as their authors ask for.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

/** Folders, below the root, of the packages that esbuild took files from, sorted by name. */
export const packagesIn = (metafiles) => {
  const folders = new Map();
  for (const { inputs } of metafiles)
    for (const input of Object.keys(inputs)) {
      const [, folder, name] = /^(.*\bnode_modules\/((?:@[^/]+\/)?[^/]+))\//.exec(input) ?? [];
      if (folder) folders.set(folder, name);
    }
  return [...folders].sort(([, a], [, b]) => (a < b ? -1 : 1)).map(([folder]) => folder);
};

const LICENCE = /^(licen[cs]e|copying|notice)/i;

/** Of one package: its name, version and the text that has to go with it. Throws where a package brings none. */
const noticeOf = (folder) => {
  const { name, version, license, author, homepage } = JSON.parse(
    readFileSync(path.join(folder, 'package.json'), 'utf8'),
  );
  const texts = readdirSync(folder)
    .filter((file) => LICENCE.test(file))
    .sort()
    .map((file) => readFileSync(path.join(folder, file), 'utf8').replaceAll('\r\n', '\n').trim());
  const who = typeof author === 'string' ? author : author?.name;
  if (texts.length === 0 && !license) throw new Error(`${name} says nothing of its licence`);
  if (texts.length === 0) texts.push([`Licence: ${license}`, who && `Author: ${who}`].filter(Boolean).join('\n'));
  const title = [`${name} ${version}`, license && `(${license})`, homepage].filter(Boolean).join(' ');
  return `${title}\n\n${texts.join('\n\n')}`;
};

/** The text that is shipped, of packages by their folders. */
export const noticesOf = (folders) => {
  const rule = `\n\n${'-'.repeat(80)}\n\n`;
  return [
    'Tubwright is built with the packages below. Each is its authors’ work, under the terms that follow its name.',
    ...folders.map(noticeOf),
  ]
    .join(rule)
    .concat('\n');
};
