import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

/** Set by the bundler. */
declare const PROJECT_ROOT: string;

export interface Seed {
  /** Below the root of the project. */
  readonly name: string;
  readonly text: string;
}

const tubsUnder = (folder: string): readonly Seed[] =>
  readdirSync(path.join(PROJECT_ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.tub'))
    .sort()
    .map((name) => ({
      name: path.posix.join(folder, name.replaceAll(path.sep, '/')),
      text: readFileSync(path.join(PROJECT_ROOT, folder, name), 'utf8'),
    }));

/** Texts that once were too much; each is tried again first. */
export const corpus = (): readonly Seed[] => tubsUnder(CORPUS);
export const samples = (): readonly Seed[] => tubsUnder('samples');
export const fixtures = (): readonly Seed[] => tubsUnder('tests/fixtures');

export const CORPUS = 'fuzz/corpus';
export const inCorpus = (name: string): string => path.join(PROJECT_ROOT, CORPUS, name);
