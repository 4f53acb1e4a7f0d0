import { spawn } from 'node:child_process';
import path from 'node:path';
import { PassThrough } from 'node:stream';
import {
  createMessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
  type CancellationToken,
  type MessageConnection,
} from 'vscode-jsonrpc/node.js';
import { createConnection, type InitializeResult, type ServerCapabilities } from 'vscode-languageserver/node.js';
import type { Diagnostic, Position, TextEdit } from 'vscode-languageserver-types';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { startServer } from '../../src/language/hosts/start-server.js';
import { exporters } from '../../src/analysis/export/registry.js';
import { ClientFiles } from '../../src/language/workspace/client-files.js';
import { LIST_FOLDER, READ_FILE, type FileParams, type ListedFile } from '../../src/language/protocol.js';

export interface ClientOptions {
  /** Files that the editor can read, by name below `memory:/tubs/`. */
  readonly files?: Readonly<Record<string, string>>;
  readonly settings?: unknown;
  /** It asks for the edit of an action when that is chosen. */
  readonly resolvesEdits?: boolean;
  /** It asks for findings instead of being sent them. */
  readonly asks?: boolean;
}

const FOLDER = 'memory:/tubs';

interface Published {
  readonly uri: string;
  readonly version?: number;
  readonly diagnostics: readonly Diagnostic[];
}

/** An editor as the server sees one: opens and changes texts, waits for their diagnostics, asks. */
export class LspClient {
  private readonly published = new Map<string, Published>();
  private readonly waiting = new Set<() => void>();
  /** What the server says it can do. */
  capabilities: ServerCapabilities = {};
  private readonly codeAction: object;
  private readonly diagnostic: { readonly textDocument?: object; readonly workspace?: object };
  /** What the server told to ask for anew, in order. */
  readonly refreshed: string[] = [];
  private readonly texts = new Map<string, { text: string; version: number }>();

  constructor(
    private readonly connection: MessageConnection,
    private readonly stop: () => void,
    { files = {}, settings = {}, resolvesEdits = false, asks = false }: ClientOptions,
  ) {
    this.diagnostic = asks
      ? { textDocument: { diagnostic: {} }, workspace: { diagnostics: { refreshSupport: true } } }
      : {};
    this.codeAction = resolvesEdits ? { dataSupport: true, resolveSupport: { properties: ['edit'] } } : {};
    connection.onNotification('textDocument/publishDiagnostics', (published: Published) => {
      this.published.set(published.uri, published);
      for (const look of [...this.waiting]) look();
    });
    connection.onRequest('workspace/configuration', ({ items }: { readonly items: readonly unknown[] }) =>
      items.map(() => settings),
    );
    connection.onRequest('client/registerCapability', () => null);
    for (const what of ['codeLens', 'inlayHint', 'semanticTokens', 'diagnostic']) {
      connection.onRequest(`workspace/${what}/refresh`, () => {
        this.refreshed.push(what);
        return null;
      });
    }
    const places = new Map(
      Object.entries(files).map(([name, text]) => [name.includes(':') ? name : `${FOLDER}/${name}`, text]),
    );
    connection.onRequest(READ_FILE, ({ uri }: FileParams) => places.get(uri) ?? null);
    connection.onRequest(LIST_FOLDER, (params: FileParams): ListedFile[] =>
      [...places.keys()].filter((uri) => uri.startsWith(`${params.uri}/`)).map((uri) => ({ uri, folder: false })),
    );
    connection.listen();
  }

  async start(): Promise<void> {
    const { capabilities } = await this.connection.sendRequest<InitializeResult>('initialize', {
      processId: null,
      rootUri: FOLDER,
      workspaceFolders: [{ uri: FOLDER, name: 'tubs' }],
      capabilities: {
        workspace: {
          configuration: true,
          workspaceFolders: true,
          fileOperations: { willRename: true },
          codeLens: { refreshSupport: true },
          inlayHint: { refreshSupport: true },
          semanticTokens: { refreshSupport: true },
          ...this.diagnostic.workspace,
        },
        textDocument: {
          codeAction: this.codeAction,
          ...this.diagnostic.textDocument,
          semanticTokens: { requests: { full: true }, tokenTypes: [], tokenModifiers: [], formats: ['relative'] },
        },
      },
    });
    this.capabilities = capabilities;
    await this.connection.sendNotification('initialized', {});
  }

  /** Opens a text and returns its URI once its diagnostics are there. */
  async open(name: string, text: string): Promise<string> {
    const uri = `${FOLDER}/${name}`;
    await this.show(uri, text);
    await this.diagnostics(uri);
    return uri;
  }

