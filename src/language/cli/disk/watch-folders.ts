import { existsSync, watch } from 'node:fs';

/** ms: an editor saves by several steps that lie close together. */
const SETTLED_AFTER = 100;

/** The current folder is watched too: where all others are gone, somebody still waits. True once a `.tub` file of one of the folders has changed and nothing more did for a moment; false when told to stop. */
export const folderChange = (folders: readonly string[], signal: AbortSignal): Promise<boolean> =>
  new Promise((resolve) => {
    let settled: NodeJS.Timeout | undefined;
    const watched = new Set([process.cwd(), ...folders.filter((folder) => existsSync(folder))]);
    const watchers = [...watched].map((folder) =>
      watch(folder, (_, name) => {
        if (name !== null && !name.endsWith('.tub')) return;
        clearTimeout(settled);
        settled = setTimeout(() => end(true), SETTLED_AFTER);
      }),
    );
    const end = (isChanged: boolean): void => {
      clearTimeout(settled);
      for (const watcher of watchers) watcher.close();
      signal.removeEventListener('abort', stop);
      resolve(isChanged);
    };
    const stop = (): void => end(false);
    signal.addEventListener('abort', stop);
    if (signal.aborted) stop();
  });
