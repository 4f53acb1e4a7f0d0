/**
 * The folder in which an export is made ready before any file of its own name changes. Whoever makes it has the target to
 * himself until it is gone; what a killed run leaves in it is enough to finish or to undo what that run began.
 */
import { CannotWrite, type FileStore, type Writer } from './file-store.js';

export const STAGING = '.tubwright-export';
/** Files that are to take their place, by name. */
export const FRESH = `${STAGING}/new`;
/** What stood in the places of all files that change, by name. */
export const KEPT = `${STAGING}/old`;
/** The plan of a set that is ready as a whole: it will be finished. */
export const READY = `${STAGING}/ready`;
/** The same plan once something failed: what is done of it will be undone. */
export const UNDO = `${STAGING}/undo`;
/** A plan that is being written. */
export const DRAFT = `${STAGING}/draft`;
const OWNER = `${STAGING}/owner`;
/** The owner that another run has found dead. */
const FORMER = `${STAGING}/former`;

/** ms between two looks at a folder that another run has. */
const LOOK_EVERY = 50;
/** ms without any change after which a run counts as dead. */
const PATIENCE = {
  /** To name itself is the first thing a run does. */
  nameless: 2_000,
  /** Far longer than a file takes to write. */
  unknown: 10_000,
  /** One that seems to live, but its number may be another program's by now. */
  living: 60_000,
};

/**
 * Makes the staging folder, for this run alone. Waits while another run has it; one that a dead run left is handed to
 * `heal` first. Rejects when the folder cannot be made, or when `heal` or `demandGoing` rejects.
 */
export const enterStaging = async (
  writer: Writer,
  heal: () => Promise<void>,
  demandGoing: () => void,
): Promise<void> => {
  const { store, me } = writer;
  while (!(await makeStaging(store))) {
    if ((await awaitOther(writer, demandGoing)) === 'dead' && (await takeOver(writer))) await heal();
  }
  try {
    await store.write(OWNER, new TextEncoder().encode(me));
  } catch (error) {
    await leaveStaging(store);
    throw error;
  }
};

const makeStaging = async (store: FileStore): Promise<boolean> => {
  try {
    await store.makeFolder(STAGING);
    return true;
  } catch (error) {
    const found = await store.look(STAGING);
    if (found === 'folder') return false;
    if (found === 'nothing') throw error;
    throw new CannotWrite(`${store.nameOf(STAGING)} is no folder; take it away, so that an export can be made there`);
  }
};

const awaitOther = async (writer: Writer, demandGoing: () => void): Promise<'gone' | 'dead'> => {
  const { store, isRunning, pause } = writer;
  let seen = '';
  for (let still = 0; ; still += LOOK_EVERY) {
    demandGoing();
    if ((await store.look(STAGING)) !== 'folder') return 'gone';
    const owner = await ownerOf(store);
    const running = owner === '' ? undefined : isRunning(owner);
    if (running === false) return 'dead';
    const now = await contentsOf(store);
    if (now !== seen) still = 0;
    else if (still >= PATIENCE[running ? 'living' : owner === '' ? 'nameless' : 'unknown']) return 'dead';
    seen = now;
    await pause(LOOK_EVERY);
  }
};

/** Empty when there is none. */
const ownerOf = (store: FileStore): Promise<string> =>
  store.read(OWNER).then(
    (bytes) => new TextDecoder().decode(bytes),
    () => '',
  );

const contentsOf = async (store: FileStore): Promise<string> => {
  const names = await Promise.all([STAGING, FRESH, KEPT].map((path) => store.list(path).catch(() => [])));
  return JSON.stringify(names);
};

/** Of several runs that find the owner dead, one gets to move its name away. */
const takeOver = async ({ store, me }: Writer): Promise<boolean> => {
  if ((await store.look(OWNER)) === 'file') {
    try {
      await store.move(OWNER, FORMER);
    } catch (error) {
      if ((await store.look(OWNER)) === 'nothing') return false;
      throw error;
    }
  }
  // On a full disk the name may have no room, and what is to be finished needs none.
  await store.write(OWNER, new TextEncoder().encode(me)).catch(() => undefined);
  return true;
};

/** Takes the staging folder away, plan first: from then on there is nothing to finish or undo. */
export const leaveStaging = async (store: FileStore): Promise<void> => {
  for (const plan of [READY, UNDO, DRAFT]) if ((await store.look(plan)) === 'file') await store.removeFile(plan);
  for (const folder of [FRESH, KEPT]) {
    if ((await store.look(folder)) !== 'folder') continue;
    for (const name of await store.list(folder)) await store.removeFile(`${folder}/${name}`);
    await store.removeFolder(folder);
  }
  for (const owner of [FORMER, OWNER]) if ((await store.look(owner)) === 'file') await store.removeFile(owner);
  await store.removeFolder(STAGING);
};
