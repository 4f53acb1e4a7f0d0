/** A program that writes forty files of a tub: `node write-pan.cjs TUB VERSION FOLDER`. What kill tests kill. */
import { exportMark, isOwnExport } from '../../../src/files/own-mark.js';
import { writeSet } from '../../../src/files/write-set.js';
import { diskWriter, untilStopped } from '../../../src/language/cli/disk/disk-writer.js';

const [tub, version, folder] = process.argv.slice(2);
// One part of each version is not in the other: something is added and something removed.
const parts = [...Array.from({ length: 40 }, (_, i) => `part${i}`), `only-${version}`];
const set = {
  tub,
  files: parts.map((part) => ({
    name: `${tub}-${part}`,
    bytes: new TextEncoder().encode(`${exportMark(tub)} ${part} ${version.repeat(5000)}`),
  })),
  earlier: new RegExp(`^${tub}-.+$`, 'u'),
};
void untilStopped((signal) =>
  writeSet(diskWriter(folder), set, {
    stale: 'remove',
    isOwn: (bytes, name) => isOwnExport(bytes, name, []),
    signal,
  }),
).catch(() => {
  process.exitCode = 2;
});
