/**
 * The sources as modules of Node itself, for tests: each file is translated once, when it changes, and kept in `.cache`. Through
 * the module runner of vitest every name that is imported costs a call at each use, and every file a start of its own.
 */
import { build } from 'esbuild';
import { copyFileSync, mkdirSync, readdirSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vitest/config';
import type { TestProject } from 'vitest/node';

const root = fileURLToPath(new URL('../..', import.meta.url));
const SOURCES = join(root, 'src');
/** Those of `npm run mutate` are there already. */
const MADE = process.env.TUBWRIGHT_SOURCES;
const TRANSLATED = join(root, MADE ?? '.cache/sources');
/** Tests put a stand-in for the editor into these, which only the module runner can do. */
const THROUGH_RUNNER = join(SOURCES, 'extension') + sep;
/** What a source reads from beside itself. */
const READ = /\.(ttf|woff)$/;

/** Takes what tests import of the sources from where it lies translated. */
export const nativeSources = (): Plugin => ({
  name: 'native-sources',
  enforce: 'pre',
  config: () => ({ test: { server: { deps: { external: [/\.cache[\\/]sources/] } } } }),
  resolveId(id, importer) {
    if (importer === undefined || !id.startsWith('.') || !id.endsWith('.js')) return undefined;
    const file = resolve(dirname(importer), id);
    if (!file.startsWith(SOURCES + sep) || file.startsWith(THROUGH_RUNNER)) return undefined;
    return join(TRANSLATED, file.slice(SOURCES.length));
  },
});

/** Run by vitest before the first test, and again before each run of a watch. */
export const setup = async (project: TestProject): Promise<void> => {
  await translate();
  project.onTestsRerun(translate);
};

const translate = async (): Promise<void> => {
  if (MADE !== undefined) return;
  const sources = readdirSync(SOURCES, { recursive: true, encoding: 'utf8' });
  const code = sources.filter((file) => file.endsWith('.ts') && !file.endsWith('.d.ts'));
  forgetRemoved(new Set(code.map((file) => nameTranslated(file))));
  for (const file of sources) if (READ.test(file)) copy(file);
  const changed = code.filter((file) => !isSameAge(file));
  if (changed.length === 0) return;
  const { outputFiles } = await build({
    entryPoints: changed.map((file) => join(SOURCES, file)),
    outbase: SOURCES,
    outdir: TRANSLATED,
    format: 'esm',
    target: 'node20',
    sourcemap: 'linked',
    write: false,
  });
  for (const { path, contents } of outputFiles) write(path, contents);
  for (const file of changed) setAge(file);
};

const nameTranslated = (file: string): string => file.replace(/\.ts$/, '.js');

const placeOf = (file: string): string => join(TRANSLATED, nameTranslated(file));

/** By the age and not by which is newer: a source that was put back from a copy is older than its translation. */
const isSameAge = (file: string): boolean =>
  statSync(placeOf(file), { throwIfNoEntry: false })?.mtime.getTime() === statSync(join(SOURCES, file)).mtime.getTime();

const setAge = (file: string): void => {
  const { mtime } = statSync(join(SOURCES, file));
  utimesSync(placeOf(file), mtime, mtime);
};

const copy = (file: string): void => {
  if (isSameAge(file)) return;
  mkdirSync(dirname(placeOf(file)), { recursive: true });
  copyFileSync(join(SOURCES, file), placeOf(file));
  setAge(file);
};

/** In one step, as another run may be reading. */
const write = (path: string, contents: Uint8Array): void => {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(`${path}.${process.pid}`, contents);
  renameSync(`${path}.${process.pid}`, path);
};

/** A source that is gone must not be found by what still imports it. */
const forgetRemoved = (there: ReadonlySet<string>): void => {
  mkdirSync(TRANSLATED, { recursive: true });
  for (const file of readdirSync(TRANSLATED, { recursive: true, encoding: 'utf8' })) {
    if (file.endsWith('.js') && !there.has(file)) rmSync(join(TRANSLATED, file));
  }
};
