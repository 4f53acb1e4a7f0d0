import {
  AstUtils,
  DefaultScopeComputation,
  EMPTY_SCOPE,
  stream,
  type AstNodeDescription,
  type LangiumCoreServices,
  type LangiumDocument,
  type LangiumDocuments,
  type LocalSymbols,
  type ReferenceInfo,
  type Scope,
  type ScopeProvider,
} from 'langium';
import { isRef, isStrip, type TubFile } from '../generated/ast.js';
import { reachableDocuments } from '../workspace/imports.js';
import { NameTable, type NameSpace } from './names.js';

/** Gathers a file's names into its `NameTable`. */
export class TubScopeComputation extends DefaultScopeComputation {
  override async collectLocalSymbols(document: LangiumDocument): Promise<LocalSymbols> {
    return Promise.resolve(this.namesOf(document));
  }

  namesOf(document: LangiumDocument): NameTable {
    return new NameTable(document.parseResult.value as TubFile, (node, name) =>
      this.descriptions.createDescription(node, name, document),
    );
  }

  override async collectExportedSymbols(document: LangiumDocument): Promise<AstNodeDescription[]> {
    const file = document.parseResult.value as TubFile;
    return (file.statements ?? []).flatMap((node) => {
      const name = this.nameProvider.getName(node);
      return name ? [this.descriptions.createDescription(node, name, document)] : [];
    });
  }
}

/**
 * A name means something of its own file, else of a file it uses, directly or not. Each look-up is a few look-ups in
 * maps, whatever the size of the files.
 */
export class TubScopeProvider implements ScopeProvider {
  private readonly documents: LangiumDocuments;
  /** Kept while one build lasts: which tables a document sees. */
  private readonly tables = new Map<LangiumDocument, readonly NameTable[]>();

  constructor(services: LangiumCoreServices) {
    this.documents = services.shared.workspace.LangiumDocuments;
    services.shared.workspace.DocumentBuilder.onUpdate(() => this.forget());
  }

  /** To be called when documents came or went, or their text changed. */
  forget(): void {
    this.tables.clear();
  }

  getScope(context: ReferenceInfo): Scope {
    const tables = this.tablesSeenBy(AstUtils.getDocument(context.container));
    if (context.property === 'leg') return legScope(context, tables);
    if (context.property === 'sheet') return namesScope(tables, ['sheet']);
    const isThing = isRef(context.container) && context.property === 'target';
    return isThing ? namesScope(tables, ['thing', 'machine']) : namesScope(tables, ['value']);
  }

  private tablesSeenBy(document: LangiumDocument): readonly NameTable[] {
    const known = this.tables.get(document);
    if (known) return known;
    const files = reachableDocuments(this.documents, document);
    const seen = files.flatMap(({ localSymbols }) => (localSymbols instanceof NameTable ? [localSymbols] : []));
    // Who asks while a file is still being read must not decide what is found afterwards.
    if (seen.length === files.length) this.tables.set(document, seen);
    return seen;
  }
}

const namesScope = (tables: readonly NameTable[], spaces: readonly NameSpace[]): Scope => {
  const find = (name: string): AstNodeDescription | undefined => {
    for (const table of tables) {
      for (const space of spaces) {
        const found = table.get(space, name) ?? (space === 'thing' ? table.shortLeg(name) : undefined);
        if (found) return found;
      }
    }
    return undefined;
  };
  return scopeOf(find, function* () {
    for (const table of tables) for (const space of spaces) yield* table.all(space);
  });
};

const legScope = (context: ReferenceInfo, tables: readonly NameTable[]): Scope => {
  const strip = isRef(context.container) ? context.container.target?.ref : undefined;
  if (!isStrip(strip)) return EMPTY_SCOPE;
  const find = (name: string): AstNodeDescription | undefined => {
    for (const table of tables) {
      const leg = table.leg(strip, name);
      if (leg) return leg;
    }
    return undefined;
  };
  return scopeOf(find, function* () {
    for (const table of tables) yield* table.legs(strip);
  });
};

const scopeOf = (
  find: (name: string) => AstNodeDescription | undefined,
  all: () => Iterable<AstNodeDescription>,
): Scope => ({
  getElement: find,
  getElements: (name) => {
    const found = find(name);
    return stream(found ? [found] : []);
  },
  getAllElements: () => stream(all()),
});
