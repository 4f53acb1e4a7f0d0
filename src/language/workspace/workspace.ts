import {
  AstUtils,
  CstUtils,
  DefaultDocumentBuilder,
  DefaultIndexManager,
  DefaultLinker,
  DefaultServiceRegistry,
  DefaultWorkspaceManager,
  DocumentState,
  interruptAndCheck,
  isAstNode,
  isOperationCancelled,
  isReference,
  stream,
  URI,
  UriUtils,
  Cancellation,
  type AstNode,
  type BuildOptions,
  type LangiumCoreServices,
  type LangiumDocument,
  type LangiumSharedCoreServices,
  type ReferenceDescription,
  type Stream,
  type WorkspaceFolder,
} from 'langium';
import type { WorkspaceFoldersChangeEvent } from 'vscode-languageserver';
import { foldersFor, isInside, reachableUris, setWorkspaceFolders, thingFiles, usedFiles } from './imports.js';
import { isMeshFile, keepMesh, meshAt } from './things.js';
import { writtenOf } from '../made-groups.js';
import { isLinked, keepPlace } from './real-places.js';

/** Loads the files that a document uses before it is linked, also those that no open folder holds. */
export class TubDocumentBuilder extends DefaultDocumentBuilder {
  protected override async buildDocuments(
    documents: LangiumDocument[],
    options: BuildOptions,
    cancelToken: Cancellation.CancellationToken,
  ): Promise<void> {
    this.prepareBuild(documents, options);
    const gone = new Set<LangiumDocument>();
    await this.runCancelable(documents, DocumentState.Parsed, cancelToken, async (document) => {
      if (!(await this.isRead(document, cancelToken))) gone.add(document);
    });
    await this.forget(gone);
    const there = documents.filter((document) => !gone.has(document));
    const used = await this.loadUsedFiles(there);
    await super.buildDocuments([...there, ...used], options, cancelToken);
  }

  /** Whoever waits for a document that goes is told so; the default lets him wait for ever. */
  protected override async awaitDocumentState(
    state: DocumentState,
    uri: URI,
    cancelToken: Cancellation.CancellationToken,
  ): Promise<URI> {
    const either = new Cancellation.CancellationTokenSource();
    const stop = (): void => either.cancel();
    const watched = [
      cancelToken.onCancellationRequested(stop),
      this.onUpdate((_, deleted) => {
        if (deleted.some((each) => each.toString() === uri.toString())) stop();
      }),
    ];
    try {
      return await super.awaitDocumentState(state, uri, either.token);
    } finally {
      for (const each of watched) each.dispose();
    }
  }

  /** Reads the text of a document; false when it is closed and no file holds it. */
  private async isRead(document: LangiumDocument, cancelToken: Cancellation.CancellationToken): Promise<boolean> {
    try {
      await this.langiumDocumentFactory.update(document, cancelToken);
      return true;
    } catch (error) {
      if (isOperationCancelled(error) || this.textDocuments?.get(document.uri)) throw error;
      return false;
    }
  }

  private async forget(gone: ReadonlySet<LangiumDocument>): Promise<void> {
    if (gone.size === 0) return;
    for (const document of gone) {
      this.langiumDocuments.deleteDocument(document.uri);
      this.cleanUpDeleted(document);
    }
    await this.emitUpdate(
      [],
      [...gone].map(({ uri }) => uri),
    );
  }

  private async loadUsedFiles(documents: readonly LangiumDocument[]): Promise<LangiumDocument[]> {
    const loaded: LangiumDocument[] = [];
    const queue = [...documents];
    for (const document of queue) {
      for (const { uri } of usedFiles(this.langiumDocuments, document)) {
        if (!uri || this.langiumDocuments.hasDocument(uri) || !(await this.isFile(uri))) continue;
        if (!(await this.liesInside(uri, document))) continue;
        const used = await this.langiumDocuments.getOrCreateDocument(uri);
        loaded.push(used);
        queue.push(used);
      }
      for (const thing of await this.loadThings(document)) {
        loaded.push(thing);
        queue.push(thing);
      }
    }
    return loaded;
  }

  /** Files of triangles are read once; tubs that are taken as things are loaded like those that are used. */
  private async loadThings(document: LangiumDocument): Promise<readonly LangiumDocument[]> {
    const loaded: LangiumDocument[] = [];
    for (const { uri } of thingFiles(this.langiumDocuments, document)) {
      if (!uri || this.langiumDocuments.hasDocument(uri) || meshAt(this.langiumDocuments, uri)) continue;
      if (!(await this.isFile(uri)) || !(await this.liesInside(uri, document))) continue;
      if (isMeshFile(uri.path)) keepMesh(this.langiumDocuments, uri, await this.fileSystemProvider.readBinary(uri));
      else if (uri.path.endsWith('.tub')) loaded.push(await this.langiumDocuments.getOrCreateDocument(uri));
    }
    return loaded;
  }

  /** Follows the links: a path that stays inside may lead to a file that does not. */
  private async liesInside(uri: URI, document: LangiumDocument): Promise<boolean> {
    const files = this.fileSystemProvider;
    if (!isLinked(files)) return true;
    const real = await files.realUri(uri);
    const folders = await Promise.all(
      foldersFor(this.langiumDocuments, document).map((folder) => files.realUri(folder).catch(() => folder)),
    );
    const isHere = folders.some((folder) => isInside(real, folder));
    keepPlace(this.langiumDocuments, uri, !isHere);
    return isHere;
  }

