import { open, realpath } from 'node:fs/promises';
import { URI } from 'langium';
import { NodeFileSystemProvider } from 'langium/node';
import { limits } from '../../analysis/model/limits.js';
import type { LinkedFiles } from './real-places.js';

/** Bytes read of a file: what is longer than a text may be stays longer, and no disk fills the memory. */
const MOST_BYTES = 4 * (limits.text.atMost + 1);

/** Of a file of triangles: as text a triangle takes up to 300. */
const MOST_MESH_BYTES = 300 * (limits.triangles.atMost + 1);

/** The disk: it knows where a link leads, and reads no more of a file than a text may have. */
export class DiskFiles extends NodeFileSystemProvider implements LinkedFiles {
  async realUri(uri: URI): Promise<URI> {
    return URI.file(await realpath(uri.fsPath));
  }

  override async readFile(uri: URI): Promise<string> {
    return (await this.readUpTo(uri, MOST_BYTES)).toString('utf8');
  }

  override async readBinary(uri: URI): Promise<Uint8Array> {
    return this.readUpTo(uri, MOST_MESH_BYTES);
  }

  private async readUpTo(uri: URI, most: number): Promise<Buffer> {
    const file = await open(uri.fsPath);
    try {
      const { size } = await file.stat();
      if (size <= most) return await file.readFile();
      const { buffer, bytesRead } = await file.read(Buffer.alloc(most), 0, most, 0);
      return buffer.subarray(0, bytesRead);
    } finally {
      await file.close();
    }
  }
}
