/** Several runs at one folder. */
import { expect, it } from 'vitest';
import { CannotWrite, type Writer } from '../../src/files/file-store.js';
import { exportMark, isOwnExport } from '../../src/files/own-mark.js';
import { STAGING } from '../../src/files/staging.js';
import { writeSet } from '../../src/files/write-set.js';
import { MemoryFolder, memoryStore } from '../support/memory-store.js';

const options = {
  stale: 'name',
  isOwn: (bytes: Uint8Array, tub: string): boolean => isOwnExport(bytes, tub, []),
} as const;

const setOf = (tub: string, version: string) => ({
  tub,
  files: ['floor', 'wall', 'lid'].map((part) => ({
    name: `${tub}-${part}`,
    bytes: new TextEncoder().encode(`${exportMark(tub)} ${part} ${version}`),
  })),
  earlier: new RegExp(`^${tub}-.+$`, 'u'),
});

interface Clock {
  waited: number;
}

const writerOf = (
  folder: MemoryFolder,
  me: string,
  running: boolean | undefined,
  clock: Clock = { waited: 0 },
): Writer => ({
  store: memoryStore(folder),
  me,
  isRunning: () => running,
  pause: async (milliseconds) => {
    clock.waited += milliseconds;
    await new Promise((resolve) => setImmediate(resolve));
  },
});

it('two at a time give one whole set, never a mix', async () => {
  for (let lead = 0; lead < 40; lead++) {
    const folder = new MemoryFolder();
    const first = writeSet(writerOf(folder, 'a', true), setOf('tray', 'one'), options);
    for (let turn = 0; turn < lead; turn++) await Promise.resolve();
    await Promise.all([first, writeSet(writerOf(folder, 'b', true), setOf('tray', 'two'), options)]);
    const texts = Object.values(folder.contents());
    expect(texts.length).toBe(3);
    expect(new Set(texts.map((text) => text.split(' ').pop())).size, `lead ${lead}`).toBe(1);
  }
});

it('two tubs at a time are both written', async () => {
  const folder = new MemoryFolder();
  await Promise.all(
    ['tray', 'sink', 'pan'].map((tub) => writeSet(writerOf(folder, tub, true), setOf(tub, 'one'), options)),
  );
  expect(Object.keys(folder.contents()).length).toBe(9);
});

const left = (owner: string | undefined): MemoryFolder => {
  const folder = new MemoryFolder();
  folder.set(STAGING, 'folder', 'thing');
  if (owner !== undefined) folder.set(`${STAGING}/owner`, owner);
  return folder;
};

it.each([
  ['at once, known to be dead', 'x', false, [0, 0]],
  ['after seconds, of unknown state', 'x', undefined, [10_000, 10_200]],
  ['soon, never named', undefined, undefined, [2_000, 2_200]],
  ['after a minute, under a number that lives', 'x', true, [60_000, 60_200]],
] as const)('what a run left that shows no sign of life is taken over %s', async (_, owner, running, [least, most]) => {
  const clock = { waited: 0 };
  const folder = left(owner);
  await writeSet(writerOf(folder, 'me', running, clock), setOf('tray', 'one'), options);
  expect(Object.keys(folder.contents()).length).toBe(3);
  expect(clock.waited).toBeGreaterThanOrEqual(least);
  expect(clock.waited).toBeLessThanOrEqual(most);
});

it('waiting can be stopped, and then nothing is changed', async () => {
  const folder = left('x');
  const stop = new AbortController();
  const writing = writeSet(writerOf(folder, 'me', true), setOf('tray', 'one'), { ...options, signal: stop.signal });
  setImmediate(() => stop.abort());
  await expect(writing).rejects.toThrow(new CannotWrite('Stopped: nothing is changed'));
  expect(Object.keys(folder.contents())).toEqual([STAGING, `${STAGING}/owner`]);
});

it('a signal during the writing stops it before the first file changes, or lets it come to its end', async () => {
  const ends = new Set<number>();
  for (let turn = 0; turn < 120; turn++) {
    const folder = new MemoryFolder();
    const stop = new AbortController();
    const writing = writeSet(writerOf(folder, 'me', true), setOf('tray', 'one'), { ...options, signal: stop.signal });
    for (let i = 0; i < turn; i++) await Promise.resolve();
    stop.abort();
    await writing.catch((error: unknown) => expect(error).toBeInstanceOf(CannotWrite));
    ends.add(Object.keys(folder.contents()).length);
  }
  expect([...ends].sort()).toEqual([0, 3]);
});

it.each(['link', 'something else', 'text'] as const)(
  'a %s where the staging folder goes is left alone',
  async (kind) => {
    const folder = new MemoryFolder();
    folder.set(STAGING, kind, kind === 'text' ? 'text' : 'thing');
    const before = folder.contents();
    await expect(writeSet(writerOf(folder, 'me', false), setOf('tray', 'one'), options)).rejects.toThrow(
      'is no folder',
    );
    expect(folder.contents()).toEqual(before);
  },
);

it.each([
  ['no plan at all', 'plan'],
  ['names that lead elsewhere', '{"tub":"tray","put":["../../x"],"added":[],"remove":[]}'],
  ['a name that is none', '{"tub":"tray","put":[],"added":[],"remove":[".."]}'],
])('a plan with %s is not followed', async (_, plan) => {
  const folder = left('x');
  folder.set(`${STAGING}/ready`, plan);
  folder.set('letter', 'to a customer');
  const before = folder.contents();
  await expect(writeSet(writerOf(folder, 'me', false), setOf('tray', 'one'), options)).rejects.toThrow(
    'cannot be understood',
  );
  const { [`${STAGING}/owner`]: _owner, [`${STAGING}/former`]: _former, ...now } = folder.contents();
  const { [`${STAGING}/owner`]: _before, ...was } = before;
  expect(now).toEqual(was);
});

it('a plan made by someone else removes no file but exports of the tub that it names', async () => {
  const folder = left('x');
  folder.set('letter', 'to a customer');
  folder.set(`${STAGING}/new`, 'folder', 'thing');
  folder.set(`${STAGING}/old`, 'folder', 'thing');
  folder.set(`${STAGING}/new/letter`, 'other words');
  folder.set(`${STAGING}/ready`, '{"tub":"tray","put":["letter"],"added":["letter"],"remove":["letter"]}');
  await writeSet(writerOf(folder, 'me', false), setOf('tray', 'one'), options);
  expect(folder.contents().letter).toBe('to a customer');
});
