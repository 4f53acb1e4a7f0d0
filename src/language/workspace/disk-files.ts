import { open, realpath } from 'node:fs/promises';
import { URI } from 'langium';
import { NodeFileSystemProvider } from 'langium/node';
import { limits } from '../../analysis/model/limits.js';
import type { LinkedFiles } from './real-places.js';

/** Bytes read of a file: what is longer than a text may be stays longer, and no disk fills the memory. */
const MOST_BYTES = 4 * (limits.text.atMost + 1);

/** The disk: it knows where a link leads, and reads no more of a file than a text may have. */
export class DiskFiles extends NodeFileSystemProvider implements LinkedFiles {
  async realUri(uri: URI): Promise<URI> {
    return URI.file(await realpath(uri.fsPath));
  }

  override async readFile(uri: URI): Promise<string> {
    const file = await open(uri.fsPath);
    try {
      const { size } = await file.stat();
      if (size <= MOST_BYTES) return await file.readFile('utf8');
      const { buffer, bytesRead } = await file.read(Buffer.alloc(MOST_BYTES), 0, MOST_BYTES, 0);
      return buffer.subarray(0, bytesRead).toString('utf8');
    } finally {
      await file.close();
    }
  }
}
