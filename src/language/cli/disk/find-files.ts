import { stat } from 'node:fs/promises';
import { isAbsolute, join } from 'node:path';
import { glob, isDynamicPattern } from 'tinyglobby';
import type { FoundFile } from '../command.js';

/** Folders of packages and hidden ones hold no tubs of the builder's own. */
const IGNORED = ['**/node_modules/**', '**/.*/**'];

/**
 * Each file once, in the order of the words: a file is itself, a folder all `.tub` files below it, a pattern those that fit it,
 * the last two sorted. A link to a folder is not followed, so that no round of links is endless.
 */
export const findFiles = async (words: readonly string[]): Promise<readonly FoundFile[]> => {
  const found = new Map<string, FoundFile>();
  for (const word of words) {
    for (const each of await filesOf(word)) found.set('file' in each ? each.file : `?${each.word}`, each);
  }
  return [...found.values()];
};

const filesOf = async (word: string): Promise<readonly FoundFile[]> => {
  if (word === '-') return [{ file: word }];
  const there = await stat(word).catch(() => undefined);
  if (there?.isDirectory()) return sorted(word, await tubsBelow(word), `There is no .tub file in ${word}`);
  if (there || !isDynamicPattern(word)) return [{ file: word }];
  const fitting = await glob(word.replaceAll('\\', '/'), {
    ignore: IGNORED,
    followSymbolicLinks: false,
    expandDirectories: false,
    absolute: isAbsolute(word),
  });
  return sorted(
    word,
    fitting.filter((file) => file.endsWith('.tub')),
    `No .tub file fits ${word}`,
  );
};

const tubsBelow = async (folder: string): Promise<readonly string[]> => {
  const names = await glob('**/*.tub', { cwd: folder, ignore: IGNORED, followSymbolicLinks: false });
  return names.map((name) => join(folder, name));
};

const sorted = (word: string, files: readonly string[], problem: string): readonly FoundFile[] =>
  files.length === 0 ? [{ word, problem }] : [...files].sort().map((file) => ({ file }));
