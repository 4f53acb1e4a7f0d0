/** A change of many files at once that is made as a whole or not at all, also when the run that makes it is killed. */
import { CannotWrite, reasonOf, type FileStore } from './file-store.js';
import { DRAFT, FRESH, KEPT, leaveStaging, READY, STAGING, UNDO } from './staging.js';

/** Names in the folder. Every one that is not `added` stands there before the change. */
export interface Change {
  /** Of the tub whose files they are. */
  readonly tub: string;
  readonly put: readonly string[];
  /** Those of `put` in whose place there was nothing. */
  readonly added: readonly string[];
  readonly remove: readonly string[];
}

export type IsOwn = (bytes: Uint8Array, tubName: string, fileName?: string) => boolean;

/** Lays everything ready beside the old files. Changes none of them; rejects when any of it fails. */
export const stage = async (
  store: FileStore,
  change: Change,
  bytesOf: (name: string) => Uint8Array,
  demandGoing: () => void,
): Promise<void> => {
  await store.makeFolder(FRESH);
  await store.makeFolder(KEPT);
  await all(change.put, async (name) => {
    demandGoing();
    await store.write(`${FRESH}/${name}`, bytesOf(name));
  });
  for (const name of changedNames(change)) {
    demandGoing();
    await store.keep(name, `${KEPT}/${name}`);
  }
  await store.settle(FRESH);
  await store.settle(KEPT);
  await store.write(DRAFT, new TextEncoder().encode(JSON.stringify(change)));
};

/** Files are written at the same time, as disks like it; with one failed, the others come to an end before this does. */
const all = async (names: readonly string[], act: (name: string) => Promise<void>): Promise<void> => {
  const ends = await Promise.allSettled(names.map(act));
  const failed = ends.find((end) => end.status === 'rejected');
  if (failed) throw failed.reason;
};

const changedNames = ({ put, added, remove }: Change): string[] => [
  ...put.filter((name) => !added.includes(name)),
  ...remove,
];

/** Neither done nor undone: the staging folder holds what the next run needs to put that right. */
export class HalfWay extends CannotWrite {}

/** Makes the change that is staged; when something fails, undoes it and rejects, with `HalfWay` if that fails as well. */
export const commit = async (store: FileStore, change: Change, isOwn: IsOwn): Promise<void> => {
  await store.move(DRAFT, READY);
  await store.settle(STAGING);
  try {
    await finish(store, change.put, change.remove);
  } catch (error) {
    await undo(store, change, isOwn).catch(() => {
      throw new HalfWay(
        `Writing into ${store.name} stopped half way: ${reasonOf(error)}; the next export into it puts that right`,
      );
    });
    throw error;
  }
};

/** Nothing here waits for anything but the moves themselves: the less time between the first and the last, the better. */
const finish = async (store: FileStore, put: readonly string[], remove: readonly string[]): Promise<void> => {
  for (const name of put) await store.move(`${FRESH}/${name}`, name);
  for (const name of remove) await store.removeFile(name);
  await store.settle('');
};

/** Undoes a change from whatever point it had come to. A file that a user has put in a place since is left there. */
const undo = async (store: FileStore, { tub, put, added, remove }: Change, isOwn: IsOwn): Promise<void> => {
  if ((await store.look(READY)) === 'file') await store.move(READY, UNDO);
  for (const name of [...put, ...remove]) {
    if (!(await isFree(store, name, (bytes) => isOwn(bytes, tub)))) continue;
    if ((await store.look(`${KEPT}/${name}`)) === 'file') await store.move(`${KEPT}/${name}`, name);
    else if (!added.includes(name) || (await store.look(`${FRESH}/${name}`)) === 'file') continue;
    else if ((await store.look(name)) === 'file') await store.removeFile(name);
  }
  await store.settle('');
};

const isFree = async (store: FileStore, name: string, own: (bytes: Uint8Array) => boolean): Promise<boolean> => {
  const found = await store.look(name);
  return found === 'nothing' || (found === 'file' && own(await store.read(name)));
};

/**
 * Brings to an end what a dead run left in the staging folder, and takes that away: finishes a set that is ready as a
 * whole, undoes it where it cannot be finished, and drops one that never became ready.
 */
export const heal = async (store: FileStore, isOwn: IsOwn): Promise<void> => {
  try {
    const plan = (await planIn(store, READY)) ?? (await planIn(store, UNDO));
    if (plan) await bringToEnd(store, plan, isOwn);
    await leaveStaging(store);
  } catch (error) {
    throw new HalfWay(
      `An earlier export into ${store.name} was stopped half way and cannot be brought to its end: ${reasonOf(error)}`,
    );
  }
};

const bringToEnd = async (store: FileStore, plan: Change, isOwn: IsOwn): Promise<void> => {
  const isFile = async (path: string): Promise<boolean> => (await store.look(path)) === 'file';
  const isPlace = (name: string): Promise<boolean> => isFree(store, name, (bytes) => isOwn(bytes, plan.tub));
  const pending = await filtered(plan.put, (name) => isFile(`${FRESH}/${name}`));
  const places = await filtered(pending, isPlace);
  if ((await isFile(UNDO)) || places.length < pending.length) return undo(store, plan, isOwn);
  const stale = await filtered(plan.remove, async (name) => (await isFile(name)) && (await isPlace(name)));
  try {
    await finish(store, pending, stale);
  } catch {
    await undo(store, plan, isOwn);
  }
};

const filtered = async (names: readonly string[], keep: (name: string) => Promise<boolean>): Promise<string[]> => {
  const kept: string[] = [];
  for (const name of names) if (await keep(name)) kept.push(name);
  return kept;
};

/** Undefined when there is none. Its names are held to be names, never ways elsewhere. */
const planIn = async (store: FileStore, path: string): Promise<Change | undefined> => {
  if ((await store.look(path)) !== 'file') return undefined;
  const plan = parsed(new TextDecoder().decode(await store.read(path)));
  if (isChange(plan)) return plan;
  throw new Error(`${store.nameOf(path)} cannot be understood; look through the files, then take ${STAGING} away`);
};

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

const isChange = (value: unknown): value is Change => {
  if (typeof value !== 'object' || value === null) return false;
  const { tub, put, added, remove } = value as Partial<Record<keyof Change, unknown>>;
  return typeof tub === 'string' && [put, added, remove].every((names) => Array.isArray(names) && names.every(isName));
};

const isName = (name: unknown): boolean => typeof name === 'string' && /^[^/\\\0]+$/.test(name) && !/^\.+$/.test(name);