  /** Opens a text of any scheme, without waiting for anything. */
  async show(uri: string, text: string): Promise<void> {
    this.texts.set(uri, { text, version: 1 });
    await this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId: 'tub', version: 1, text },
    });
  }

  /** Closes a text, as an editor does when its tab is closed or it is saved under another name. */
  async hide(uri: string): Promise<void> {
    this.texts.delete(uri);
    await this.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  }

  /** What an editor lists for a text, open or not. */
  listed(uri: string): readonly Diagnostic[] {
    return this.published.get(uri)?.diagnostics ?? [];
  }

  /** Replaces the first occurrence of `from`, as one keystroke would. */
  async edit(uri: string, from: string, to: string): Promise<void> {
    const { text, version } = this.textOf(uri);
    const start = this.position(uri, from);
    const end = positionAt(text, text.indexOf(from) + from.length);
    this.texts.set(uri, { text: text.replace(from, () => to), version: version + 1 });
    await this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version: version + 1 },
      contentChanges: [{ range: { start, end }, text: to }],
    });
  }

  /** Puts a text in the place of a range. */
  async change(uri: string, { range, newText }: TextEdit): Promise<void> {
    const { text, version } = this.textOf(uri);
    const next = TextDocument.applyEdits(TextDocument.create(uri, 'tub', version, text), [{ range, newText }]);
    this.texts.set(uri, { text: next, version: version + 1 });
    await this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version: version + 1 },
      contentChanges: [{ range, text: newText }],
    });
  }

  /** Applies edits that the server proposed. */
  async apply(uri: string, edits: readonly TextEdit[]): Promise<string> {
    const { text, version } = this.textOf(uri);
    const next = TextDocument.applyEdits(TextDocument.create(uri, 'tub', version, text), [...edits]);
    this.texts.set(uri, { text: next, version: version + 1 });
    await this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version: version + 1 },
      contentChanges: [{ text: next }],
    });
    return next;
  }

  /** The diagnostics of the text as it is now. */
  async diagnostics(uri: string): Promise<readonly Diagnostic[]> {
    const { version } = this.textOf(uri);
    return new Promise((resolve) => {
      const look = (): void => {
        const found = this.published.get(uri);
        if (found?.version === undefined || found.version < version) return;
        this.waiting.delete(look);
        resolve(found.diagnostics);
      };
      this.waiting.add(look);
      look();
    });
  }

  request<T>(method: string, params: unknown, token?: CancellationToken): Promise<T> {
    return token
      ? this.connection.sendRequest<T>(method, params, token)
      : this.connection.sendRequest<T>(method, params);
  }

  notify(method: string, params: unknown): Promise<void> {
    return this.connection.sendNotification(method, params);
  }

  onNotification<T>(method: string, take: (params: T) => void): void {
    this.connection.onNotification(method, take);
  }

  /** Where the n-th occurrence of a fragment begins. */
  position(uri: string, fragment: string, nth = 0): Position {
    const { text } = this.textOf(uri);
    let at = text.indexOf(fragment);
    for (let i = 0; i < nth; i++) at = text.indexOf(fragment, at + 1);
    if (at < 0) throw new Error(`"${fragment}" is not in ${uri}`);
    return positionAt(text, at);
  }

  textOf(uri: string): { readonly text: string; readonly version: number } {
    const found = this.texts.get(uri);
    if (!found) throw new Error(`${uri} is not open`);
    return found;
  }

  async close(): Promise<void> {
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    this.connection.dispose();
    this.stop();
  }
}

const positionAt = (text: string, offset: number): Position =>
  TextDocument.create('memory:/x', 'tub', 0, text).positionAt(offset);

/** A server in this process, spoken to through a pair of streams: the real protocol, byte by byte. */
export const connectInProcess = async (options: ClientOptions = {}): Promise<LspClient> => {
  const [toServer, toClient] = [new PassThrough(), new PassThrough()];
  const server = createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(toClient));
  // The end of a connection ends a server's process; here it would end the test's.
  server.onExit(() => undefined);
  startServer(server, () => new ClientFiles(server), exporters);
  const client = new LspClient(
    createMessageConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer)),
    () => server.dispose(),
    options,
  );
  await client.start();
  return client;
};

/** The bundled server in a process of its own. */
export const connectToBundle = async (options: ClientOptions = {}): Promise<LspClient> => {
  const bundle = path.resolve(import.meta.dirname, '../../dist/server.cjs');
  const child = spawn(process.execPath, [bundle, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const client = new LspClient(
    createMessageConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin)),
    () => child.kill(),
    options,
  );
  await client.start();
  return client;
};
