import {
  DefaultDocumentBuilder,
  DefaultIndexManager,
  DefaultLinker,
  DefaultWorkspaceManager,
  DocumentState,
  interruptAndCheck,
  isAstNode,
  isReference,
  stream,
  URI,
  type AstNode,
  type BuildOptions,
  type Cancellation,
  type LangiumDocument,
  type LangiumSharedCoreServices,
  type ReferenceDescription,
  type Stream,
  type WorkspaceFolder,
} from 'langium';
import { CstUtils, AstUtils } from 'langium';
import { reachableUris, setWorkspaceFolders, usedFiles, workspaceFoldersOf } from './imports.js';

/** Loads the files that a document uses before it is linked, also those that no open folder holds. */
export class TubDocumentBuilder extends DefaultDocumentBuilder {
  protected override async buildDocuments(
    documents: LangiumDocument[],
    options: BuildOptions,
    cancelToken: Cancellation.CancellationToken,
  ): Promise<void> {
    this.prepareBuild(documents, options);
    await this.runCancelable(documents, DocumentState.Parsed, cancelToken, (document) =>
      this.langiumDocumentFactory.update(document, cancelToken),
    );
    const used = await this.loadUsedFiles(documents);
    await super.buildDocuments([...documents, ...used], options, cancelToken);
  }

  private async loadUsedFiles(documents: readonly LangiumDocument[]): Promise<LangiumDocument[]> {
    const loaded: LangiumDocument[] = [];
    const queue = [...documents];
    for (const document of queue) {
      for (const { uri } of usedFiles(document, workspaceFoldersOf(this.langiumDocuments))) {
        if (!uri || this.langiumDocuments.hasDocument(uri) || !(await this.isFile(uri))) continue;
        const used = await this.langiumDocuments.getOrCreateDocument(uri);
        loaded.push(used);
        queue.push(used);
      }
    }
    return loaded;
  }

  private async isFile(uri: URI): Promise<boolean> {
    try {
      return (await this.fileSystemProvider.stat(uri)).isFile;
    } catch {
      return false;
    }
  }
}

/** Tells the imports which folders are open. */
export class TubWorkspaceManager extends DefaultWorkspaceManager {
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
        if (!isReference(reference) || reference.ref !== targetNode || !reference.$refNode) return [];
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
