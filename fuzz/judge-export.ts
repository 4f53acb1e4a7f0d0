import { DEFAULT_OPTIONS, isFile, type ExportFile } from '../src/analysis/export/exporter.js';
import { exporters } from '../src/analysis/export/registry.js';
import { LIST_HEADS } from '../src/analysis/export/lists/csv.js';
import { CannotWrite, type Writer } from '../src/files/file-store.js';
import { isOwnExport } from '../src/files/own-mark.js';
import { STAGING } from '../src/files/staging.js';
import { writeSet } from '../src/files/write-set.js';
import { makeExport } from '../src/language/requests/make-export.js';
import { Dead, MemoryFolder, memoryStore, type Fault, type MemoryStore } from '../tests/support/memory-store.js';
import { Dice } from './dice.js';
import { analysed, firstLines } from './judge-text.js';
import type { Verdict } from './job.js';

/** Every file that can be made of the tub, written into a folder whose disk fails at some call. */
export const judgeExport = async (
  text: string,
  seed: number,
): Promise<Pick<Verdict, 'faults' | 'marks' | 'counts'>> => {
  const dice = new Dice(seed);
  const { stages } = analysed(text);
  if (stages.tub.panels.length === 0) return { faults: [], marks: [], counts: {} };
  const options = { ...DEFAULT_OPTIONS, ...(dice.onceIn(3) && { paper: 'Letter' as const, units: 'inch' as const }) };
  const files: ExportFile[] = [];
  const faults: string[] = [];
  for (const { format } of exporters) {
    try {
      const making = makeExport(stages, { formats: [format], options }, exporters);
      for (let step = await making.next(); !step.done; step = await making.next())
        if (isFile(step.value.made)) files.push(step.value.made);
    } catch (error) {
      faults.push(
        `crash export ${format}: ${firstLines(error instanceof Error ? (error.stack ?? '') : String(error))}`,
      );
    }
  }
  for (const { name, content } of files)
    if (typeof content === 'string' && /\b(NaN|Infinity|undefined)\b/.test(content))
      faults.push(`no number: in a ${ending(name)} file`);
  faults.push(...(await writeFaults(stages.tub.name, files, dice)));
  return { faults, marks: [], counts: { exports: 1, 'broken writes': 1 } };
};

const ending = (name: string): string => name.replace(/^.*\./, '');

const isOwn = (bytes: Uint8Array, tub: string): boolean => isOwnExport(bytes, tub, LIST_HEADS);

/** Over an earlier export of which some files differ: afterwards all is as it was, or all is new. */
const writeFaults = async (tub: string, files: readonly ExportFile[], dice: Dice): Promise<readonly string[]> => {
  if (files.length === 0) return [];
  const set = { tub, files: files.map(({ name, content }) => ({ name, bytes: bytesOf(content) })), earlier: /^$/ };
  const folder = new MemoryFolder();
  folder.set('letter.txt', 'to a customer');
  for (const { name, bytes } of set.files) if (dice.onceIn(2)) folder.set(name, textOf(bytes));
  const before = JSON.stringify(folder.contents());
  const dry = memoryStore(folder.copy());
  await writeSet(writerOver(dry), set, { stale: 'name', isOwn });
  const fault: Fault = { at: dice.below(dry.calls()), how: dice.of(['once', 'from then on', 'dead'] as const) };
  const error: unknown = await writeSet(writerOver(memoryStore(folder, 'disk', fault)), set, {
    stale: 'name',
    isOwn,
  }).then(
    () => undefined,
    (reason: unknown) => reason,
  );
  if (error !== undefined && !(error instanceof CannotWrite) && !(error instanceof Dead))
    return ['write: no plain reason'];
  await writeSet(
    writerOver(memoryStore(folder)),
    { tub: 'another', files: [], earlier: /^$/ },
    { stale: 'name', isOwn },
  ).catch(() => undefined);
  const { [STAGING]: _staging, ...now } = folder.contents();
  const isOld = JSON.stringify(now) === before;
  const isNew = set.files.every(({ name, bytes }) => now[name] === textOf(bytes));
  return isOld || isNew || STAGING in folder.contents() ? [] : ['write: neither old nor new'];
};

const bytesOf = (content: ExportFile['content']): Uint8Array =>
  typeof content === 'string' ? new TextEncoder().encode(content) : content;
const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

const writerOver = (store: MemoryStore): Writer => ({
  store,
  me: 'fuzz',
  isRunning: () => false,
  pause: async () => undefined,
});
