/** An export against a file system that fails, or a process that dies, at every single call: all of it or none of it. */
import { describe, expect, it } from 'vitest';
import { CannotWrite, type Writer } from '../../src/files/file-store.js';
import { exportMark, isOwnExport } from '../../src/files/own-mark.js';
import { STAGING } from '../../src/files/staging.js';
import { writeSet, type WrittenSet } from '../../src/files/write-set.js';
import { casesOf } from '../support/cases.js';
import { Dead, MemoryFolder, memoryStore, type Fault, type MemoryStore, type Ways } from '../support/memory-store.js';

const isOwn = (bytes: Uint8Array, tub: string): boolean => isOwnExport(bytes, tub, []);

const setOf = (tub: string, texts: Readonly<Record<string, string>>) => ({
  tub,
  files: Object.entries(texts).map(([name, text]) => ({
    name,
    bytes: new TextEncoder().encode(`${exportMark(tub)} ${text}`),
  })),
  earlier: new RegExp(`^${tub}-.+$`, 'u'),
});

/** `floor` changes, `wall` does not, `lid` is new, `apron` is no longer made. */
const BEFORE = setOf('tray', { 'tray-floor': 'floor of old', 'tray-wall': 'wall', 'tray-apron': 'apron of old' });
const AFTER = setOf('tray', { 'tray-floor': 'floor of new', 'tray-wall': 'wall', 'tray-lid': 'lid of new' });
const OTHER = setOf('sink', { 'sink-floor': 'floor of another' });

const textsOf = (...sets: readonly ReturnType<typeof setOf>[]): Record<string, string> =>
  Object.fromEntries(
    sets.flatMap(({ files }) => files.map(({ name, bytes }) => [name, new TextDecoder().decode(bytes)])),
  );

const LETTER = { letter: 'to a customer' };
const OLD = { ...textsOf(BEFORE), ...LETTER };
const NEW = { ...textsOf(AFTER), ...LETTER };

const writerOver = (store: MemoryStore, me = 'a'): Writer => ({
  store,
  me,
  isRunning: () => false,
  pause: async () => undefined,
});

const write = (store: MemoryStore, set: ReturnType<typeof setOf>): Promise<WrittenSet> =>
  writeSet(writerOver(store), set, { stale: 'remove', isOwn });

const folderBefore = (): MemoryFolder => {
  const folder = new MemoryFolder();
  for (const [name, text] of Object.entries(OLD)) folder.set(name, text);
  return folder;
};

const callsOf = async (ways: Ways, folder: MemoryFolder, set: ReturnType<typeof setOf>): Promise<number> => {
  const store = memoryStore(folder.copy(), ways);
  await write(store, set);
  return store.calls();
};

interface Failed {
  readonly folder: MemoryFolder;
  readonly error: unknown;
}

const failing = async (
  ways: Ways,
  folder: MemoryFolder,
  set: ReturnType<typeof setOf>,
  fault: Fault,
): Promise<Failed> => {
  const error: unknown = await write(memoryStore(folder, ways, fault), set).then(
    () => undefined,
    (reason: unknown) => reason,
  );
  return { folder, error };
};

/** What a reader sees after the next run, of another tub into the same folder. */
const healed = async (ways: Ways, folder: MemoryFolder): Promise<Record<string, string>> => {
  await write(memoryStore(folder, ways), OTHER);
  const { 'sink-floor': other, ...rest } = folder.contents();
  expect(other).toBe(textsOf(OTHER)['sink-floor']);
  return rest;
};

const WAYS: readonly Ways[] = ['disk', 'editor'];

/** Of so many pairs of calls one is tried. */
const STRIDE = Math.ceil(29 / casesOf(1, 0.1));

const oneOf = (found: Record<string, string>, wanted: readonly Record<string, string>[], when: string): void => {
  const text = asText(found);
  if (!wanted.some((each) => asText(each) === text)) expect(found, when).toEqual(wanted[0]);
};

const asText = (contents: Record<string, string>): string => JSON.stringify(Object.entries(contents).sort());

