/** Writing an export: all files or none, and never over anything that is not an earlier export of the same tub. */
import { commit, HalfWay, heal, stage, type Change, type IsOwn } from './change.js';
import { CannotWrite, reasonOf, type FileStore, type Writer } from './file-store.js';
import { planSet, type FileSet, type PlannedFile } from './plan-set.js';
import { enterStaging, leaveStaging, STAGING } from './staging.js';

export interface SetOptions {
  /** What an earlier export of the tub wrote and this one does not: named, or taken away. */
  readonly stale: 'name' | 'remove';
  readonly isOwn: IsOwn;
  /** Stops what has not yet begun to change files. */
  readonly signal?: AbortSignal;
}

export interface WrittenSet {
  readonly files: readonly PlannedFile[];
  /** One sentence where all files are in place and something else went wrong. */
  readonly note: string | undefined;
}

/**
 * Writes the set into the writer's folder, which is made when missing: afterwards all files of it are there as given, or
 * nothing has changed. Files are first written into a folder beside, then moved to their places; a run that is killed
 * between two moves is brought to its end by the next one. Rejects with `CannotWrite` and one sentence.
 */
export const writeSet = async (writer: Writer, set: FileSet, options: SetOptions): Promise<WrittenSet> => {
  const { store } = writer;
  const demandGoing = (): void => {
    if (options.signal?.aborted) throw new CannotWrite('Stopped: nothing is changed');
  };
  try {
    const unmake = await store.makeItself();
    try {
      await enterStaging(writer, () => heal(store, options.isOwn), demandGoing);
      return await writeInside(store, set, options, demandGoing);
    } catch (error) {
      await unmake().catch(() => undefined);
      throw error;
    }
  } catch (error) {
    if (error instanceof CannotWrite) throw error;
    throw new CannotWrite(`Cannot write into ${store.name}: ${reasonOf(error)}; nothing is changed`);
  }
};

const writeInside = async (
  store: FileStore,
  set: FileSet,
  { stale, isOwn }: SetOptions,
  demandGoing: () => void,
): Promise<WrittenSet> => {
  try {
    const files = await planSet(store, set, isOwn, stale);
    const change = changeOf(set.tub, files);
    if (change.put.length + change.remove.length > 0) {
      const bytes = new Map(set.files.map((file) => [file.name, file.bytes]));
      await stage(store, change, (name) => bytes.get(name) ?? new Uint8Array(), demandGoing);
      demandGoing();
      await commit(store, change, isOwn);
    }
    return { files, note: await leaveWithNote(store) };
  } catch (error) {
    if (!(error instanceof HalfWay)) await leaveStaging(store).catch(() => undefined);
    throw error;
  }
};

const leaveWithNote = (store: FileStore): Promise<string | undefined> =>
  leaveStaging(store).then(
    () => undefined,
    (error: unknown) =>
      `${store.nameOf(STAGING)} cannot be taken away: ${reasonOf(error)}; the next export into ${store.name} does that`,
  );

const changeOf = (tub: string, files: readonly PlannedFile[]): Change => {
  const named = (...outcomes: readonly PlannedFile['outcome'][]): string[] =>
    files.filter(({ outcome }) => outcomes.includes(outcome)).map(({ name }) => name);
  return { tub, put: named('new', 'replaced'), added: named('new'), remove: named('removed') };
};
