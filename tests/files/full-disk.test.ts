/** An export onto a disk that has too little room, where the machine lets one be mounted. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { exportMark, isOwnExport } from '../../src/files/own-mark.js';
import { writeSet } from '../../src/files/write-set.js';
import { diskWriter } from '../../src/language/cli/disk/disk-writer.js';

const place = mkdtempSync(join(tmpdir(), 'tubwright-disk-'));
const ROOM = 300 * 1024;

const mounted = ((): boolean => {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${ROOM}`, 'tmpfs', place], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
})();

afterAll(() => {
  if (mounted) execFileSync('umount', [place]);
  rmSync(place, { recursive: true });
});

const setOf = (version: string, sizes: readonly number[]) => ({
  tub: 'tray',
  files: sizes.map((size, i) => ({
    name: `tray-${i}`,
    bytes: new TextEncoder().encode(`${exportMark('tray')} ${version} `.padEnd(size, version)),
  })),
  earlier: /^tray-\d+$/u,
});

const write = (folder: string, set: ReturnType<typeof setOf>) =>
  writeSet(diskWriter(folder), set, {
    stale: 'remove',
    isOwn: (bytes, tub) => isOwnExport(bytes, tub, []),
  });

const contentsOf = (folder: string): Record<string, string> =>
  Object.fromEntries(readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'latin1')]));

const asContents = ({ files }: ReturnType<typeof setOf>): Record<string, string> =>
  Object.fromEntries(files.map(({ name, bytes }) => [name, new TextDecoder().decode(bytes)]));

const OLD = setOf('old', [20_000, 20_000, 20_000]);
const NEW = setOf('new', [30_000, 30_000, 30_000, 30_000]);

describe.runIf(mounted)('on a small disk', () => {
  it('with any amount of room left all files are replaced or none is touched', async () => {
    const folder = join(place, 'out');
    mkdirSync(folder);
    const ends = new Set<string>();
    for (let filler = 0; filler < ROOM; filler += 8192) {
      await write(folder, OLD);
      const room = statfsSync(place);
      writeFileSync(join(place, 'filler'), new Uint8Array(Math.min(filler, room.bavail * room.bsize)));
      const end = await write(folder, NEW).then(
        () => 'written',
        (error: unknown) => String(error),
      );
      ends.add(end.replace(place, ''));
      expect(contentsOf(folder), `filler ${filler}: ${end}`).toEqual(asContents(end === 'written' ? NEW : OLD));
      rmSync(join(place, 'filler'));
    }
    expect([...ends]).toEqual(['written', 'Error: Cannot write into /out: no room left; nothing is changed']);
  });
});
