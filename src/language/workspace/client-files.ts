import { URI, type FileSystemNode, type FileSystemProvider } from 'langium';
import type { Connection } from 'vscode-languageserver';
import type { LinkedFiles } from './real-places.js';
import { LIST_FOLDER, READ_BYTES, READ_FILE, type ListedFile } from '../protocol.js';

/** Files as the editor reads them: the only way to them in a browser, and in file systems that are not the disk's. */
export class ClientFiles implements FileSystemProvider {
  constructor(private readonly connection: Connection) {}

  async readFile(uri: URI): Promise<string> {
    const text = await this.connection.sendRequest<string | null>(READ_FILE, { uri: uri.toString() });
    if (text === null) throw new Error(`${uri.toString()} cannot be read`);
    return text;
  }

  async readDirectory(uri: URI): Promise<FileSystemNode[]> {
    const entries = await this.connection.sendRequest<readonly ListedFile[]>(LIST_FOLDER, { uri: uri.toString() });
    return entries.map((entry) => ({ uri: URI.parse(entry.uri), isDirectory: entry.folder, isFile: !entry.folder }));
  }

  async stat(uri: URI): Promise<FileSystemNode> {
    await this.readFile(uri);
    return { uri, isFile: true, isDirectory: false };
  }

  async exists(uri: URI): Promise<boolean> {
    return this.readFile(uri).then(
      () => true,
      () => false,
    );
  }

  async readBinary(uri: URI): Promise<Uint8Array> {
    const bytes = await this.connection.sendRequest<string | null>(READ_BYTES, { uri: uri.toString() });
    if (bytes === null) throw new Error(`${uri.toString()} cannot be read`);
    return Uint8Array.from(atob(bytes), (letter) => letter.charCodeAt(0));
  }

  statSync(): FileSystemNode {
    throw new Error(NOT_AT_ONCE);
  }

  existsSync(): boolean {
    throw new Error(NOT_AT_ONCE);
  }

  readBinarySync(): Uint8Array {
    throw new Error(NOT_AT_ONCE);
  }

  readFileSync(): string {
    throw new Error(NOT_AT_ONCE);
  }

  readDirectorySync(): FileSystemNode[] {
    throw new Error(NOT_AT_ONCE);
  }
}

const NOT_AT_ONCE = 'The editor answers no question about files at once';

/** The disk for `file:`, the editor for everything else. */
export const filesByScheme = (disk: LinkedFiles, client: FileSystemProvider): LinkedFiles => {
  const of = (uri: URI): FileSystemProvider => (uri.scheme === 'file' ? disk : client);
  return {
    realUri: async (uri) => (uri.scheme === 'file' ? disk.realUri(uri) : uri),
    stat: (uri) => of(uri).stat(uri),
    statSync: (uri) => of(uri).statSync(uri),
    exists: (uri) => of(uri).exists(uri),
    existsSync: (uri) => of(uri).existsSync(uri),
    readBinary: (uri) => of(uri).readBinary(uri),
    readBinarySync: (uri) => of(uri).readBinarySync(uri),
    readFile: (uri) => of(uri).readFile(uri),
    readFileSync: (uri) => of(uri).readFileSync(uri),
    readDirectory: (uri) => of(uri).readDirectory(uri),
    readDirectorySync: (uri) => of(uri).readDirectorySync(uri),
  };
};
