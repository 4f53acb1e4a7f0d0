import { readFileSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { CannotWrite } from '../../../files/file-store.js';

/** Writes a file anew, whole or not at all: whoever reads it meanwhile sees the old text or the new one. */
export const replaceFile = (path: string, text: string): void => {
  const beside = `${path}.new`;
  try {
    const target = realpathSync(path);
    if (readFileSync(target, 'utf8') === text) return;
    const { mode } = statSync(target);
    writeFileSync(beside, text, { flag: 'wx', mode });
    renameSync(beside, target);
  } catch (error) {
    rmSync(beside, { force: true });
    throw new CannotWrite(`${path} cannot be written: ${error instanceof Error ? error.message : String(error)}`);
  }
};