  private async isFile(uri: URI): Promise<boolean> {
    try {
      return (await this.fileSystemProvider.stat(uri)).isFile;
    } catch {
      return false;
    }
  }
}

/** There is one language: a text that the editor calls a tub is one, also when its name does not say so or it is closed by now. */
export class TubServiceRegistry extends DefaultServiceRegistry {
  override getServices(): LangiumCoreServices {
    return this.all[0];
  }

  /** Of the files of a folder, those whose name says so. */
  override hasServices(uri: URI): boolean {
    return this.textDocuments?.get(uri) !== undefined || this.fileExtensionMap.has(UriUtils.extname(uri));
  }
}

/** Tells the imports which folders are open. */
export class TubWorkspaceManager extends DefaultWorkspaceManager {
  private readonly texts: LangiumSharedCoreServices['workspace']['TextDocuments'];

  constructor(services: LangiumSharedCoreServices) {
    super(services);
    this.texts = services.workspace.TextDocuments;
  }

  override async initializeWorkspace(
    folders: WorkspaceFolder[],
    cancelToken?: Cancellation.CancellationToken,
  ): Promise<void> {
    setWorkspaceFolders(
      this.langiumDocuments,
      folders.map((folder) => URI.parse(folder.uri)),
    );
    await super.initializeWorkspace(folders, cancelToken);
  }

  async changeFolders({ added, removed }: WorkspaceFoldersChangeEvent): Promise<void> {
    await this.ready;
    const gone = new Set(removed.map(({ uri }) => uri));
    this.folders = [...(this.folders ?? []).filter(({ uri }) => !gone.has(uri)), ...added];
    const open = this.folders.map(({ uri }) => URI.parse(uri));
    setWorkspaceFolders(this.langiumDocuments, open);
    const found = (await Promise.all(added.map(({ uri }) => this.searchFolder(URI.parse(uri))))).flat();
    const left = removed.map(({ uri }) => URI.parse(uri));
    const known = this.langiumDocuments.all.map(({ uri }) => uri).toArray();
    const isLeft = (uri: URI): boolean =>
      left.some((folder) => isInside(uri, folder)) && !open.some((folder) => isInside(uri, folder));
    const [lost, kept] = [
      known.filter((uri) => isLeft(uri) && !this.isOpen(uri)),
      known.filter((uri) => !isLeft(uri) || this.isOpen(uri)),
    ];
    await this.mutex.write((token) => this.documentBuilder.update([...kept, ...found], lost, token));
  }

  private isOpen(uri: URI): boolean {
    return this.texts?.get(uri) !== undefined;
  }
}

/** Knows who depends on whom through any number of `use` statements, and finds references without an index of them. */
export class TubIndexManager extends DefaultIndexManager {
  constructor(services: LangiumSharedCoreServices) {
    super(services);
  }

  override isAffected(document: LangiumDocument, changedUris: Set<string>): boolean {
    for (const uri of reachableUris(this.documents, document)) if (changedUris.has(uri)) return true;
    return false;
  }

  /** Not kept: it would cost every keystroke what only a rename asks for. */
  override async updateReferences(): Promise<void> {
    return Promise.resolve();
  }

  override findAllReferences(targetNode: AstNode, targetPath: string): Stream<ReferenceDescription> {
    const target = AstUtils.getDocument(targetNode).uri;
    return this.documents.all.flatMap((document) =>
      stream(document.references).flatMap((reference): ReferenceDescription[] => {
        if (!isReference(reference) || !reference.ref || writtenOf(reference.ref) !== targetNode || !reference.$refNode)
          return [];
        return [
          {
            sourceUri: document.uri,
            sourcePath: this.serviceRegistry
              .getServices(document.uri)
              .workspace.AstNodeLocator.getAstNodePath(reference.$refNode.astNode),
            targetUri: target,
            targetPath,
            segment: CstUtils.toDocumentSegment(reference.$refNode)!,
            local: document.uri.toString() === target.toString(),
          },
        ];
      }),
    );
  }
}

/** Links every reference in one plain walk; the default yields to the event loop at every node. */
export class TubLinker extends DefaultLinker {
  override async link(document: LangiumDocument, cancelToken?: Cancellation.CancellationToken): Promise<void> {
    const file = document.parseResult.value as AstNode & { readonly statements?: readonly AstNode[] };
    let count = 0;
    for (const statement of file.statements ?? []) {
      if (cancelToken && ++count % 64 === 0) await interruptAndCheck(cancelToken);
      this.linkNode(statement, document);
    }
  }

  /** The same in one go. */
  linkNow(document: LangiumDocument): void {
    this.linkNode(document.parseResult.value, document);
  }

  private linkNode(node: AstNode, document: LangiumDocument): void {
    for (const property in node) {
      if (property.charCodeAt(0) === DOLLAR) continue;
      const value = (node as unknown as Record<string, unknown>)[property];
      if (typeof value !== 'object' || value === null) continue;
      if (!Array.isArray(value)) this.linkValue(node, property, value, document);
      else for (const [index, item] of value.entries()) this.linkValue(node, property, item, document, index);
    }
  }

  private linkValue(node: AstNode, property: string, value: unknown, document: LangiumDocument, index?: number): void {
    if (isReference(value)) this.doLink({ reference: value, container: node, property, index }, document);
    else if (isAstNode(value)) this.linkNode(value, document);
  }
}

const DOLLAR = '$'.charCodeAt(0);
