import type { Host } from '../command.js';
import { analyseFile } from './analyse-file.js';
import { findFiles } from './find-files.js';
import { replaceFile } from './replace-file.js';
import { foldersRead, forgetFiles, layOutFile, mendFile, pageOnDisk } from './texts.js';
import { folderChange } from './watch-folders.js';

/** Files of this machine. */
export const diskHost: Host = {
  analyse: analyseFile,
  find: findFiles,
  layOut: layOutFile,
  mend: mendFile,
  replace: (file, text) => {
    replaceFile(file, text);
    forgetFiles();
  },
  pageOf: pageOnDisk,
  change: async (signal) => {
    const isChanged = await folderChange(foldersRead(), signal);
    forgetFiles();
    return isChanged;
  },
};
