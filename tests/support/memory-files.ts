import type { FileSystemNode, FileSystemProvider } from 'langium';
import type { URI } from 'langium';

/** Files that exist only in a test: by address, changed at will. */
export class MemoryFiles implements FileSystemProvider {
  private readonly texts = new Map<string, string>();

  set(uri: URI, text: string): void {
    this.texts.set(uri.toString(), text);
  }

  readFileSync(uri: URI): string {
    const text = this.texts.get(uri.toString());
    if (text === undefined) throw new Error(`${uri.toString()} is not there`);
    return text;
  }

  statSync(uri: URI): FileSystemNode {
    this.readFileSync(uri);
    return { uri, isFile: true, isDirectory: false };
  }

  existsSync(uri: URI): boolean {
    return this.texts.has(uri.toString());
  }

  readBinarySync(uri: URI): Uint8Array {
    return new TextEncoder().encode(this.readFileSync(uri));
  }

  readDirectorySync(): FileSystemNode[] {
    return [];
  }

  async readFile(uri: URI): Promise<string> {
    return this.readFileSync(uri);
  }

  async stat(uri: URI): Promise<FileSystemNode> {
    return this.statSync(uri);
  }

  async exists(uri: URI): Promise<boolean> {
    return this.existsSync(uri);
  }

  async readBinary(uri: URI): Promise<Uint8Array> {
    return this.readBinarySync(uri);
  }

  async readDirectory(): Promise<FileSystemNode[]> {
    return [];
  }
}