describe.each(WAYS)('on a file system as the %s has it', (ways) => {
  it('without a fault replaces, adds, removes and leaves alone', async () => {
    const folder = folderBefore();
    const { files, note } = await write(memoryStore(folder, ways), AFTER);
    expect(files.map(({ name, outcome }) => `${name} ${outcome}`)).toEqual([
      'tray-floor replaced',
      'tray-wall unchanged',
      'tray-lid new',
      'tray-apron removed',
    ]);
    expect(note).toBeUndefined();
    expect(folder.contents()).toEqual(NEW);
  });

  it.each(['once', 'from then on'] as const)('a call that fails %s leaves all old or all new', async (how) => {
    const calls = await callsOf(ways, folderBefore(), AFTER);
    expect(calls).toBeGreaterThan(30);
    const seen = new Set<string>();
    for (let at = 0; at < calls; at++) {
      const { folder, error } = await failing(ways, folderBefore(), AFTER, { at, how });
      const { [STAGING]: staging, ...now } = folder.contents();
      if (error === undefined) expect(visible(now), `call ${at}`).toEqual(NEW);
      else {
        expect(error, `call ${at}`).toBeInstanceOf(CannotWrite);
        const halfWay = String(error).includes('half way');
        seen.add(halfWay ? 'half way' : 'undone');
        if (!halfWay) expect(visible(now), `call ${at}: ${String(error)}`).toEqual(OLD);
        if (halfWay) expect(staging, `call ${at}`).toBe('folder');
      }
      oneOf(await healed(ways, folder), [OLD, NEW], `call ${at}, healed`);
    }
    expect(seen.has('undone')).toBe(true);
    // A single fault is always undone; only when nothing works any more there is no way back.
    expect(seen.has('half way')).toBe(how === 'from then on');
  });

  it('a run that dies at any call is finished or undone by the next, of whatever tub', async () => {
    const calls = await callsOf(ways, folderBefore(), AFTER);
    const ends = new Set<string>();
    for (let at = 0; at < calls; at++) {
      const { folder, error } = await failing(ways, folderBefore(), AFTER, { at, how: 'dead' });
      if (error !== undefined) expect(`${String(error)}`, `call ${at}`).toMatch(/dead|half way/);
      const end = await healed(ways, folder);
      oneOf(end, [OLD, NEW], `call ${at}`);
      ends.add('tray-lid' in end ? 'new' : 'old');
    }
    expect([...ends].sort()).toEqual(['new', 'old']);
  });

  it('a run that dies while it heals, at any pair of calls, leaves the next to do the same', async () => {
    const calls = await callsOf(ways, folderBefore(), AFTER);
    let pairs = 0;
    for (let at = 0; at < calls; at++) {
      const { folder } = await failing(ways, folderBefore(), AFTER, { at, how: 'dead' });
      const healing = await callsOf(ways, folder, OTHER);
      for (let then = at % STRIDE; then < healing; then += STRIDE, pairs++) {
        const twice = await failing(ways, folder.copy(), OTHER, { at: then, how: 'dead' });
        oneOf(await healed(ways, twice.folder), [OLD, NEW], `calls ${at} and ${then}`);
      }
    }
    expect(pairs).toBeGreaterThan(STRIDE === 1 ? 1000 : 50);
  });

  it('a first export that dies leaves nothing or everything', async () => {
    const calls = await callsOf(ways, new MemoryFolder(), AFTER);
    for (let at = 0; at < calls; at++) {
      const { folder } = await failing(ways, new MemoryFolder(), AFTER, { at, how: 'dead' });
      oneOf(await healed(ways, folder), [{}, textsOf(AFTER)], `call ${at}`);
    }
  });
});

/** Without the staging folder, which a reader of drawings never looks into. */
const visible = (contents: Record<string, string>): Record<string, string> =>
  Object.fromEntries(Object.entries(contents).filter(([path]) => !path.startsWith(STAGING)));

it('a file that a user has put in a place since is neither replaced nor removed by healing', async () => {
  const calls = await callsOf('disk', folderBefore(), AFTER);
  for (let at = 0; at < calls; at++) {
    const { folder, error } = await failing('disk', folderBefore(), AFTER, { at, how: 'dead' });
    expect(error === undefined || error instanceof Dead || error instanceof CannotWrite).toBe(true);
    for (const name of ['tray-lid', 'tray-floor', 'tray-apron']) {
      const touched = folder.copy();
      touched.set(name, 'drawn by hand');
      expect((await healed('disk', touched))[name], `call ${at}`).toBe('drawn by hand');
    }
  }
});
